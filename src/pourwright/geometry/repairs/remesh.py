"""A new surface around all that is enclosed: for a body whose own surface crosses itself."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT, Progress
from pourwright.geometry.column_kernels import crossings
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.repairs.deviation import deviation
from pourwright.geometry.repairs.enclosed import enclosed_volume
from pourwright.geometry.repairs.marching import CORNERS, EDGES, triangle_table
from pourwright.geometry.repairs.mending import Mending
from pourwright.geometry.repairs.remesh_kernels import (
    borders,
    count_faces,
    fill_inside,
    lay_corners,
    lay_faces,
)
from pourwright.geometry.repairs.slivers import without_slivers
from pourwright.geometry.repairs.union import manifold_of, mesh_of

STEP = 0.8
"""Step of the lattice as a share of the tolerance: a square corner in a cube loses 1.155 steps at most."""
FLATTENING = 0.02
"""Share of the tolerance that is given to fewer triangles on flat places."""
MOST_POINTS = 400_000_000
"""Lattice points that are held at once, a byte each."""
MOST_TRIANGLES = 5_000_000
"""Triangles before flat places are given fewer, 0.6 kB each: 3 GB."""
_ASIDE = (np.sqrt(2) - 1, np.sqrt(3) - 1, np.sqrt(5) - 2)
Borders = tuple[Integers, Floats]


@checked(tolerance=Range(0, unit="m", open_low=True))
def remeshed(mesh: Mesh, tolerance: float, progress: Progress = SILENT) -> Mesh:
    """Lay a new closed surface around all that a surface encloses once or more.

    Parameters
    ----------
    mesh : Mesh
        Closed; it may cross itself.
    tolerance : float
        How far the new surface may lie from the old one [m].
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    Mesh
        Closed and crossing nothing. Sharp edges and corners are cut back by up to the tolerance; what is
        thinner than it may be lost.

    Raises
    ------
    UserError
        When so fine a lattice does not fit into memory, with the finest tolerance that does.

    Notes
    -----
    A lattice point is inside where the winding number along its column is above zero. The new surface cuts
    the edges between inside and outside points exactly where the columns along x, y and z cross the old
    one, so on flat places it lies on it. Between them stand the triangles of `marching`. Flat places are
    then given fewer triangles.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> cube = box([0.2, 0.2, 0.2])
    >>> one = remeshed(joined([cube, cube.moved([0.1, 0.0, 0.0])]), 0.005)
    >>> from pourwright.geometry import measure
    >>> bool(abs(measure(one).volume / 0.012 - 1) < 0.002)
    True
    """
    axes = _lattice(mesh, tolerance)
    progress.step("making the surface anew", 0, 1)
    along = _borders(mesh, axes)
    inside = np.zeros([axis.size for axis in axes], dtype=np.uint8)
    fill_inside(*along[2], axes[2], inside)
    if not inside.any():
        thin = f"{1000 * tolerance:.3g} mm is too coarse: nothing of the shape is so thick"
        raise UserError(thin, todo="give a finer tolerance")
    rough = _surface(inside, axes, along, progress)
    progress.step("making the surface anew", 1, 1)
    fewer = mesh_of(manifold_of(rough).simplify(FLATTENING * tolerance))
    return without_slivers(fewer)[0]


def _lattice(mesh: Mesh, tolerance: float) -> list[Floats]:
    """Lines of the lattice, none of them in a plane of symmetry, all around the body."""
    step = STEP * tolerance
    lower, upper = mesh.bounds
    counts = np.ceil((upper - lower) / step) + 3
    # a square of the lattice on the surface holds two triangles, and up to four where it lies askew
    triangles = 3 * float(np.linalg.norm(mesh.area_vectors, axis=1).sum()) / step**2
    points = float(np.prod(counts))
    too_fine = max((points / MOST_POINTS) ** (1 / 3), (triangles / MOST_TRIANGLES) ** 0.5)
    if too_fine > 1:
        raise UserError(
            f"a tolerance of {1000 * tolerance:.3g} mm needs more memory than is taken,"
            f" for {triangles / 1e6:.0f} million triangles",
            allowed=f"{1000 * tolerance * too_fine * 1.05:.2g} mm or coarser",
            todo="take a coarser tolerance",
        )
    return [
        low - step * (1 + aside) + step * np.arange(int(count))
        for low, count, aside in zip(lower, counts, _ASIDE, strict=True)
    ]


def _borders(mesh: Mesh, axes: list[Floats]) -> list[Borders]:
    """Where the lattice's lines along x, y and z pass the border of what is enclosed."""
    found = []
    for axis in range(3):
        order = [(axis + 1) % 3, (axis + 2) % 3, axis]
        vertices = np.ascontiguousarray(mesh.vertices[:, order])
        vertices.setflags(write=False)
        found.append(borders(*crossings(vertices, mesh.faces, axes[order[0]], axes[order[1]])))
    return found


def _surface(
    inside: npt.NDArray[np.uint8], axes: list[Floats], along: list[Borders], progress: Progress
) -> Mesh:
    """Lay corners and triangles, layer by layer."""
    origin = np.array([axis[0] for axis in axes])
    step = float(axes[0][1] - axes[0][0])
    along_x, along_y, along_z = along
    counts, table = triangle_table()
    edges = np.array([[(b - a).bit_length() - 1, *CORNERS[a]] for a, b in EDGES])
    before, behind = (np.empty((3, *inside.shape[1:]), dtype=np.int64) for _ in range(2))
    layers = inside.shape[0]
    total = 0
    for i in range(layers):
        total = lay_corners(
            inside, origin, step, along_x, along_y, along_z, i, before, np.empty((0, 3)), total
        )
    corners = np.empty((total, 3))
    faces = np.empty((count_faces(inside, counts), 3), dtype=np.int64)
    laid = lay_corners(inside, origin, step, along_x, along_y, along_z, 0, before, corners, 0)
    made = 0
    for i in range(layers - 1):
        laid = lay_corners(inside, origin, step, along_x, along_y, along_z, i + 1, behind, corners, laid)
        made = lay_faces(inside, i, before, behind, counts, table, edges, faces, made)
        before, behind = behind, before
        progress.step("making the surface anew", i + 1, layers)
    return Mesh(corners, faces)


def remeshing_told(before: Mesh, after: Mesh, tolerance: float) -> tuple[Mending, ...]:
    """Say what a new surface cost, measured against the old one.

    Parameters
    ----------
    before : Mesh
        The old surface.
    after : Mesh
        The new one.
    tolerance : float
        What was asked for [m].

    Returns
    -------
    tuple of Mending
        With the volume against that of the column sweep, and the largest distance of a corner of the old
        surface's outside from the new surface.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cube = box([0.2, 0.2, 0.2])
    >>> remeshing_told(cube, remeshed(cube, 0.01), 0.01)[0].kind
    'remeshed'
    """
    once, inside_out = enclosed_volume(before)
    change = enclosed_volume(after, bounds=before.bounds)[0] / once - 1
    farthest, place = deviation(before, after)
    way = "smaller" if change < 0 else "larger"
    message = (
        f"the surface was made anew within {{0}} {{u}} in {len(after.faces)} triangles: sharp corners are cut"
        f" back by {{1}} {{u}} at most, the volume is {way} by {_percent(change)}; worst"
    )
    lost = ""
    if inside_out > 1e-6 * once:
        lost = f"parts that were inside out, {_percent(inside_out / once)} of the volume, are left out"
    return (Mending("remeshed", message, place[None], (tolerance, farthest), after=lost),)


def _percent(share: float) -> str:
    return f"{100 * abs(share):.2g} %"
