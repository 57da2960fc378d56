"""Cooling of a wall, a cylinder or a sphere: the exact series and its first term."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import numpy as np
from scipy.optimize import brentq
from scipy.special import j0, j1, jn_zeros

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.arrays import Array, Real

BIOT = Range(1e-6, 1e6)


@dataclass(frozen=True, slots=True)
class Shape:
    """What the series of one body is made of; all as functions of zeta or zeta x/L.

    Parameters
    ----------
    residual : f(zeta, Bi), zero at an eigenvalue
    bracket : f(index, Bi), the interval [rad] that holds the eigenvalue of that index
    weight : f(zeta), the factor C of the term [-]
    profile : f(zeta x/L), the shape of the term [-]
    """

    residual: Callable[[float, float], float]
    bracket: Callable[[int], tuple[float, float]]
    weight: Callable[[Array], Array]
    profile: Callable[[Array], Array]


def _cylinder_bracket(index: int) -> tuple[float, float]:
    poles = np.concatenate([[0.0], jn_zeros(1, index + 1)])
    return float(poles[index]), float(jn_zeros(0, index + 1)[index])


def _wall_weight(zeta: Array) -> Array:
    return 4 * np.sin(zeta) / (2 * zeta + np.sin(2 * zeta))


def _cylinder_weight(zeta: Array) -> Array:
    return np.asarray(2 * j1(zeta) / (zeta * (j0(zeta) ** 2 + j1(zeta) ** 2)))


def _sphere_weight(zeta: Array) -> Array:
    return 4 * (np.sin(zeta) - zeta * np.cos(zeta)) / (2 * zeta - np.sin(2 * zeta))


SHAPES: Mapping[str, Shape] = MappingProxyType(
    {
        "wall": Shape(
            residual=lambda zeta, bi: float(zeta * np.sin(zeta) - bi * np.cos(zeta)),
            bracket=lambda index: (index * np.pi, (index + 0.5) * np.pi),
            weight=_wall_weight,
            profile=np.cos,
        ),
        "cylinder": Shape(
            residual=lambda zeta, bi: float(zeta * j1(zeta) - bi * j0(zeta)),
            bracket=_cylinder_bracket,
            weight=_cylinder_weight,
            profile=lambda reach: np.asarray(j0(reach)),
        ),
        "sphere": Shape(
            residual=lambda zeta, bi: float((1 - bi) * np.sinc(zeta / np.pi) - np.cos(zeta)),
            bracket=lambda index: (index * np.pi, (index + 1) * np.pi),
            weight=_sphere_weight,
            profile=lambda reach: np.sinc(reach / np.pi),
        ),
    }
)


def _shape(name: str) -> Shape:
    if name not in SHAPES:
        raise UserError(f"no shape '{name}'", allowed=", ".join(SHAPES))
    return SHAPES[name]


@checked(biot_number=BIOT, terms=Range(1, 500))
def eigenvalues(biot_number: float, shape: str, *, terms: int = 60) -> Array:
    """Roots that set how fast each term of the series dies away.

    Parameters
    ----------
    biot_number : Biot number by half thickness or outer radius [-]
    shape : "wall", "cylinder" or "sphere"
    terms : how many roots, 1 to 500

    Returns
    -------
    eigenvalues [rad], shape (terms,), rising

    Raises
    ------
    UserError : a shape that is not known
    RangeError : a Biot number outside 1e-6 to 1e6

    Notes
    -----
    Wall: zeta tan zeta = Bi. Cylinder: zeta J1(zeta)/J0(zeta) = Bi. Sphere:
    1 - zeta cot zeta = Bi. Written without their poles and bracketed between them.

    References
    ----------
    Carslaw & Jaeger 1959 [carslaw-jaeger-1959].

    Examples
    --------
    >>> print(eigenvalues(1.0, "wall", terms=2).round(4))
    [0.8603 3.4256]
    """
    chosen = _shape(shape)
    tiny = 1e-9  # keeps off the root at 0 and, for the sphere, off the poles
    roots = []
    for index in range(terms):
        low, high = chosen.bracket(index)
        inside = (low + tiny, high - tiny) if shape == "sphere" else (low + tiny, high)
        roots.append(brentq(chosen.residual, *inside, args=(biot_number,), xtol=1e-14))
    return np.array(roots)


@checked(biot_number=BIOT)
def one_term_coefficients(biot_number: float, shape: str) -> tuple[float, float]:
    """Eigenvalue and weight of the first term: the textbook table.

    Parameters
    ----------
    biot_number : Biot number by half thickness or outer radius [-]
    shape : "wall", "cylinder" or "sphere"

    Returns
    -------
    zeta1 [rad] and C1 [-]

    Raises
    ------
    UserError : a shape that is not known
    RangeError : a Biot number outside 1e-6 to 1e6

    Notes
    -----
    theta/theta_i = C1 exp(-zeta1^2 Fo) at the centre. Valid for Fo above 0.2.

    References
    ----------
    Incropera & DeWitt Table 5.1 [incropera-dewitt]; Heisler 1947 [heisler-1947].

    Examples
    --------
    >>> print("{:.4f} {:.4f}".format(*one_term_coefficients(1.0, "sphere")))
    1.5708 1.2732
    """
    zeta = eigenvalues(biot_number, shape, terms=1)
    return float(zeta[0]), float(_shape(shape).weight(zeta)[0])


@checked(fourier_number=Range(0.0), position=Range(0.0, 1.0), biot_number=BIOT)
def cooling(
    fourier_number: Real,
    position: Real | float,
    biot_number: float,
    shape: str,
    *,
    terms: int = 60,
) -> Real:
    """Temperature in a body that was uniform and now cools to the air (full series).

    Parameters
    ----------
    fourier_number : Fourier number [-], float or array
    position : distance from the middle over half thickness or radius [-], 0 to 1
    biot_number : Biot number by half thickness or outer radius [-]
    shape : "wall", "cylinder" or "sphere"
    terms : how many terms of the series, 1 to 500

    Returns
    -------
    (T - Tair)/(Tstart - Tair) [-]

    Raises
    ------
    UserError : a shape that is not known
    RangeError : a number out of range

    Notes
    -----
    Sum of C_n exp(-zeta_n^2 Fo) X_n(zeta_n x/L), X = cos, J0 or sin(s)/s. Constant
    properties; sixty terms are exact to 1e-6 from Fo = 0.001 on.

    References
    ----------
    Carslaw & Jaeger 1959, sec. 3.11, 7.7, 9.4 [carslaw-jaeger-1959].

    Examples
    --------
    >>> print(f"{cooling(0.5, 0.0, 1.0, 'wall'):.6f}")
    0.772526
    """
    chosen = _shape(shape)
    time, place = np.broadcast_arrays(np.asarray(fourier_number), np.asarray(position))
    zeta = eigenvalues(biot_number, shape, terms=terms)
    decay = np.exp(-np.multiply.outer(time, zeta**2))
    total: Any = (decay * chosen.profile(np.multiply.outer(place, zeta))) @ chosen.weight(zeta)
    return total  # type: ignore[no-any-return]
