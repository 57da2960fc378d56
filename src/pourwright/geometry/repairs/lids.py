"""Triangles that close a rim."""

from __future__ import annotations

import numpy as np

from pourwright.geometry.mesh import Floats, Integers


def lid(points: Floats) -> Integers:
    """Triangulate a rim with the least area.

    Parameters
    ----------
    points : array (n, 3)
        Corners of the rim in order [m].

    Returns
    -------
    array (n - 2, 3)
        Numbers of the corners, in the direction of the rim.

    Examples
    --------
    >>> lid(np.array([[0.0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]])).tolist()
    [[0, 1, 3], [1, 2, 3]]
    """
    return _least(points)[1]


def lid_area(points: Floats) -> float:
    """Area of the least lid.

    Parameters
    ----------
    points : array (n, 3)
        Corners of the rim in order [m].

    Returns
    -------
    float
        [m2]

    Examples
    --------
    >>> lid_area(np.array([[0.0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]]))
    1.0
    """
    return _least(points)[0]


def fan(loop: Integers, middle: int) -> Integers:
    """Close a rim by triangles that meet in one more corner.

    Parameters
    ----------
    loop : array (n,)
        Vertices of the rim in order.
    middle : int
        Number of the new vertex.

    Returns
    -------
    array (n, 3)

    Examples
    --------
    >>> fan(np.array([4, 5, 6]), 9).tolist()
    [[4, 5, 9], [5, 6, 9], [6, 4, 9]]
    """
    return np.stack([loop, np.roll(loop, -1), np.full(len(loop), middle)], axis=1)


def _least(points: Floats) -> tuple[float, Integers]:
    """Least area of every part of the rim, from short parts to long ones, and the split that gives it."""
    count = len(points)
    cost = np.zeros((count, count))
    split = np.zeros((count, count), dtype=np.int64)
    for span in range(2, count):
        for low in range(count - span):
            high = low + span
            between = np.arange(low + 1, high)
            across = np.cross(points[between] - points[low], points[high] - points[low])
            costs = cost[low, between] + cost[between, high] + np.linalg.norm(across, axis=1) / 2
            best = int(np.argmin(costs))
            cost[low, high], split[low, high] = costs[best], between[best]
    return float(cost[0, -1]), _collected(split, count)


def _collected(split: Integers, count: int) -> Integers:
    faces, open_parts = [], [(0, count - 1)]
    while open_parts:
        low, high = open_parts.pop()
        if high - low < 2:
            continue
        middle = int(split[low, high])
        faces.append((low, middle, high))
        open_parts += [(low, middle), (middle, high)]
    return np.array(sorted(faces), dtype=np.int64).reshape(-1, 3)
