"""A liquid that goes out of a tube into the bed of grains around it."""

from __future__ import annotations

from math import log, pi

from pourwright.foundation.checks import Range, checked
from pourwright.physics.constants import STANDARD_GRAVITY

POSITIVE = Range(0.0, open_low=True)


@checked(
    volume=POSITIVE,
    permeability=POSITIVE,
    thickness=POSITIVE,
    head=POSITIVE,
    density=POSITIVE,
    outer=POSITIVE,
    inner=POSITIVE,
)
def flow_needed_from_a_tube(
    volume: float,
    permeability: float,
    thickness: float,
    head: float,
    density: float,
    outer: float,
    inner: float,
) -> float:
    """How much a liquid has to flow until a volume of it has gone out of a tube into a level bed.

    Parameters
    ----------
    volume : of the liquid [m3]
    permeability : of the bed [m2]
    thickness : of the bed through which it goes out [m]
    head : by so much the liquid stands higher in the tube than around it [m]
    density : of the liquid [kg/m3]
    outer : radius to which it has to go, larger than the tube's [m]
    inner : radius of the tube [m]

    Returns
    -------
    integral of one over the viscosity over the time it takes [1/Pa]; 0 where the tube is as wide as the bed

    Raises
    ------
    RangeError : an argument not above 0

    Notes
    -----
    Q = 2 pi k b rho g H / (mu ln(R / r)): steady, equally far to all sides, through the same thickness.

    References
    ----------
    Thiem, Hydrologische Methoden (1906); Dupuit 1863 [thiem-1906] (citation from memory).

    Examples
    --------
    Five litres into fine glass from a tube of 20 mm, of a resin of 0.6 Pa s:

    >>> needed = flow_needed_from_a_tube(0.005, 3e-9, 0.075, 0.1, 1100.0, 0.15, 0.01)
    >>> print(f"{0.6 * needed / 60:.0f} min")
    89 min
    """
    conductance = 2.0 * pi * permeability * thickness * density * STANDARD_GRAVITY * head
    return volume * max(log(outer / inner), 0.0) / conductance
