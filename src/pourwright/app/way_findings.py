"""What a check says of the way up: air that is caught, and a way that is clearly better."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from pourwright.app.castable import Finding
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shaping.way_defaults import WAYS
from pourwright.app.shaping.way_words import Teller, written_up
from pourwright.app.shaping.ways import Weighed, best_ways, clearly_better, weigh
from pourwright.foundation.notation import UnitSystem, format_coordinate, format_share, format_volume
from pourwright.geometry import Mesh, Pocket, Way, measure, measure_ways, trapped_volume
from pourwright.geometry.kept import kept
from pourwright.jobs.job import Job
from pourwright.materials import Materials

Turn = tuple[float, ...]
_HELD = {"hung": "hung", "screwed": "screwed on, open face down"}


def way_findings(job: Job, piece: PieceRead, materials: Materials) -> Iterator[Finding]:
    """Look at the way up of a job and, where something speaks against it, at the others.

    Parameters
    ----------
    job : Job
        With its mold.
    piece : PieceRead
        As poured.
    materials : Materials
        For its rubber.

    Yields
    ------
    Finding
    """
    teller = Teller(UnitSystem(job.units), materials.rubber[job.mold.rubber])
    turn = tuple(float(number) for number in piece.frame.matrix.ravel())
    way = way_of(piece.mesh, turn)
    chosen = weigh(way, piece.solid.volume, job.mold.method)
    for pocket in chosen.casting:
        yield _caught(pocket, "casting", chosen, teller, piece)
    for pocket in chosen.rubber:
        yield _caught(pocket, "rubber", chosen, teller, piece)
    if not chosen.vents:
        yield Finding("ok", "no air is caught in the casting, nor in the rubber under the master")
    if chosen.grade == 0 and way.blocked < 2 * WAYS["near_undercut"].value:
        return
    better = clearly_better(chosen, ways_of(piece.mesh, turn))
    if better is not None:
        yield _better(chosen, better, teller)


@kept
def way_of(mesh: Mesh, turn: Turn) -> Way:
    """Measure the way up of a piece.

    Parameters
    ----------
    mesh : Mesh
        As poured.
    turn : tuple of float
        Map from the file, row by row.

    Returns
    -------
    Way
    """
    least = 0.1 * WAYS["small_pocket"].value * measure(mesh).volume
    return measure_ways(in_file(mesh, turn), [turn[8:11]], least)[0]


@kept
def ways_of(mesh: Mesh, turn: Turn) -> tuple[Weighed, ...]:
    """Measure all ways up of a piece; arguments as of `way_of`, the best first."""
    return best_ways(in_file(mesh, turn), measure(mesh))


def in_file(mesh: Mesh, turn: Turn) -> Mesh:
    """Turn a piece back into its file's frame; arguments as of `way_of`."""
    return mesh.transformed(np.linalg.inv(np.reshape(turn, (4, 4))))


def _caught(pocket: Pocket, liquid: str, chosen: Weighed, teller: Teller, piece: PieceRead) -> Finding:
    x, y, z = (format_coordinate(float(value), teller.system) for value in pocket.place)
    poured = float(pocket.place @ chosen.way.up) - chosen.way.floor
    height = teller.both(poured, float(pocket.place[2]) - piece.frame.ground)
    where = "in the casting" if liquid == "casting" else "in the rubber under the master"
    amount = format_volume(pocket.volume, teller.system)
    return Finding(
        "mind",
        f"{amount} of air is caught {where}, {height}, at {x}, {y}, {z} of the shape",
        teller.vent(pocket, liquid, chosen),
    )


def _better(chosen: Weighed, better: Weighed, teller: Teller) -> Finding:
    tell = _trouble if chosen.grade > better.grade else _undercut
    held = f'[mold] method = "{better.hold}"' if better.hold != chosen.hold else ""
    turned = "" if better.way.name == chosen.way.name else f"[shape] up = {written_up(better.way.name)}"
    here = f"poured {chosen.way.name} up, master {chosen.hold}: {tell(chosen, teller)}"
    there = f"{better.way.name} up, master {_HELD[better.hold]}: {tell(better, teller)}"
    lines = " and ".join(line for line in (turned, held) if line)
    return Finding("mind", f"{here}; {there}", f"try {lines}; pourwright shape shows the ways")


def _trouble(weighed: Weighed, teller: Teller) -> str:
    if weighed.mouthless:
        return "no open face"
    if weighed.plugged:
        return f"a hollow of {format_volume(weighed.way.basins, teller.system)} opens at the top only"
    caught = trapped_volume((*weighed.casting, *weighed.rubber))
    return f"{format_volume(caught, teller.system)} of air caught" if caught else "no air caught"


def _undercut(weighed: Weighed, _teller: Teller) -> str:
    return f"rubber lies over {format_share(weighed.way.blocked)} of the surface"
