"""The walls of a pocket of air: its free surface, the way up from its top, its body."""

import numpy as np

from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.primitives import box
from pourwright.geometry.ways_up.pocket_kernels import faces_above
from pourwright.geometry.ways_up.pockets import Pocket

_AROUND = 0.1
"""Share of the body by which the space around it is drawn wider."""
_CLEAR = 1e-9
"""Share of the body's size by which a cut runs clear of the lip."""
_MM = 1000.0
"""The joining kernel reckons in mm."""


def free_surface(mesh: Mesh, pocket: Pocket, up: Floats, *, outside: bool) -> float:
    """Area of the liquid's surface below caught air, once the air is closed off.

    Parameters
    ----------
    mesh : Mesh
        That the pocket was found in.
    pocket : Pocket
        Of it.
    up : array (3,)
        Direction the liquid rises in, of length 1.
    outside : bool
        Whether it rises around the body.

    Returns
    -------
    float
        [m2], just above the lip; exact for the mesh.

    Examples
    --------
    >>> from pourwright.geometry import revolve
    >>> from pourwright.geometry.ways_up.pockets import pockets
    >>> cup = revolve([[0.05, 0.0], [0.05, 0.1], [0.04, 0.1], [0.04, 0.01]], 256)
    >>> hung = cup.transformed(np.diag([1.0, -1.0, -1.0, 1.0]))
    >>> (found,) = pockets(hung, outside=True)
    >>> round(free_surface(hung, found, np.array([0.0, 0.0, 1.0]), outside=True) / (np.pi * 0.04**2), 3)
    1.0
    """
    faces = walls(mesh, pocket, up)
    shares = _shares_above(mesh.vertices[mesh.faces[faces]] @ up - pocket.lip)
    area = float(shares @ (mesh.area_vectors[faces] @ up))
    return -area if outside else area


def walls(mesh: Mesh, pocket: Pocket, up: Floats) -> Integers:
    """List the faces that bound a pocket above its lip, also those that reach below it.

    Parameters
    ----------
    mesh : Mesh
        That the pocket was found in.
    pocket : Pocket
        Of it.
    up : array (3,)
        Direction the liquid rises in.

    Returns
    -------
    array (n,)
        Numbers of faces.
    """
    heights = mesh.vertices[mesh.faces] @ up
    highest = mesh.faces[np.arange(len(mesh.faces)), heights.argmax(axis=1)]
    own = np.zeros(len(mesh.vertices), dtype=bool)
    own[pocket.vertices] = True
    return np.flatnonzero(own[highest] & (heights.max(axis=1) > pocket.lip))


def _shares_above(heights: Floats) -> Floats:
    """Share of each triangle that lies above zero, from the heights of its corners."""
    low, middle, high = np.sort(heights, axis=1).T
    with np.errstate(divide="ignore", invalid="ignore"):
        tip = high**2 / ((high - low) * (high - middle))
        rest = 1.0 - low**2 / ((high - low) * (middle - low))
    return np.select([high <= 0.0, low >= 0.0, middle <= 0.0], [0.0, 1.0, tip], rest)


def room_above(mesh: Mesh, place: Floats, turn: Floats) -> float:
    """Say how far it is from a corner of a surface straight up to the next face.

    Parameters
    ----------
    mesh : Mesh
        Closed.
    place : array (3,)
        One of its corners [m].
    turn : array (3, 3)
        Rows are the axes of a frame with its third one up.

    Returns
    -------
    float
        [m]; infinite where there is none.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cube = box([0.2, 0.2, 0.3])
    >>> round(room_above(cube, cube.bounds[0], np.eye(3)), 3)
    inf
    """
    points = np.ascontiguousarray(mesh.vertices @ turn.T)
    asking = int(((mesh.vertices - place) ** 2).sum(axis=1).argmin())
    (face,) = faces_above(points, mesh.faces, np.array([asking], dtype=np.int64))
    if face < 0:
        return float("inf")
    a, b, c = points[mesh.faces[face]]
    normal = np.cross(b - a, c - a)
    if normal[2] == 0.0:
        return float(max(a[2], b[2], c[2]) - points[asking, 2])
    across = normal[:2] @ (points[asking, :2] - a[:2])
    return float(a[2] - across / normal[2] - points[asking, 2])


def air_body(mesh: Mesh, place: Floats, lip: float, turn: Floats, *, outside: bool) -> Mesh:
    """Cut out the body of caught air.

    Parameters
    ----------
    mesh : Mesh
        Closed.
    place : array (3,)
        Highest point of the pocket [m].
    lip : float
        Its lip along up [m].
    turn : array (3, 3)
        Rows are the axes of a frame with its third one up.
    outside : bool
        Whether the liquid rises around the body.

    Returns
    -------
    Mesh
        In the frame of the mesh.

    Raises
    ------
    ValueError
        When no body of air has that highest point.
    """
    whole = np.eye(4)
    whole[:3, :3] = turn
    turned = mesh.transformed(whole)
    size = float(np.ptp(turned.bounds, axis=0).max())
    room = as_manifold(turned)
    if outside:
        room = as_manifold(_around(turned, _AROUND * size)) - room
    parts = room.trim_by_plane((0.0, 0.0, 1.0), (lip + _CLEAR * size) * _MM).decompose()
    wanted = turn @ np.asarray(place)
    meshes = [as_mesh(part) for part in parts if not part.is_empty()]
    off = [float(np.linalg.norm(body.vertices - wanted, axis=1).min()) for body in meshes]
    if not off or min(off) > 1e-6 * size:
        raise ValueError("no air has that highest point")
    return meshes[int(np.argmin(off))].transformed(np.linalg.inv(whole))


def _around(mesh: Mesh, by: float) -> Mesh:
    """A box around a body, wider by some length on every side."""
    lower, upper = mesh.bounds[0] - by, mesh.bounds[1] + by
    return box(upper - lower).moved([*(lower + upper)[:2] / 2, lower[2]])
