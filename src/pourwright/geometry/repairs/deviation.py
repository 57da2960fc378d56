"""How far one surface lies from another."""

from __future__ import annotations

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.repairs.deviation_kernels import distances_to
from pourwright.geometry.repairs.remesh_kernels import windings_at

MOST_PLACES = 3000


@checked(count=Range(1, 100_000))
def deviation(before: Mesh, after: Mesh, count: int = MOST_PLACES) -> tuple[float, Floats]:
    """Largest distance of the corners on a body's outside from another surface.

    Parameters
    ----------
    before : Mesh
        Whose corners are taken; those that lie within the body are not.
    after : Mesh
        The surface they are held against.
    count : int
        Corners that are looked at, evenly in the order of the file.

    Returns
    -------
    tuple of float and array (3,)
        The distance and the corner [m].

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cube = box([0.2, 0.2, 0.2])
    >>> round(deviation(cube, box([0.2, 0.2, 0.19]))[0], 6)
    0.01
    """
    used = np.unique(before.faces)
    chosen = used[np.unique(np.linspace(0, used.size - 1, min(count, used.size)).astype(np.int64))]
    points = before.vertices[chosen]
    outside = ~_within(before, chosen)
    places = points[outside] if outside.any() else points
    found = distances_to(after.triangles, _spheres(after), places)
    worst = int(np.argmax(found))
    return float(found[worst]), places[worst]


def _within(
    mesh: Mesh, chosen: np.ndarray[tuple[int], np.dtype[np.int64]]
) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Whether corners lie in material that another part of the surface encloses: a step outward stays in."""
    normals = np.zeros((len(mesh.vertices), 3))
    for corner in range(3):
        np.add.at(normals, mesh.faces[:, corner], mesh.area_vectors)
    normals /= np.maximum(np.linalg.norm(normals, axis=1), 1e-30)[:, None]
    step = 1e-5 * float((mesh.bounds[1] - mesh.bounds[0]).max())
    return np.asarray(
        windings_at(mesh.vertices, mesh.faces, mesh.vertices[chosen] + step * normals[chosen]) > 0.5
    )


def _spheres(mesh: Mesh) -> Floats:
    triangles = mesh.triangles
    middles = (triangles.min(axis=1) + triangles.max(axis=1)) / 2
    radii = np.linalg.norm(triangles - middles[:, None], axis=2).max(axis=1)
    return np.concatenate([middles, radii[:, None]], axis=1)
