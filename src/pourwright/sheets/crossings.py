"""What closed lines enclose: their ends at a height, and whether a point lies inside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Line = Sequence[tuple[float, float]]
Side = tuple[tuple[float, float], tuple[float, float]]


def reach(lines: Sequence[Line], height: float) -> tuple[float, float]:
    """Left and right end of closed lines at a height.

    Parameters
    ----------
    lines : sequence of lines
        To the right and up [m].
    height : float
        [m]

    Returns
    -------
    tuple of float
        [m]; of the whole shape where it has nothing at that height.

    Examples
    --------
    >>> reach([[(0.0, 0.0), (2.0, 0.0), (1.0, 1.0)]], 0.5)
    (0.5, 1.5)
    """
    found = []
    for (x1, z1), (x2, z2) in sides(lines):
        if min(z1, z2) - 1e-9 <= height <= max(z1, z2) + 1e-9:
            share = (height - z1) / (z2 - z1) if z1 != z2 else 0.0
            found.append(x1 + share * (x2 - x1))
    everywhere = found or [x for line in lines for x, _ in line]
    return min(everywhere), max(everywhere)


def within(lines: Sequence[Line], points: Array) -> NDArray[np.bool_]:
    """Find which points lie inside closed lines, holes left out.

    Parameters
    ----------
    lines : sequence of lines
        To the right and up [m].
    points : array (n, 2)
        [m]

    Returns
    -------
    array of bool (n,)
        By the number of sides to the right of each.

    Examples
    --------
    >>> square = [[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]]
    >>> within(square, np.array([[1.0, 1.0], [3.0, 1.0]])).tolist()
    [True, False]
    """
    x1, z1, x2, z2 = np.array(list(sides(lines))).reshape(-1, 4).T
    x, z = points[:, :1], points[:, 1:]
    height = np.where(z1 == z2, 1.0, z2 - z1)
    crossed = ((z1 <= z) != (z2 <= z)) & (x < x1 + (z - z1) / height * (x2 - x1))
    odd: NDArray[np.bool_] = crossed.sum(axis=1) % 2 == 1
    return odd


def sides(lines: Sequence[Line]) -> Iterator[Side]:
    """Every side of closed lines, the one that closes each of them too."""
    for line in lines:
        yield from zip(line, [*line[1:], line[0]], strict=True)
