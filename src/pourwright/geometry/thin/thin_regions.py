"""Scattered places with a size each, gathered into regions around the smallest ones."""

from __future__ import annotations

import numpy as np

from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.thin.region_kernels import lasting

NEIGHBOURS = 12
LINK = 2.5
"""Places are linked where they lie within so many times their spacing."""
GROWN = 4.0 / 3.0
"""Two regions are two where each is so many times smaller than what lies between them."""
LEVEL = 1.02
"""Places that are as small as the smallest, to so much."""


def least_of_regions(places: Floats, sizes: Floats, spacings: Floats) -> list[Integers]:
    """Find the regions of small size.

    Parameters
    ----------
    places : array (n, 3)
        [m]
    sizes : array (n,)
        What is small [m].
    spacings : array (n,)
        About how far it is from each place to the next [m].

    Returns
    -------
    list of array
        Places of each region, those up to a third larger than its smallest; first the one in the middle of
        its smallest. Regions in rising order of their smallest.

    Notes
    -----
    Places are taken in rising order and joined to what they touch. A region that meets a smaller one before
    it has grown by a third was a ripple of that one: minima by their persistence, Edelsbrunner, Letscher and
    Zomorodian, Discrete Comput. Geom. 28 (2002) 511 (from memory).

    Examples
    --------
    >>> along = np.arange(40.0)
    >>> valleys = np.minimum(1 + np.abs(along - 8), 2 + np.abs(along - 30))
    >>> line = np.stack([along, 0 * along, 0 * along], axis=1)
    >>> [int(region[0]) for region in least_of_regions(line, valleys, np.ones(40))]
    [8, 30]
    """
    near, links = _links(places, spacings)
    starts = _minima(sizes, near, links)
    return [_region(places, sizes, near, links, start) for start in starts]


def _links(places: Floats, spacings: Floats) -> tuple[Integers, np.ndarray]:
    from scipy.spatial import cKDTree  # noqa: PLC0415 - a tenth of a second that only few calls need

    count = min(NEIGHBOURS + 1, len(places))
    away, near = cKDTree(places).query(places, k=np.arange(1, count + 1))
    return np.asarray(near, dtype=np.int64), away <= LINK * np.maximum(spacings[:, None], spacings[near])


def _minima(sizes: Floats, near: Integers, links: np.ndarray) -> list[int]:
    """Smallest place of every region that lasts."""
    order = np.argsort(sizes, kind="stable")
    found = np.flatnonzero(lasting(order, sizes, near, links, GROWN))
    return [int(one) for one in found[np.argsort(sizes[found], kind="stable")]]


def _region(places: Floats, sizes: Floats, near: Integers, links: np.ndarray, start: int) -> Integers:
    """Flood from a smallest place over all that are up to a third larger."""
    inside = sizes <= GROWN * sizes[start]
    reached = np.zeros(len(sizes), dtype=bool)
    reached[start] = True
    while True:
        grown = reached.copy()
        grown[near[reached][links[reached]]] = True
        # links hold both ways, but each place lists its own nearest only
        grown |= (reached[near] & links).any(axis=1)
        grown &= inside
        if (grown == reached).all():
            break
        reached = grown
    rows = np.flatnonzero(reached)
    level = rows[sizes[rows] <= LEVEL * sizes[start]]
    middle = places[level].mean(axis=0)
    first = level[np.argmin(np.linalg.norm(places[level] - middle, axis=1).round(9))]
    return np.concatenate([[first], rows[rows != first]])
