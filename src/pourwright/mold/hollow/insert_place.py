"""Setting an insert into a piece: whether it is inside, clear of the core, far enough from every edge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.geometry import Mesh, plane_section
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ray_tree import surface_tree
from pourwright.mold.hollow.defaults import INSERTS
from pourwright.mold.hollow.insert import Insert, InsertChoice, least_edge

WAYS = {
    "top": (2, -1.0), "bottom": (2, 1.0), "left": (0, 1.0), "right": (0, -1.0), "front": (1, 1.0),
    "back": (1, -1.0),
}  # fmt: skip
"""Axis and sense in which an insert goes in from a face."""
STATIONS = (0.25, 0.5, 0.75, 0.98)
"""Where along it the nearest face is looked for, as shares of its depth."""
ASIDE = 1.1e-7
"""A ray keeps off corners and seams of triangles by this much [m]."""
TOUCH = 1e-5


def placed(choice: InsertChoice, piece: Mesh, core: Mesh | None, grain: float, units: UnitSystem) -> Insert:
    """Set an insert into a piece.

    Parameters
    ----------
    choice : InsertChoice
        As chosen.
    piece : Mesh
        The cavity in the pour frame [m].
    core : Mesh, optional
        Of a hollow piece.
    grain : float
        Largest grain around it [m].
    units : UnitSystem
        What the maker reads.

    Returns
    -------
    Insert

    Raises
    ------
    UserError
        Where it lies outside the piece, in the core, comes out elsewhere, or is too near an edge.
    """
    axis, sense = WAYS[choice.face]
    way = np.zeros(3)
    way[axis] = sense
    entry, room, ends = _room(choice, piece, core, way, units)
    depth = _depth(choice, room, ends, units)
    edge, beside_core = _edge(piece, core, entry, way * depth)
    needed = least_edge(choice, grain)
    if edge < needed - TOUCH:
        raise _too_near(choice, edge, needed, units, beside_core=beside_core)
    through = choice.depth is None
    return Insert(
        choice=choice, entry=entry, way=way, depth=depth, edge=edge, edge_needed=needed,
        beside_core=beside_core, beyond=0.0 if through else room - depth, ends=ends if through else "casting",
    )  # fmt: skip


def _room(
    choice: InsertChoice, piece: Mesh, core: Mesh | None, way: Floats, units: UnitSystem
) -> tuple[Floats, float, Literal["core", "face"]]:
    """Where it goes in, and how far the casting reaches behind that [m]."""
    axis = int(np.argmax(np.abs(way)))
    start = np.insert(np.array(choice.at) + ASIDE, axis, 0.0)
    start[axis] = piece.bounds[0 if way[axis] > 0 else 1, axis] - way[axis] * 0.01
    walls = list(_crossings(piece, start, way))
    if len(walls) < 2:
        raise UserError(
            f"{choice.name} lies outside the piece: from the {choice.face} nothing of it is there",
            where=choice.where,
            allowed=_extent(piece, axis, units),
            todo="mind that places count from the piece's middle, heights from the mold's floor, as poured",
        )
    cores = [] if core is None else [far for far in _crossings(core, start, way) if far < walls[1] + TOUCH]
    if cores and cores[0] <= walls[0] + TOUCH:
        raise UserError(
            f"{choice.name} goes in where the core is",
            where=choice.where,
            allowed="a place in the wall around the core",
            todo="move it, make the wall thicker, or set it in from another face",
        )
    end = cores[0] if cores else walls[1]
    return start + way * walls[0], end - walls[0], "core" if cores else "face"


def _crossings(mesh: Mesh, start: Floats, way: Floats) -> Iterator[float]:
    """Distances at which a ray meets a surface, the nearest first [m]."""
    tree, gone = surface_tree(mesh), 0.0
    while True:
        far, _ = tree.hits((start + way * gone)[None], way[None], TOUCH / 10)
        if not np.isfinite(far[0]):
            return
        gone += float(far[0])
        yield gone


def _extent(piece: Mesh, axis: int, units: UnitSystem) -> str:
    ends = [
        " to ".join(format_length(float(end), units) for end in piece.bounds[:, each])
        for each in range(3)
        if each != axis
    ]
    names = [name for each, name in enumerate("xyz") if each != axis]
    return ", ".join(f"{name} from {span}" for name, span in zip(names, ends, strict=True))


def _depth(choice: InsertChoice, room: float, ends: str, units: UnitSystem) -> float:
    """How deep it goes; refuses one that leaves too little behind its end."""
    if choice.depth is None:
        return room
    behind = max(
        INSERTS["behind_in_diameters"].value * choice.diameter if choice.kind == "socket" else 0.0,
        INSERTS["least_cover"].value,
    )
    if choice.depth > room - behind + TOUCH:
        deep, most = format_length(choice.depth, units), max(room - behind, 0.0)
        what = "core" if ends == "core" else "face behind it"
        raise UserError(
            f"{choice.name} is {deep} deep; the {what} lies {format_length(room, units)} in",
            where=choice.where,
            allowed=f"up to {format_length(most, units)} here, so that {format_length(behind, units)} stay",
            todo="take a shorter one or move it; a tube without depth goes to the core, or right through",
        )
    return choice.depth


def _edge(piece: Mesh, core: Mesh | None, entry: Floats, run: Floats) -> tuple[float, bool]:
    """Distance from the axis to the nearest face beside it, and whether that is the core's [m]."""
    axis = int(np.argmax(np.abs(run)))
    found = []
    for share in STATIONS:
        point = entry + share * run
        place = np.delete(point, axis)
        for mesh, of_core in ((piece, False), (core, True)):
            if mesh is not None:
                lines = plane_section(mesh, "xyz"[axis], float(point[axis]))
                found += [(_to_line(place, line), of_core) for line in lines]
    return min(found)


def _to_line(place: Floats, line: Floats) -> float:
    """Distance from a point to a closed line [m]."""
    ends = np.roll(line, -1, axis=0)
    along = ends - line
    lengths = np.maximum(np.einsum("ij,ij->i", along, along), 1e-18)
    shares = np.clip(np.einsum("ij,ij->i", place - line, along) / lengths, 0.0, 1.0)
    return float(np.linalg.norm(place - line - shares[:, None] * along, axis=1).min())


def _too_near(
    choice: InsertChoice, edge: float, needed: float, units: UnitSystem, *, beside_core: bool
) -> UserError:
    came, least = (format_length(value, units) for value in (edge, needed))
    what = "core" if beside_core else "edge"
    rule = "diameters for what bears a load" if choice.kind == "socket" else "cover, and grains that pass"
    return UserError(
        f"{choice.name} is too near the {what}: {came} from its axis",
        where=choice.where,
        allowed=f"{least} or more ({rule}, common practice)",
        todo="move it inwards, take a thinner one, or make the wall thicker",
    )
