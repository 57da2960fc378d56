"""Polygons with any number of corners become triangles."""

import numpy as np
import numpy.typing as npt

from pourwright.geometry.mesh import Floats, Integers

MOST_CORNERS = 100_000


def triangulated(vertices: npt.ArrayLike, corners: Integers, sizes: Integers) -> Integers:
    """Cut polygons into triangles without new vertices.

    Parameters
    ----------
    vertices : array (n, 3)
        Places.
    corners : array (k,)
        Vertex numbers of all polygons, one after the other, each in its order round the polygon.
    sizes : array (m,)
        How many corners each has, at least three.

    Returns
    -------
    array (t, 3)
        The order of corners kept, so that outside stays outside; triangles in the order of polygons of
        equal size.

    Raises
    ------
    ValueError
        For a polygon of more corners than any program writes.

    Notes
    -----
    A convex polygon becomes a fan from its first corner. Any other is cut in its mean plane, seen along its
    vector area.

    Examples
    --------
    >>> arrow = [[0, 0, 0], [2, -1, 0], [1, 0, 0], [2, 1, 0]]
    >>> triangulated(arrow, np.arange(4), np.array([4])).tolist()
    [[0, 1, 2], [0, 2, 3]]
    """
    points = np.asarray(vertices, dtype=np.float64)
    if sizes.size and sizes.max() > MOST_CORNERS:
        raise ValueError(f"a face with {sizes.max()} corners, more than {MOST_CORNERS}")
    starts = np.cumsum(sizes) - sizes
    parts = [np.empty((0, 3), dtype=np.int64)]
    for size in np.unique(sizes):
        rings = corners[starts[sizes == size][:, None] + np.arange(size)]
        parts.append(rings if size == 3 else _cut(points, rings))
    return np.concatenate(parts)


def _cut(points: Floats, rings: Integers) -> Integers:
    """Cut polygons of equal size."""
    with np.errstate(all="ignore"):
        convex = _fan_is_right(points, rings)
    size = rings.shape[1]
    fan = np.stack([np.zeros(size - 2, dtype=np.int64), np.arange(1, size - 1), np.arange(2, size)], axis=1)
    parts = [rings[convex][:, fan].reshape(-1, 3)]
    parts += [ring[_ears(points[ring], fan)] for ring in rings[~convex]]
    return np.concatenate(parts)


def _fan_is_right(points: Floats, rings: Integers) -> npt.NDArray[np.bool_]:
    """Tell which polygons are convex, or at least have no triangle of their fan turned round."""
    arms = points[rings[:, 1:]] - points[rings[:, :1]]
    areas = np.cross(arms[:, :-1], arms[:, 1:])
    whole = areas.sum(axis=1, keepdims=True)
    along = np.einsum("ijk,ijk->ij", areas, np.broadcast_to(whole, areas.shape))
    # numbers that are none are told later, with their place
    right: npt.NDArray[np.bool_] = ~(along < 0).any(axis=1)
    return right


def _ears(ring: Floats, fan: Integers) -> Integers:
    """Cut one polygon in its mean plane; one too large to be reckoned with stays a fan."""
    from manifold3d import triangulate  # noqa: PLC0415 - only files with concave faces need it

    if not np.abs(ring).max() < 1e100:
        return fan
    arms = (ring - ring[0]) / np.abs(ring - ring[0]).max()
    normal = np.cross(arms[:-1], arms[1:]).sum(axis=0)
    across = np.cross(normal, np.eye(3)[np.abs(normal).argmin()])
    plane = np.stack([across, np.cross(normal, across) / np.linalg.norm(normal)], axis=1)
    flat = arms @ (plane / np.linalg.norm(plane, axis=0))
    return np.asarray(triangulate([flat]), dtype=np.int64).reshape(-1, 3)
