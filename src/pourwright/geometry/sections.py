"""Plane sections of a mesh as closed outlines, for drawings and thickness."""

import numpy as np

from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.mesh import Floats, Integers, Mesh

AXES = {"x": (1, 2), "y": (0, 2), "z": (0, 1)}


def plane_section(mesh: Mesh, axis: str, offset: float) -> list[Floats]:
    """Cut a closed mesh by a plane.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    axis : str
        x, y or z: the plane's normal.
    offset : float
        Where the plane lies [m]. Where faces lie in it, the section just below them is given.

    Returns
    -------
    list of array (k, 2)
        Closed outlines without repeated last point, in the two other axes in the order x, y, z [m]; outer
        ones run counter-clockwise, holes clockwise.

    Raises
    ------
    ValueError
        When the mesh is open at the plane.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> (outline,) = plane_section(box([0.2, 0.1, 0.3]), "z", 0.15)
    >>> round(outline_area(outline), 6)
    0.02
    """
    normal = "xyz".index(axis)
    points, following = _crossing_points(mesh, normal, offset)
    loops = [points[loop][:, AXES[axis]] for loop in _loops(following)]
    # seen along +y the order x, z is a mirror image
    loops = [loop[::-1] if axis == "y" else loop for loop in loops]
    cleaned = [loop[np.any(loop != np.roll(loop, 1, axis=0), axis=1)] for loop in loops]
    return [loop for loop in cleaned if len(loop) >= 3]


def outline_area(outline: Floats) -> float:
    """Area a closed outline encloses; negative for a hole.

    Parameters
    ----------
    outline : array (k, 2)
        [m]

    Returns
    -------
    float
        [m2]

    Examples
    --------
    >>> outline_area(np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0]]))
    2.0
    """
    x, y = (outline - outline[0]).T
    return float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum() / 2)


def simplified(outline: Floats, tolerance: float) -> Floats:
    """Drop points of a closed outline that lie within a tolerance of the line without them.

    Parameters
    ----------
    outline : array (k, 2)
        Closed [m].
    tolerance : float
        Farthest a dropped point may lie off [m].

    Returns
    -------
    array (n, 2)
        A part of the points, in their order.

    Notes
    -----
    Source: Douglas and Peucker, Cartographica 10 (1973) 112 (from memory).

    Examples
    --------
    >>> square = np.array([[0, 0], [1, 0.001], [2, 0], [2, 2], [0, 2]], dtype=float)
    >>> simplified(square, 0.01).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]
    """
    if len(outline) <= 3:
        return outline
    # a closed outline has no ends: it is halved at the point farthest from the first
    far = int(np.argmax(np.linalg.norm(outline - outline[0], axis=1)))
    closed = np.concatenate([outline, outline[:1]])
    halves = [straightened(half, tolerance)[:-1] for half in (closed[: far + 1], closed[far:])]
    return np.concatenate(halves)


def straightened(line: Floats, tolerance: float) -> Floats:
    """Drop points of an open line that lie within a tolerance of the line without them.

    Parameters
    ----------
    line : array (k, 2)
        Two points or more [m].
    tolerance : float
        Farthest a dropped point may lie off [m].

    Returns
    -------
    array (n, 2)
        A part of the points, both ends among them.

    Notes
    -----
    Source: Douglas and Peucker, Cartographica 10 (1973) 112 (from memory).

    Examples
    --------
    >>> straightened(np.array([[0.0, 0.0], [1.0, 0.001], [2.0, 0.0], [2.0, 2.0]]), 0.01).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0]]
    """
    kept = np.zeros(len(line), dtype=bool)
    kept[[0, -1]] = True
    pending = [(0, len(line) - 1)]
    while pending:
        first, last = pending.pop()
        if last - first < 2:
            continue
        off = _off_line(line[first + 1 : last], line[first], line[last])
        worst = int(np.argmax(off))
        if off[worst] > tolerance:
            middle = first + 1 + worst
            kept[middle] = True
            pending += [(first, middle), (middle, last)]
    return np.asarray(line[kept])


def _off_line(points: Floats, start: Floats, end: Floats) -> Floats:
    """Distance of points to the stretch from start to end."""
    along = end - start
    length = float(along @ along)
    share = np.clip((points - start) @ along / length, 0, 1) if length else np.zeros(len(points))
    return np.asarray(np.linalg.norm(points - start - share[:, None] * along, axis=1))


def _crossing_points(mesh: Mesh, normal: int, offset: float) -> tuple[Floats, dict[int, int]]:
    """Give the point on every edge the plane crosses, and which edge comes next, the inside on the left."""
    edges = edges_of(mesh)
    number = np.empty(3 * len(mesh.faces), dtype=np.int64)
    number[edges.order] = np.repeat(np.arange(len(edges.uses)), edges.uses)
    heights = mesh.vertices[:, normal] - offset
    low, high = heights[edges.ends[:, 0]], heights[edges.ends[:, 1]]
    # vertices in the plane count as above it, so no edge is met at its end
    apart = np.where(low == high, 1.0, low - high)
    share = np.where((low < 0) != (high < 0), low / apart, 0.0)[:, None]
    points = mesh.vertices[edges.ends[:, 0]] * (1 - share) + mesh.vertices[edges.ends[:, 1]] * share
    above = (heights >= 0)[mesh.faces]
    rising = ~above & np.roll(above, -1, axis=1)
    falling = above & ~np.roll(above, -1, axis=1)
    crossed = np.flatnonzero(rising.any(axis=1))
    sides = number.reshape(-1, 3)[crossed]
    begin = sides[np.arange(len(crossed)), np.argmax(falling[crossed], axis=1)]
    end = sides[np.arange(len(crossed)), np.argmax(rising[crossed], axis=1)]
    return points, dict(zip(begin.tolist(), end.tolist(), strict=True))


def _loops(following: dict[int, int]) -> list[Integers]:
    """Chain the edges into closed loops."""
    loops = []
    while following:
        first, here = following.popitem()
        loop = [first]
        while here != first:
            loop.append(here)
            if here not in following:
                raise ValueError("the mesh is open where the plane cuts it")
            here = following.pop(here)
        loops.append(np.array(loop))
    return loops
