"""Points that fill a space of chances more evenly than random ones do."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from pourwright.foundation.errors import UserError

Array = NDArray[np.float64]
BITS = 30
"""Of every coordinate; it is put into the middle of its cell, so that none is 0 or 1."""
ROUND_OFF = 1e-9
"""Share of a variance that round-off may have taken."""


def cube(count: int, dimensions: int, seed: int) -> Array:
    """Spread points evenly over the unit cube.

    Parameters
    ----------
    count : int
        Number of points; powers of two are spread best.
    dimensions : int
        Number of coordinates.
    seed : int
        Of the scrambling.

    Returns
    -------
    array (count, dimensions)
        Coordinates between 0 and 1, neither included. The first points of a longer call are those
        of a shorter one.

    Notes
    -----
    Sobol' sequence, scrambled by a random linear matrix and a digital shift, which leaves every
    single point uniform. Sources: Sobol', USSR Comput. Math. Math. Phys. 7 (1967) 86; Matousek,
    J. Complexity 14 (1998) 527 (citations from memory).

    Examples
    --------
    Of eight points, one lies in each eighth of every coordinate.

    >>> (np.sort(cube(8, 3, seed=1), axis=0) * 8).astype(int).T.tolist()
    [[0, 1, 2, 3, 4, 5, 6, 7], [0, 1, 2, 3, 4, 5, 6, 7], [0, 1, 2, 3, 4, 5, 6, 7]]
    """
    if count < 1:
        return np.empty((0, dimensions))
    from scipy.stats.qmc import Sobol  # noqa: PLC0415 - half a second that only chances need

    sequence = Sobol(dimensions, scramble=True, bits=BITS, rng=np.random.default_rng(seed))
    found: Array = sequence.random_base2((count - 1).bit_length())
    return found[:count] + 0.5 ** (BITS + 1)


def factor(covariance: Array) -> Array:
    """Take the root of a covariance that may leave some directions without any doubt.

    Parameters
    ----------
    covariance : array (n, n)
        Symmetric, positive semidefinite.

    Returns
    -------
    array (n, n)
        Lower triangle L with L L' = covariance; a column is 0 where nothing new is in doubt.

    Raises
    ------
    UserError
        Where the matrix is no covariance.

    Notes
    -----
    Cholesky's factor; a pivot of 0 ends its column.

    Examples
    --------
    Two numbers that always move together:

    >>> factor(np.array([[4.0, 2.0], [2.0, 1.0]])).tolist()
    [[2.0, 0.0], [1.0, 0.0]]
    """
    matrix = np.asarray(covariance, dtype=float)
    if matrix.ndim != 2 or matrix.shape[0] != matrix.shape[1] or not np.all(np.isfinite(matrix)):
        raise UserError("a covariance is a square table of finite numbers")
    variance = np.diag(matrix)
    if np.any(variance < 0.0):
        raise UserError("not a covariance: a variance is below 0")
    scale = np.where(variance > 0.0, np.sqrt(variance), 1.0)
    even = matrix / np.outer(scale, scale)
    root = np.zeros_like(even)
    for j in range(len(even)):
        column = even[j:, j] - root[j:, :j] @ root[j, :j]
        if column[0] > ROUND_OFF:
            root[j:, j] = column / np.sqrt(column[0])
    # what an uneven or impossible table, or a column of 0, should have held shows here
    if np.any(np.abs(root @ root.T - even) > np.sqrt(ROUND_OFF)):
        raise UserError("not a covariance: the table is uneven, or two of its numbers cannot go together")
    return np.asarray(scale[:, None] * root)


def draws(count: int, mean: Array, covariance: Array, seed: int) -> Array:
    """Draw evenly spread members of a normal distribution.

    Parameters
    ----------
    count : int
        Number of members.
    mean : array (n,)
        Middle.
    covariance : array (n, n)
        Symmetric, positive semidefinite.
    seed : int
        Of the scrambling.

    Returns
    -------
    array (count, n)
        One member a row. The first rows of a longer call are those of a shorter one.

    Raises
    ------
    UserError
        Where the matrix is no covariance.

    Notes
    -----
    Points of `cube` through the normal quantile, times Cholesky's factor: where the covariance
    is diagonal, every coordinate of the cube is one number.

    Examples
    --------
    >>> found = draws(256, np.array([20.0]), np.array([[4.0]]), seed=0)
    >>> print(f"{found.mean():.2f} {found.std():.2f}")
    20.00 2.00
    """
    root = factor(covariance)
    middle = np.asarray(mean, dtype=float)
    if middle.shape != (len(root),):
        raise UserError(f"a mean of {middle.size} numbers with a covariance of {len(root)}")
    even: Array = ndtri(cube(count, max(len(root), 1), seed)[:, : len(root)])
    # one sum after the other: a product of matrices may add up longer calls in another order
    return middle + sum((np.outer(even[:, j], root[:, j]) for j in range(len(root))), np.zeros((count, 1)))
