"""What a body must bear because its core is warmer than its skin, or was when it turned to glass."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

POSITIVE = Range(0.0, open_low=True)
DIFFERENCE = Range(-2000.0, 2000.0, "K")
EXPANSION = Range(0.0, 0.01, "1/K")


@checked(rate=Range(0.0, unit="K/s"), half_thickness=POSITIVE, diffusivity=POSITIVE)
def cooling_difference(rate: Real, half_thickness: float, diffusivity: float) -> Real:
    """Core above skin in a wall whose faces cool at a steady rate.

    Parameters
    ----------
    rate : cooling of the faces [K/s], float or array
    half_thickness : of the wall [m]
    diffusivity : thermal diffusivity [m2/s]

    Returns
    -------
    temperature of the middle less that of the face [K]

    Raises
    ------
    RangeError : a negative rate, or a thickness or diffusivity not above 0

    Notes
    -----
    rate L^2 / (2 a): the parabola that a wall settles to after some L^2/a. A long round bar has half of
    it with its radius for L, a ball a third.

    References
    ----------
    Carslaw & Jaeger 1959, sec. 3.5 [carslaw-jaeger-1959]; closed form.

    Examples
    --------
    A table top of 60 mm that cools by 5 K in an hour:

    >>> print(f"{cooling_difference(5 / 3600, 0.03, 1.1e-7):.2f} K")
    5.68 K
    """
    return rate * half_thickness**2 / (2 * diffusivity)


@checked(difference=Range(0.0, unit="K"), half_thickness=POSITIVE, diffusivity=POSITIVE)
def steepest_cooling(difference: Real, half_thickness: float, diffusivity: float) -> Real:
    """Rate of cooling that brings the core of a wall so far above its skin.

    Parameters
    ----------
    difference : core above skin [K], float or array
    half_thickness : of the wall [m]
    diffusivity : thermal diffusivity [m2/s]

    Returns
    -------
    rate [K/s]

    Raises
    ------
    RangeError : a negative difference, or a thickness or diffusivity not above 0

    Notes
    -----
    2 a difference / L^2, the inverse of `cooling_difference`.

    References
    ----------
    Carslaw & Jaeger 1959, sec. 3.5 [carslaw-jaeger-1959]; closed form.

    Examples
    --------
    >>> print(f"{steepest_cooling(10.0, 0.03, 1.1e-7) * 3600:.1f} K/h")
    8.8 K/h
    """
    return 2 * diffusivity * difference / half_thickness**2


@checked(difference=DIFFERENCE, expansion=EXPANSION)
def skin_strain(difference: Real, expansion: float) -> Real:
    """Stretch of the skin of a wall whose core is warmer, by the parabola of steady cooling.

    Parameters
    ----------
    difference : core above skin [K], float or array
    expansion : thermal expansion by length [1/K]

    Returns
    -------
    strain of the skin along its face [-]

    Raises
    ------
    RangeError : a difference or expansion out of range

    Notes
    -----
    2/3 alpha dT: the mean of a parabola lies a third of dT below its top. The stress is that times
    E/(1 - nu). Where the difference was there as the wall turned to glass, free of stress, it comes
    back with the other sign once all is cold: then the core is stretched by `core_strain`.

    References
    ----------
    Timoshenko & Goodier, Theory of Elasticity, thermal stress [timoshenko-goodier-1951].

    Examples
    --------
    >>> print(f"{skin_strain(30.0, 65e-6) * 100:.3f} %")
    0.130 %
    """
    return 2 * expansion * difference / 3


@checked(difference=DIFFERENCE, expansion=EXPANSION)
def core_strain(difference: Real, expansion: float) -> Real:
    """Stretch of the core of a cold wall that turned to glass with its core warmer.

    Parameters
    ----------
    difference : core above skin as it turned to glass [K], float or array
    expansion : thermal expansion by length, as glass [1/K]

    Returns
    -------
    strain in the middle [-]

    Raises
    ------
    RangeError : a difference or expansion out of range

    Notes
    -----
    1/3 alpha dT, the other third of the parabola; balanced by 2/3 alpha dT of pressure in the skin.

    References
    ----------
    Timoshenko & Goodier, Theory of Elasticity, thermal stress [timoshenko-goodier-1951].

    Examples
    --------
    >>> print(f"{core_strain(30.0, 65e-6) * 100:.3f} %")
    0.065 %
    """
    return expansion * difference / 3


@checked(depth=Range(0.0, unit="m"), radius=Range(0.0, unit="m", open_low=True))
def notch_concentration(depth: Real, radius: float) -> Real:
    """How many times a pull is felt at the bottom of a notch: an upper bound for an inner corner.

    Parameters
    ----------
    depth : of the notch [m], float or array
    radius : at its bottom [m]

    Returns
    -------
    stress at the bottom over the stress far away [-]

    Raises
    ------
    RangeError : a negative depth, or a radius not above 0

    Notes
    -----
    1 + 2 sqrt(depth/radius): half an ellipse cut into an edge. A step of the outline is milder.

    References
    ----------
    Inglis, Trans. Inst. Naval Archit. 55 (1913) 219 [inglis-1913].

    Examples
    --------
    >>> print(f"{notch_concentration(0.02, 0.005):.1f}")
    5.0
    """
    root: Any = np.sqrt(depth / radius)
    return 1 + 2 * root  # type: ignore[no-any-return]
