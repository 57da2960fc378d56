"""Rectangular plates under uniform and hydrostatic load, each edge free, supported or clamped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Literal

import numpy as np
from numpy.polynomial import Polynomial
from numpy.polynomial.legendre import Legendre, leggauss
from numpy.typing import NDArray
from scipy.linalg import cho_factor, cho_solve

from pourwright.foundation.checks import Range, checked

Array = NDArray[np.float64]
Edge = Literal["free", "supported", "clamped"]
Edges = tuple[Edge, Edge, Edge, Edge]
NOT_NEGATIVE = Range(0.0)
POSITIVE = Range(0.0, open_low=True)
TERMS = 14
_POWER = {"free": 0, "supported": 1, "clamped": 2}
_POINTS = 48


@checked(modulus=POSITIVE, thickness=POSITIVE, poisson=Range(0.0, 0.5))
def plate_stiffness(modulus: float, thickness: float, poisson: float = 0.3) -> float:
    """Bending stiffness of a plate per width.

    Parameters
    ----------
    modulus : E, of the board in bending [Pa]
    thickness : t [m]
    poisson : nu [-]

    Returns
    -------
    float
        D = E t^3 / (12 (1 - nu^2)) [N m]

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    Thin plate of one material, deflection small against its thickness.

    References
    ----------
    [timoshenko-plates-1959]

    Examples
    --------
    >>> round(plate_stiffness(2.5e9, 0.018), 2)
    1335.16
    """
    return modulus * thickness**3 / (12.0 * (1.0 - poisson**2))


@dataclass(frozen=True, eq=False)
class BentPlate:
    """A plate under load: its deflection is a sum of polynomials over the unit square.

    Parameters
    ----------
    width, height : float
        Along x and y [m]; x = 0 at the left edge, y = 0 at the lower.
    stiffness : float
        D [N m].
    poisson : float
        nu [-].
    left, low : tuple
        Polynomials along x and y.
    weights : array (n, n)
        Of their products [m].
    """

    width: float
    height: float
    stiffness: float
    poisson: float
    left: tuple[Polynomial, ...]
    low: tuple[Polynomial, ...]
    weights: Array

    def deflection(self, x: float | Array, y: float | Array) -> Array:
        """Deflection at places, in the direction of the load [m]."""
        return self.derivative(x, y, 0, 0)

    def moments(self, x: float | Array, y: float | Array) -> tuple[Array, Array]:
        """Bending moments along x and along y, per width [N]; positive where the load curves it outward."""
        along_x, along_y = self.derivative(x, y, 2, 0), self.derivative(x, y, 0, 2)
        nu, stiffness = self.poisson, self.stiffness
        return -stiffness * (along_x + nu * along_y), -stiffness * (along_y + nu * along_x)

    @cached_property
    def largest(self) -> tuple[float, float, float]:
        """Largest deflection and where: deflection, x, y [m]; among 81 by 81 places."""
        x, y = (np.linspace(0.0, side, 81) for side in (self.width, self.height))
        field = self.deflection(x[:, None], y[None, :])
        i, j = np.unravel_index(int(np.argmax(np.abs(field))), field.shape)
        return float(field[i, j]), float(x[i]), float(y[j])

    def derivative(self, x: float | Array, y: float | Array, of_x: int, of_y: int) -> Array:
        """Derivative of the deflection, ``of_x`` times along x and ``of_y`` times along y [m, 1, 1/m ..]."""
        x, y = np.broadcast_arrays(np.asarray(x, dtype=float), np.asarray(y, dtype=float))
        left = np.array([each.deriv(of_x)(x.ravel() / self.width) for each in self.left])
        low = np.array([each.deriv(of_y)(y.ravel() / self.height) for each in self.low])
        values = np.einsum("ip,ij,jp->p", left, self.weights, low)
        return np.asarray(values.reshape(x.shape) / (self.width**of_x * self.height**of_y))


@checked(
    width=POSITIVE,
    height=POSITIVE,
    stiffness=POSITIVE,
    pressure=NOT_NEGATIVE,
    pressure_above=NOT_NEGATIVE,
    level=Range(0.0, 1.0),
    poisson=Range(0.0, 0.5),
)
def bent_plate(
    width: float,
    height: float,
    stiffness: float,
    edges: Sequence[Edge],
    pressure: float,
    pressure_above: float = 0.0,
    level: float = 1.0,
    *,
    poisson: float = 0.3,
) -> BentPlate:
    """Bend a rectangular plate.

    Parameters
    ----------
    width : along x [m]
    height : along y [m]
    stiffness : D, see `plate_stiffness` [N m]
    edges : how the left, right, lower and upper edge are held: "free", "supported" or "clamped"
    pressure : on the lower edge [Pa]
    pressure_above : at ``level``; the pressure changes evenly between them [Pa]
    level : share of the height that is loaded; nothing presses above it [-]
    poisson : nu [-]

    Returns
    -------
    BentPlate
        Deflection and moments anywhere.

    Raises
    ------
    RangeError : a number out of range
    ValueError : edges that leave the plate loose

    Notes
    -----
    Least energy (Ritz) over polynomials of degree 13 and more in each direction that meet the held edges:
    U = D/2 int (w_xx + w_yy)^2 - 2 (1 - nu) (w_xx w_yy - w_xy^2) less the work of the load. What an edge asks
    of moment and shear comes out by itself. Thin plate, small deflection, one material.

    References
    ----------
    [timoshenko-plates-1959], [ritz-1909]

    Examples
    --------
    The middle of a square plate supported all round bends by 0.00406 q a^4/D:

    >>> bent = bent_plate(1.0, 1.0, 1.0, ["supported"] * 4, 1.0, 1.0)
    >>> print(f"{float(bent.deflection(0.5, 0.5)):.5f}")
    0.00406
    """
    left, right, lower, upper = edges
    if not _held(edges):
        raise ValueError("a plate held so can move as a whole: support two opposite edges, or clamp one")
    across, up = _shapes(left, right), _shapes(lower, upper)
    factor = _stiffness(left, right, lower, upper, width / height, poisson)
    force = _load(up, pressure, pressure_above, level)
    work = np.outer(_integrals(across), force) * height**4 * (width / height)
    weights = cho_solve(factor, work.ravel() / stiffness).reshape(TERMS, TERMS)
    return BentPlate(width, height, stiffness, poisson, across, up, weights)


def _held(edges: Sequence[Edge]) -> bool:
    held = [edge != "free" for edge in edges]
    across, up = held[0] and held[1], held[2] and held[3]
    corner = (held[0] or held[1]) and (held[2] or held[3])
    return across or up or corner or "clamped" in edges


@cache
def _shapes(start: Edge, end: Edge) -> tuple[Polynomial, ...]:
    """Polynomials over 0 to 1 that meet two held ends: Legendre's, times what the ends ask."""
    ends = Polynomial([0.0, 1.0]) ** _POWER[start] * Polynomial([1.0, -1.0]) ** _POWER[end]
    return tuple(
        ends * Legendre.basis(n, domain=[0.0, 1.0]).convert(kind=Polynomial, domain=[-1.0, 1.0])
        for n in range(TERMS)
    )


@cache
def _tabled(start: Edge, end: Edge) -> tuple[Array, Array]:
    """Value, slope and curvature of each polynomial at Gauss points (3, n, p), and the weights (p,)."""
    points, weights = leggauss(_POINTS)
    places = (points + 1.0) / 2.0
    return _values(_shapes(start, end), places), weights / 2.0


def _values(shapes: tuple[Polynomial, ...], places: Array) -> Array:
    return np.array([[shape.deriv(order)(places) for shape in shapes] for order in range(3)])


@cache
def _stiffness(
    left: Edge, right: Edge, lower: Edge, upper: Edge, ratio: float, poisson: float
) -> tuple[Array, bool]:
    """Energy of every pair of products, factored; over the unit square, ratio = width / height."""
    x, y = (_products(*_tabled(*ends)) for ends in ((left, right), (lower, upper)))
    r = ratio
    energy = np.kron(x[2, 2], y[0, 0]) / r**3 + r * np.kron(x[0, 0], y[2, 2])
    energy += poisson / r * (np.kron(x[2, 0], y[0, 2]) + np.kron(x[0, 2], y[2, 0]))
    energy += 2.0 * (1.0 - poisson) / r * np.kron(x[1, 1], y[1, 1])
    found: tuple[Array, bool] = cho_factor(energy)
    return found


def _products(values: Array, weights: Array) -> Array:
    """Integrals of products of derivatives (3, 3, n, n)."""
    return np.asarray(np.einsum("aip,bjp,p->abij", values, values, weights))


def _integrals(shapes: tuple[Polynomial, ...]) -> Array:
    return np.array([shape.integ()(1.0) - shape.integ()(0.0) for shape in shapes])


def _load(shapes: tuple[Polynomial, ...], pressure: float, above: float, level: float) -> Array:
    """Work of the pressure on each polynomial along the height; exact, for it stops at the level."""
    if level == 0.0:
        return np.zeros(TERMS)
    points, weights = leggauss(_POINTS)
    places = (points + 1.0) / 2.0 * level
    presses = pressure + (above - pressure) * places / level
    return np.asarray(np.array([shape(places) for shape in shapes]) @ (presses * weights) * level / 2.0)
