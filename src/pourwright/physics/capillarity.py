"""What the surface of a liquid pulls and pushes."""

from math import cos, radians

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import STANDARD_GRAVITY

TENSION = Range(0.0, 1.0, "N/m", open_low=True)
RADIUS = Range(0.0, 1.0, "m", open_low=True)
ANGLE = Range(0.0, 180.0, "deg")
VOIDS = Range(0.0, 1.0, open_low=True, open_high=True)
SPHERICITY = Range(0.1, 1.0)


@checked(surface_tension=TENSION, radius=RADIUS)
def laplace_pressure(surface_tension: float, radius: Real) -> Real:
    """Pressure in a bubble above that of the liquid around it.

    Parameters
    ----------
    surface_tension : of the liquid [N/m]; 0.035 to 0.045 for epoxies (from memory)
    radius : of the bubble [m], float or array

    Returns
    -------
    pressure [Pa]

    Raises
    ------
    RangeError : a tension or radius out of range

    Notes
    -----
    p = 2 gamma / r.

    References
    ----------
    Young and Laplace 1805 [young-laplace].

    Examples
    --------
    >>> print(f"{laplace_pressure(0.035, 0.0005):.1f} Pa")
    140.0 Pa
    """
    return 2.0 * surface_tension / radius


@checked(surface_tension=TENSION, radius=RADIUS, density=Range(0.0, 2e4, "kg/m3", open_low=True), angle=ANGLE)
def capillary_rise(surface_tension: float, radius: Real, density: float, *, angle: float = 0.0) -> Real:
    """Height to which a liquid climbs in a fine tube.

    Parameters
    ----------
    surface_tension : of the liquid [N/m]
    radius : of the tube [m], float or array
    density : of the liquid [kg/m3]
    angle : at which the liquid meets the wall [deg]; above 90 it is pressed down

    Returns
    -------
    height [m]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    h = 2 gamma cos(angle) / (rho g r).

    References
    ----------
    Jurin, Phil. Trans. 30 (1718) 739 [jurin-1718].

    Examples
    --------
    >>> print(f"{1e3 * capillary_rise(0.0728, 0.0005, 998.0):.3f} mm")
    29.754 mm
    """
    pull = laplace_pressure(surface_tension, radius) * cos(radians(angle))
    return pull / (density * STANDARD_GRAVITY)


@checked(surface_tension=TENSION, angle=ANGLE, pressure=Range(0.0, unit="Pa", open_low=True))
def gap_held_shut(surface_tension: float, angle: float, pressure: float) -> float:
    """Widest gap that a liquid's own surface keeps it out of.

    Parameters
    ----------
    surface_tension : of the liquid [N/m]
    angle : at which it meets the sides of the gap [deg]; above 90 it does not wet them
    pressure : of the liquid where the gap begins [Pa]

    Returns
    -------
    gap [m]; 0 where it wets the sides, for then it is drawn in

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    h = -2 gamma cos(angle) / p: the meniscus between two plates is a half of a cylinder's. A scratch, dust or
    a finger's grease lets it in all the same.

    References
    ----------
    Young and Laplace 1805 [young-laplace].

    Examples
    --------
    Plain water on silicone under a head of 100 mm, and with a drop of soap in it:

    >>> print(f"{1e6 * gap_held_shut(0.0728, 107.0, 979.0):.0f} um, {gap_held_shut(0.03, 60.0, 979.0):.0f}")
    43 um, 0
    """
    return max(-2.0 * surface_tension * cos(radians(angle)) / pressure, 0.0)


@checked(diameter=RADIUS, void_fraction=VOIDS, sphericity=SPHERICITY)
def pore_radius(diameter: float, void_fraction: Real, *, sphericity: float = 1.0) -> Real:
    """Radius of the tubes that a bed of grains acts as.

    Parameters
    ----------
    diameter : size of the grains [m]
    void_fraction : volume between the grains over volume of the bed [-], float or array
    sphericity : surface of a ball of the grain's volume over the grain's own [-]

    Returns
    -------
    radius [m]

    Raises
    ------
    RangeError : a size, void fraction or shape out of range

    Notes
    -----
    r = f d e / (3 (1 - e)): twice the volume of the voids over the surface of the grains.

    References
    ----------
    Carman, Soil Sci. 52 (1941) 1 [carman-1941].

    Examples
    --------
    Resin at 60 degrees to the glass is drawn 4 mm into grains of 3 mm.

    >>> height = capillary_rise(0.04, pore_radius(0.003, 0.45), 1100.0, angle=60.0)
    >>> print(f"{1e3 * height:.1f} mm")
    4.5 mm
    """
    return sphericity * diameter * void_fraction / (3.0 * (1.0 - void_fraction))
