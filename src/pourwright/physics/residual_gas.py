"""Air that stays behind in a bed of grains when a liquid has filled it."""

from __future__ import annotations

from math import log

from pourwright.foundation.checks import Range, checked
from pourwright.physics.constants import STANDARD_GRAVITY

POSITIVE = Range(0.0, open_low=True)
BEHIND = 0.143
"""Share of the voids that a slow front leaves full of gas where weight does not count [-]."""
FIRST, LAST = 0.00667, 0.35
"""Bond numbers from which on less is held, and at which nearly nothing is [-]."""


@checked(density_difference=POSITIVE, diameter=Range(0.0, 1.0, "m", open_low=True), surface_tension=POSITIVE)
def bond_number(density_difference: float, diameter: float, surface_tension: float) -> float:
    """Weight against surface tension, for gas between grains.

    Parameters
    ----------
    density_difference : between liquid and gas [kg/m3]
    diameter : of balls with as much surface as the grains [m]
    surface_tension : of the liquid [N/m]

    Returns
    -------
    number [-]

    Raises
    ------
    RangeError : an argument not above 0

    Notes
    -----
    N = drho g R^2 / gamma with the radius R of the balls.

    References
    ----------
    Morrow & Songkran 1981 [morrow-songkran-1981] (citation from memory).

    Examples
    --------
    >>> print(f"{bond_number(1100.0, 0.0012, 0.040):.4f}")
    0.0971
    """
    return density_difference * STANDARD_GRAVITY * (0.5 * diameter) ** 2 / surface_tension


@checked(bond=POSITIVE)
def held_by_grains(bond: float) -> float:
    """Share of the voids in which surface tension holds gas for good.

    Parameters
    ----------
    bond : weight against surface tension, `bond_number` [-]

    Returns
    -------
    gas held over the volume of the voids [-]

    Raises
    ------
    RangeError : a number not above 0

    Notes
    -----
    0.143 up to N = 0.00667, nearly none from 0.35 on; straight over the logarithm between them, which
    is ours. Measured on packed balls that the liquid wets well, filled slowly from below: poured from
    above in a flood, more is shut in. Under its own weight a front's capillary number goes with the Bond
    number, so that it is not counted once more.

    References
    ----------
    Morrow & Songkran, Effect of viscous and buoyancy forces on nonwetting phase trapping in porous media,
    in Shah (ed.), Surface Phenomena in Enhanced Oil Recovery (1981) 387 [morrow-songkran-1981] (from memory).

    Examples
    --------
    >>> print(f"{held_by_grains(0.0971):.3f}", held_by_grains(0.5))
    0.046 0.0
    """
    share = log(LAST / min(max(bond, FIRST), LAST)) / log(LAST / FIRST)
    return BEHIND * share
