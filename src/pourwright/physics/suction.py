"""What the air does when a piece is pulled out of rubber that lies close on it."""

from math import atanh

from pourwright.foundation.checks import Range, checked
from pourwright.physics.constants import STANDARD_PRESSURE

POSITIVE = Range(0.0, open_low=True)


@checked(area=Range(0.0, unit="m2"), share=Range(0.0, 1.0))
def suction_force(area: float, share: float = 1.0) -> float:
    """Force that lifts a piece off the floor of a cavity without air below it.

    Parameters
    ----------
    area : of the floor, seen along the pull [m2]
    share : of the air's pressure that is missing below it [-]

    Returns
    -------
    force [N]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    F = p A with p of the standard atmosphere. No pull can make more than a vacuum.

    References
    ----------
    US Standard Atmosphere 1976 [us-standard-atmosphere-1976].

    Examples
    --------
    A disc of 360 mm:

    >>> print(f"{suction_force(3.14159 * 0.18**2) / 1e3:.1f} kN")
    10.3 kN
    """
    return STANDARD_PRESSURE * area * share


@checked(
    width=POSITIVE,
    gap=POSITIVE,
    length=POSITIVE,
    volume=POSITIVE,
    viscosity=POSITIVE,
    share=Range(0.0, 1.0, open_high=True),
)
def creep_in_time(
    width: float, gap: float, length: float, volume: float, viscosity: float, share: float = 0.9
) -> float:
    """Time that air takes to creep through a narrow gap into an empty space.

    Parameters
    ----------
    width : of the gap, across the flow [m]
    gap : between its walls [m]
    length : along the flow [m]
    volume : of the space [m3]
    viscosity : of the air [Pa s]
    share : of the air's pressure that is reached in the end [-]

    Returns
    -------
    time [s]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    Slow flow of a gas between plates at one temperature: the flow at the pressure p0 outside is
    w h^3 (p0^2 - p^2) / (24 mu L p0), so p = p0 tanh(t/s) with s = 24 mu L V / (w h^3 p0). Air slips along
    the walls of gaps below a micrometre, and goes faster there.

    References
    ----------
    Plane Poiseuille flow [plane-poiseuille] with the gas law [ideal-gas].

    Examples
    --------
    A litre below a disc of 360 mm, 450 mm deep, a gap of a twentieth of a millimetre:

    >>> print(f"{creep_in_time(1.13, 50e-6, 0.45, 1e-3, 1.82e-5):.0f} s")
    20 s
    """
    slow = 24.0 * viscosity * length * volume / (width * gap**3 * STANDARD_PRESSURE)
    return slow * atanh(share)
