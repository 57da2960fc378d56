"""Rims that miss each other by the last digits of the file are welded."""

from __future__ import annotations

import numpy as np

from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.repairs.mending import Mending, counted
from pourwright.geometry.repairs.rims import open_edges

STEPS = (2, 16, 128)
"""How far apart corners may lie to be welded, finest first, in steps of a 32-bit number at the outermost
corner: 3 micrometres at most for a body of 200 mm."""


def closed_seams(mesh: Mesh) -> tuple[Mesh, tuple[Mending, ...]]:
    """Weld corners on open edges that lie closer than the digits of a file can hold.

    Parameters
    ----------
    mesh : Mesh
        Welded exactly.

    Returns
    -------
    Mesh, tuple of Mending
        The finest weld that leaves the fewest edges open; the mesh itself where none helps.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cube = box([0.2, 0.2, 0.2])
    >>> soup = cube.triangles.reshape(-1, 3) + np.arange(36)[:, None] % 3 * 1e-9
    >>> len(closed_seams(Mesh(soup, np.arange(36)))[0].vertices)
    8
    """
    rim = np.unique(starts := open_edges(mesh).starts)
    if not rim.size:
        return mesh, ()
    step = float(np.spacing(np.float32(np.abs(mesh.bounds).max())))
    best, fewest, used = mesh, len(starts), 0.0
    for steps in STEPS:
        tried = _welded(mesh, rim, steps * step)
        if tried is None or not len(tried.faces):
            continue
        if (still := len(open_edges(tried).starts)) < fewest:
            best, fewest, used = tried, still, steps * step
        if not fewest:
            break
    if best is mesh:
        return mesh, ()
    return best, (_told(mesh, best, rim, used),)


def _told(before: Mesh, after: Mesh, rim: Integers, tolerance: float) -> Mending:
    count = len(before.vertices) - len(after.vertices)
    said = counted(count, "corner that lay", "corners that lay")
    area = float(np.linalg.norm(before.area_vectors, axis=1).sum())
    message = f"{said} less than {{0}} {{u}} beside another {'was' if count == 1 else 'were'} welded to it"
    return Mending("welded", message, before.vertices[rim], (tolerance,), volume=area * tolerance)


def _welded(mesh: Mesh, rim: Integers, tolerance: float) -> Mesh | None:
    """Make corners of the rim that hang together within the tolerance one: the first of them."""
    from scipy.sparse import coo_array  # noqa: PLC0415 - a tenth of a second that only mending needs
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415
    from scipy.spatial import cKDTree  # noqa: PLC0415

    points: Floats = mesh.vertices[rim]
    pairs = cKDTree(points).query_pairs(tolerance, output_type="ndarray")
    if not len(pairs):
        return None
    links = (np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1]))
    _, labels = connected_components(coo_array(links, shape=(rim.size, rim.size)), directed=False)
    first = np.full(labels.max() + 1, len(mesh.vertices), dtype=np.int64)
    np.minimum.at(first, labels, rim)
    target = np.arange(len(mesh.vertices))
    target[rim] = first[labels]
    faces = target[mesh.faces]
    whole = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    return compacted(Mesh(mesh.vertices, faces[whole]))


def compacted(mesh: Mesh) -> Mesh:
    """Leave out vertices that no triangle has.

    Parameters
    ----------
    mesh : Mesh
        Any mesh.

    Returns
    -------
    Mesh
        The others in their order.

    Examples
    --------
    >>> compacted(Mesh([[0, 0, 0], [9, 9, 9], [1, 0, 0], [0, 1, 0]], [[0, 2, 3]])).faces.tolist()
    [[0, 1, 2]]
    """
    used = np.zeros(len(mesh.vertices), dtype=bool)
    used[mesh.faces] = True
    number = np.cumsum(used) - 1
    return Mesh(mesh.vertices[used], number[mesh.faces])
