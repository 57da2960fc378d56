"""Closed meshes of simple bodies: a box, a cone, a revolved outline."""

import numpy as np
import numpy.typing as npt

from pourwright.foundation.errors import UserError
from pourwright.geometry.mesh import Floats, Mesh

_BOX_FACES = (
    (0, 2, 3), (0, 3, 1), (4, 5, 7), (4, 7, 6), (0, 1, 5), (0, 5, 4),
    (2, 6, 7), (2, 7, 3), (0, 4, 6), (0, 6, 2), (1, 3, 7), (1, 7, 5),
)  # fmt: skip


def box(size: npt.ArrayLike) -> Mesh:
    """Make a box that stands on z = 0, centred in x and y.

    Parameters
    ----------
    size : array (3,)
        Width, depth and height [m].

    Returns
    -------
    Mesh

    Raises
    ------
    UserError
        When a size is not above zero.

    Examples
    --------
    >>> box([0.4, 0.3, 0.2]).bounds.tolist()
    [[-0.2, -0.15, 0.0], [0.2, 0.15, 0.2]]
    """
    edges = np.asarray(size, dtype=np.float64)
    if edges.shape != (3,) or not np.all(np.isfinite(edges) & (edges > 0)):
        raise UserError(
            f"a box needs three sizes, not {edges.tolist()}", allowed="width, depth and height above zero"
        )
    units = np.array([[i & 1, i >> 1 & 1, i >> 2] for i in range(8)], dtype=np.float64)
    return Mesh((units - [0.5, 0.5, 0.0]) * edges, _BOX_FACES)


def cone(bottom_radius: float, top_radius: float, height: float, segments: int = 256) -> Mesh:
    """Make a cone, whole or cut off, that stands on z = 0 around the z axis.

    Parameters
    ----------
    bottom_radius, top_radius : float
        [m]; one of them may be zero. Equal radii make a cylinder.
    height : float
        [m]
    segments : int
        Flat strips around; see ``revolve`` for what they cost in volume.

    Returns
    -------
    Mesh

    Raises
    ------
    UserError
        When the sizes make no body.

    Examples
    --------
    >>> from pourwright.geometry import measure
    >>> exact = np.pi / 3 * 0.4 * (0.3**2 + 0.3 * 0.2 + 0.2**2)
    >>> bool(abs(measure(cone(0.3, 0.2, 0.4)).volume / exact - 1) < 1.1e-4)
    True
    """
    if not (np.isfinite(height) and height > 0):
        raise UserError(f"a cone cannot be {height:g} m high", allowed="a height above zero")
    return revolve([[bottom_radius, 0.0], [top_radius, height]], segments)


def revolve(profile: npt.ArrayLike, segments: int = 256) -> Mesh:
    """Turn an outline of radius and height around the z axis into a closed body.

    Parameters
    ----------
    profile : array (n, 2)
        Radius and height [m] of the outline, from the bottom up or from the top down; where an end does not
        lie on the axis it is joined to it by a flat disc.
    segments : int
        Flat strips around. The vertices lie on the true circle, so the volume is low by the share
        2 pi^2 / (3 segments^2): 1.0e-4 at 256.

    Returns
    -------
    Mesh

    Raises
    ------
    UserError
        When the outline is no simple one beside the axis.

    Examples
    --------
    >>> from pourwright.geometry import measure
    >>> bowl = revolve([[0.1, 0.0], [0.2, 0.15], [0.19, 0.15], [0.09, 0.01]])
    >>> bool(measure(bowl).volume > 0), bowl.bounds[1].round(3).tolist()
    (True, [0.2, 0.2, 0.15])
    """
    outline = _checked_outline(profile)
    if segments < 3:
        raise UserError(f"{segments} segments make no circle", allowed="3 or more")
    rings = outline[1:-1] if outline[0, 0] == 0 and outline[-1, 0] == 0 else outline
    angles = 2 * np.pi * np.arange(segments) / segments
    circle = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    # exact quarter points keep the bounding box the maker wrote
    circle[np.abs(circle) < 1e-15] = 0.0
    points = np.empty((len(rings), segments, 3))
    points[:, :, :2] = rings[:, None, :1] * circle
    points[:, :, 2] = rings[:, 1:]
    poles = np.array([[0.0, 0.0, outline[0, 1]], [0.0, 0.0, outline[-1, 1]]])
    vertices = np.concatenate([points.reshape(-1, 3), poles])
    faces = _revolved_faces(len(rings), segments)
    return Mesh(vertices, faces if _turns_outward(outline) else faces[:, ::-1])


def _revolved_faces(rings: int, segments: int) -> npt.NDArray[np.int64]:
    """Wind strips between rings and fans at both poles for an outline that runs upward."""
    around = np.arange(segments)
    beside = (around + 1) % segments
    low = segments * np.arange(rings - 1)[:, None]
    a, b, c, d = low + around, low + beside, low + segments + beside, low + segments + around
    strips = np.stack([np.stack([a, b, c], axis=-1), np.stack([a, c, d], axis=-1)], axis=2).reshape(-1, 3)
    bottom, top = segments * rings, segments * rings + 1
    last = segments * (rings - 1)
    fan_below = np.stack([np.full(segments, bottom), beside, around], axis=1)
    fan_above = np.stack([np.full(segments, top), last + around, last + beside], axis=1)
    return np.concatenate([strips, fan_below, fan_above])


def _turns_outward(outline: Floats) -> bool:
    """Tell from the signed volume of revolution whether the outline runs upward around its body."""
    radius, height = outline.T
    squares = radius[:-1] ** 2 + radius[:-1] * radius[1:] + radius[1:] ** 2
    return bool((squares * np.diff(height)).sum() > 0)


def _checked_outline(profile: npt.ArrayLike) -> Floats:
    """Close the outline through the axis and refuse what encloses no single body."""
    outline = np.asarray(profile, dtype=np.float64)
    if outline.ndim != 2 or outline.shape[1] != 2 or len(outline) < 2:
        raise UserError("a profile needs two or more points", allowed="[[radius, height], ...]")
    if not np.isfinite(outline).all() or (outline[:, 0] < 0).any():
        raise UserError("a profile has a radius below zero or no number", allowed="radius 0 or more")
    outline = outline[np.append(True, np.any(np.diff(outline, axis=0) != 0, axis=1))]
    ends = [[[0.0, height]] if radius > 0 else np.empty((0, 2)) for radius, height in outline[[0, -1]]]
    closed = np.concatenate([ends[0], outline, ends[1]])
    if len(closed) < 3 or (closed[1:-1, 0] == 0).any():
        place = (
            "the profile touches the axis between its ends" if len(closed) >= 3 else "the profile is one line"
        )
        raise UserError(f"{place}: it encloses no single body", todo="leave the axis after the first point")
    if (crossing := _crossing(closed)) is not None:
        radius, height = crossing
        raise UserError(
            f"the profile crosses itself near radius {1000 * radius:.4g} mm, height {1000 * height:.4g} mm"
        )
    return closed


def _crossing(outline: Floats) -> Floats | None:
    """Find a place where two edges of the closed outline, axis included, meet."""
    starts, ends = outline, np.roll(outline, -1, axis=0)
    count = len(outline)
    for i in range(count):
        others = np.array([j for j in range(i + 2, count) if (j + 1) % count != i], dtype=int)
        if others.size == 0:
            continue
        near, far = (_side(starts[i], ends[i], points[others]) for points in (starts, ends))
        here = _side_of(starts[others], ends[others], starts[i])
        there = _side_of(starts[others], ends[others], ends[i])
        met = (near * far < 0) & (here * there < 0)
        if met.any():
            return np.asarray((starts[i] + ends[i]) / 2)
    return None


def _side(start: Floats, end: Floats, points: Floats) -> Floats:
    """Tell on which side of one line many points lie."""
    edge, off = end - start, points - start
    return np.asarray(np.sign(edge[0] * off[:, 1] - edge[1] * off[:, 0]))


def _side_of(starts: Floats, ends: Floats, point: Floats) -> Floats:
    """Tell on which side of many lines one point lies."""
    edge, off = ends - starts, point - starts
    return np.asarray(np.sign(edge[:, 0] * off[:, 1] - edge[:, 1] * off[:, 0]))
