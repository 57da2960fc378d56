"""How alike two points answer: the covariance that `emulator` learns, and its slopes."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
UNKNOWN_LEVEL = 25.0
"""Variance of the overall level, over that of the values."""
SIZES = 5
"""Straight part, bowed part, part that bends along one direction, remainder, roughness."""


class Unknowns(NamedTuple):
    """What is learned, unpacked from one row of numbers.

    Parameters
    ----------
    reach : array (n,)
        One over the distance along each input over which the answer changes its ways.
    direction : array (n,)
        Along which the answer bends as a whole.
    sizes : array (5,)
        Variance of each part, see `SIZES`.
    """

    reach: Array
    direction: Array
    sizes: Array

    @classmethod
    def of(cls, row: Array) -> Unknowns:
        """Unpack logarithms of distances, the direction, and logarithms of the sizes."""
        n = (row.size - SIZES) // 2
        return cls(np.exp(-row[:n]), row[n : 2 * n], np.exp(row[2 * n :]))


class Parts(NamedTuple):
    """The parts of a covariance between two sets of points, before their sizes are put on."""

    straight: Array
    ridge: Array
    rest: Array
    rest_slope: Array
    apart: Array


def parts(one: Array, other: Array, unknowns: Unknowns) -> Parts:
    """Compute the parts.

    Parameters
    ----------
    one, other : array (a, n), array (b, n)
        Points.
    unknowns : Unknowns
        As learned so far.

    Returns
    -------
    Parts
        Each (a, b): scalar product, bell along the direction, Matern's function of order 5/2, its
        slope by the squared distance, and how far apart the points lie along the direction.
    """
    near, far = one * unknowns.reach, other * unknowns.reach
    straight = near @ far.T
    squares = (near**2).sum(axis=1)[:, None] + (far**2).sum(axis=1) - 2.0 * straight
    distance = np.sqrt(5.0 * np.maximum(squares, 0.0))
    fading = np.exp(-distance)
    apart = (one @ unknowns.direction)[:, None] - other @ unknowns.direction
    return Parts(
        straight,
        np.exp(-0.5 * apart**2),
        (1.0 + distance + distance**2 / 3.0) * fading,
        -(5.0 / 6.0) * (1.0 + distance) * fading,
        apart,
    )


def covariance(found: Parts, unknowns: Unknowns) -> Array:
    """Add up the parts.

    Parameters
    ----------
    found : Parts
        Between two sets of points.
    unknowns : Unknowns
        With the sizes.

    Returns
    -------
    array (a, b)
        In variances of the values.
    """
    straight, bowed, ridge, rest, _ = unknowns.sizes
    total = straight * found.straight + bowed * found.straight**2 + ridge * found.ridge + rest * found.rest
    return np.asarray(UNKNOWN_LEVEL + total)


def slopes(points: Array, found: Parts, unknowns: Unknowns, weights: Array) -> Array:
    """Compute how a weighted sum of the covariances among points changes with the unknowns.

    Parameters
    ----------
    points : array (a, n)
        The points.
    found : Parts
        Among them.
    unknowns : Unknowns
        Where.
    weights : array (a, a)
        Symmetric.

    Returns
    -------
    array (2 n + 5,)
        In the order that `Unknowns.of` unpacks.
    """
    straight, bowed, ridge, rest, rough = unknowns.sizes
    scaled = points * unknowns.reach
    by_product = weights * (straight + 2.0 * bowed * found.straight)
    by_square = weights * rest * found.rest_slope
    product = ((by_product @ scaled) * scaled).sum(axis=0)
    square = 2.0 * (by_square.sum(axis=1) @ scaled**2 - ((by_square @ scaled) * scaled).sum(axis=0))
    along = -weights * ridge * found.ridge * found.apart
    sizes = [
        straight * np.vdot(weights, found.straight),
        bowed * np.vdot(weights, found.straight**2),
        ridge * np.vdot(weights, found.ridge),
        rest * np.vdot(weights, found.rest),
        rough * np.trace(weights),
    ]
    return np.concatenate([-2.0 * (product + square), 2.0 * along.sum(axis=1) @ points, sizes])
