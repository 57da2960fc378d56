"""Small holes in a surface are closed, large ones are refused."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.faults import Fault
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.repairs.lids import fan, lid, lid_area
from pourwright.geometry.repairs.mending import Mending, counted
from pourwright.geometry.repairs.rims import open_edges, rim_loops

WIDEST = 0.05
"""Widest hole that is closed, as a share of the largest size of the body."""
FLATTEST = 0.1
"""How far a rim may leave its plane, as a share of its width."""
MOST_CORNERS = 200
SLIT = 1e-6
"""A hole is a slit of no width where its area is less than this share of the square of its length."""


@dataclass(frozen=True, slots=True, eq=False)
class Closed:
    """A surface with its small holes closed.

    Parameters
    ----------
    mesh : Mesh
        [m]
    mendings : tuple of Mending
        What was closed.
    faults : tuple of Fault
        Holes that are too large.
    """

    mesh: Mesh
    mendings: tuple[Mending, ...] = ()
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class _Hole:
    """One rim: its vertices, middle [m], width [m], and how it is closed."""

    loop: Integers
    middle: Floats
    width: float
    kind: str


def closed_holes(mesh: Mesh) -> Closed:
    """Close slits, missing triangles and small holes that are nearly flat.

    Parameters
    ----------
    mesh : Mesh
        With triangles that agree in their direction.

    Returns
    -------
    Closed

    Notes
    -----
    One missing triangle is put back whatever its size: three corners allow nothing else. A rim with more
    corners is closed up to 5 % of the body's largest size, where it leaves its plane by less than a tenth of
    its width; by the lid of least area (Barequet and Sharir, Comput. Aided Geom. Des. 12 (1995) 207, from
    memory). The volume given is that of a half ball on the hole: more cannot have stood there unless it
    reached over its own rim.

    Examples
    --------
    >>> from pourwright.geometry import box, measure
    >>> cube = box([0.2, 0.2, 0.2])
    >>> round(measure(closed_holes(Mesh(cube.vertices, cube.faces[1:])).mesh).volume, 6)
    0.008
    """
    rim = open_edges(mesh)
    if not rim.starts.size:
        return Closed(mesh)
    size = float((mesh.bounds[1] - mesh.bounds[0]).max())
    loops = rim_loops(rim)
    holes = [_hole(mesh.vertices, loop, size) for loop in loops]
    if sum(len(loop) for loop in loops) < rim.starts.size:
        return Closed(mesh, (), (_ragged(mesh, rim.starts),))
    if large := sorted((h for h in holes if h.kind == "large"), key=lambda h: (-h.width, tuple(h.middle))):
        return Closed(mesh, (), (_large(large, mesh.vertices),))
    return Closed(_with_lids(mesh, holes), tuple(_told(holes)))


def _hole(vertices: Floats, loop: Integers, size: float) -> _Hole:
    points = vertices[loop]
    middle = points.mean(axis=0)
    width = _width(points)
    if len(loop) == 3:
        kind = "slit" if lid_area(points) <= SLIT * width**2 else "triangle"
    elif len(loop) > MOST_CORNERS:
        kind = "large"
    elif lid_area(points) <= SLIT * width**2:
        kind = "slit"
    else:
        off = np.linalg.svd(points - middle)[2][2] @ (points - middle).T
        flat = float(np.ptp(off)) <= FLATTEST * width
        kind = "small" if width <= WIDEST * size and flat else "large"
    return _Hole(loop, middle, width, kind)


def _width(points: Floats) -> float:
    """Largest distance of two corners; of the box around them where there are many."""
    if len(points) > MOST_CORNERS:
        return float(np.ptp(points, axis=0).max())
    return float(np.linalg.norm(points[:, None] - points[None], axis=2).max())


def _with_lids(mesh: Mesh, holes: list[_Hole]) -> Mesh:
    lids = [hole.loop[lid(mesh.vertices[hole.loop])] for hole in holes]
    tried = Mesh(mesh.vertices, np.concatenate([mesh.faces, *lids]))
    if (edges_of(tried).uses <= 2).all():
        return tried
    # a lid's diagonal is an edge of the surface already: a corner in the middle needs no diagonal
    fans: list[Integers] = []
    middles: list[Floats] = []
    for hole in holes:
        fans.append(fan(hole.loop, len(mesh.vertices) + len(middles)))
        middles.append(hole.middle)
    return Mesh(np.concatenate([mesh.vertices, middles]), np.concatenate([mesh.faces, *fans]))


def _told(holes: list[_Hole]) -> list[Mending]:
    told = []
    words = {
        "triangle": ("missing triangle was put back", "missing triangles were put back"),
        "slit": ("slit without width was closed", "slits without width were closed"),
        "small": ("hole of at most {0} {u} was closed", "holes of at most {0} {u} were closed"),
    }
    for kind, (one, many) in words.items():
        these = sorted((h for h in holes if h.kind == kind), key=lambda h: -h.width)
        if these:
            places = np.array([hole.middle for hole in these])
            most = sum(np.pi * hole.width**3 / 12 for hole in these) if kind == "small" else 0.0
            lengths = (these[0].width,)
            told.append(Mending("hole", counted(len(these), one, many), places, lengths, volume=most))
    return told


def _large(holes: list[_Hole], vertices: Floats) -> Fault:
    worst = holes[0]
    count = len(holes)
    which = "a hole" if count == 1 else f"{count} large holes, the largest"
    message = f"the surface is open: {which} is {{0}} {{u}} wide with {len(worst.loop)} edges around it,"
    message = message.replace("a hole is", "a hole") if count == 1 else message
    places = np.concatenate([vertices[hole.loop] for hole in holes])
    todo = f"close it in the program that made it; here up to {100 * WIDEST:g} % of the body's size is closed"
    return Fault("open", message, worst.middle, count, True, todo, (worst.width,), places)


def _ragged(mesh: Mesh, starts: Integers) -> Fault:
    places = mesh.vertices[np.unique(starts)]
    open_ones = counted(starts.size, "edge is", "edges are")
    message = f"the surface is open: {open_ones} not closed and form no rim, first"
    return Fault("open", message, places[0], starts.size, places=places)
