"""Conduction in plain terms: its two numbers, a slab that makes heat, a mode that decays."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)


@checked(film_coefficient=NOT_NEGATIVE, length=POSITIVE, conductivity=POSITIVE)
def biot(film_coefficient: Real, length: float, conductivity: float) -> Real:
    """How hard heat leaves a body, against how easily it comes from inside.

    Parameters
    ----------
    film_coefficient : film coefficient at the face [W/(m2 K)], float or array
    length : half thickness of a wall, or outer radius [m]
    conductivity : conductivity of the body [W/(m K)]

    Returns
    -------
    Biot number [-]

    Raises
    ------
    RangeError : a length or conductivity not above 0

    Notes
    -----
    Bi = h L / k. Below 0.1 the body is nearly as warm inside as at its face.

    References
    ----------
    Incropera & DeWitt ch. 5 [incropera-dewitt].

    Examples
    --------
    >>> print(f"{biot(8.0, 0.05, 0.2):.1f}")
    2.0
    """
    return film_coefficient * length / conductivity


@checked(time=NOT_NEGATIVE, diffusivity=POSITIVE, length=POSITIVE)
def fourier(time: Real, diffusivity: float, length: float) -> Real:
    """Time counted in what heat needs to cross the body.

    Parameters
    ----------
    time : time [s], float or array
    diffusivity : thermal diffusivity of the body [m2/s]
    length : half thickness of a wall, or outer radius [m]

    Returns
    -------
    Fourier number [-]

    Raises
    ------
    RangeError : a negative time, or a diffusivity or length not above 0

    Notes
    -----
    Fo = alpha t / L^2. Beyond 0.2 the first term of the series is within some 2 %.

    References
    ----------
    Incropera & DeWitt ch. 5 [incropera-dewitt].

    Examples
    --------
    A wall of 100 mm needs about seven hours for Fo = 1.

    >>> print(f"{fourier(7 * 3600.0, 1e-7, 0.05):.2f}")
    1.01
    """
    return time * diffusivity / length**2


@checked(
    position=Range(-1.0, 1.0),
    heat=NOT_NEGATIVE,
    half_thickness=POSITIVE,
    conductivity=POSITIVE,
    film_coefficient=POSITIVE,
)
def heated_slab_rise(
    position: Real,
    heat: float,
    half_thickness: float,
    conductivity: float,
    film_coefficient: float,
) -> Real:
    """How much warmer than the air a slab stays that makes heat evenly.

    Parameters
    ----------
    position : distance from the middle over half thickness [-], -1 to 1, float or array
    heat : heat made per volume and time [W/m3]
    half_thickness : half the thickness [m]
    conductivity : conductivity of the slab [W/(m K)]
    film_coefficient : film coefficient on both faces [W/(m2 K)]

    Returns
    -------
    temperature above the air [K]

    Raises
    ------
    RangeError : a position outside the slab, or a number not above 0

    Notes
    -----
    T - Ta = q L/h + q L^2 (1 - (x/L)^2)/(2 k), steady.

    References
    ----------
    Incropera & DeWitt eq. 3.47 and 3.51 [incropera-dewitt].

    Examples
    --------
    >>> print(f"{heated_slab_rise(0.0, 3000.0, 0.04, 0.5, 7.0):.4f} K")
    21.9429 K
    """
    inside: Any = heat * half_thickness**2 * (1 - position**2) / (2 * conductivity)
    return heat * half_thickness / film_coefficient + inside  # type: ignore[no-any-return]


@checked(position=Range(0.0, 1.0), time=NOT_NEGATIVE, diffusivity=POSITIVE, thickness=POSITIVE)
def sine_mode(position: Real, time: float, diffusivity: float, thickness: float) -> Real:
    """Decay of a half sine of temperature between two faces held at 0.

    Parameters
    ----------
    position : distance from one face over the thickness [-], 0 to 1, float or array
    time : time since the half sine of height 1 [s]
    diffusivity : thermal diffusivity [m2/s]
    thickness : thickness of the slab [m]

    Returns
    -------
    temperature over its first height [-]

    Raises
    ------
    RangeError : a position outside the slab, or a number not above 0

    Notes
    -----
    sin(pi x/L) exp(-pi^2 alpha t/L^2), an exact eigenmode.

    References
    ----------
    Carslaw & Jaeger 1959, sec. 3.3 [carslaw-jaeger-1959].

    Examples
    --------
    >>> print(f"{sine_mode(0.5, 2e4, 1e-7, 0.1):.6f}")
    0.138911
    """
    decay = np.exp(-((np.pi / thickness) ** 2) * diffusivity * time)
    shape: Any = np.sin(np.pi * position)
    return shape * decay  # type: ignore[no-any-return]
