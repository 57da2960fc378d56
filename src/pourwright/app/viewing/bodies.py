"""The bodies of a job as they are shown, each with how far it goes when all is pulled apart."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain

import numpy as np

from pourwright.app.molding.look import MoldLook
from pourwright.fill.parts import FillBand
from pourwright.geometry import Mesh, measure
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.shown import Thinned, thinned
from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.mold.bodies.apart import apart
from pourwright.mold.bodies.body import Body
from pourwright.mold.bodies.making import cuboid, mold_bodies
from pourwright.sheets.section_drawing import BOX_TONE, CORE_TONE, RUBBER_TONE
from pourwright.sheets.tones import NEAT, PATTERNS, colour_tone

MOST, COARSE = 150_000, 6_000
"""Triangles of one body that are shown, at rest and while something moves: docs/decisions/0034."""
BLOCK_TONE, MASTER_TONE, PIECE_TONE, BAR_TONE = "#cdb58b", "#c8a878", "#cfe0dc", "#a08a66"
POUR_TONES = ("#dbe7ee", "#b4c9d6")
SPREAD = 0.18
"""Between bands, and between pours, that are pulled apart, as a share of the longest side."""
_MM = 1000.0
Shift = tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class Shown:
    """A body that is shown.

    Parameters
    ----------
    id : str
        Name in addresses.
    kind : str
        piece, band, pour, core, master, rubber, block, panel or bar.
    words : str
        What the maker calls it.
    mesh : Mesh
        As shown, in the pour frame [m].
    volume, mass : float or None
        Of the body itself, not of what is shown of it [m3], [kg].
    moved : tuple of float
        How far it goes when all is pulled apart [m].
    tone, pattern : str
        Colour and pattern it is drawn with.
    heights : tuple of float, optional
        Lower and upper level of a band or pour [m].
    note : str
        What else is to be said about it.
    """

    id: str
    kind: str
    words: str
    mesh: Mesh
    volume: float | None
    mass: float | None
    moved: Shift
    tone: str
    pattern: str = ""
    heights: tuple[float, float] | None = None
    note: str = ""


@dataclass(frozen=True, eq=False)
class Scene:
    """All bodies of a job.

    Parameters
    ----------
    bodies : tuple of Shown
        From the inside out.
    off : float
        No place of a shown surface lies farther from the true one [m]; 0 where all of it is shown.
    triangles : int
        Of the piece as it was read.
    """

    bodies: tuple[Shown, ...]
    off: float
    triangles: int


@lru_cache(maxsize=4)
def shown_of(mesh: Mesh) -> Thinned:
    """Leave out what is not shown of a body.

    Parameters
    ----------
    mesh : Mesh
        Piece, master, room or core.

    Returns
    -------
    Thinned
    """
    return thinned(mesh, MOST)


def _fewer(mesh: Mesh, most: int) -> Thinned:
    shown = shown_of(mesh)
    if most >= MOST:
        return shown
    fewer = thinned(shown.mesh, most)
    return Thinned(fewer.mesh, shown.off + fewer.off)


def scene_of(look: MoldLook, plan: PlanDocument | None, most: int = MOST) -> Scene:
    """Make all bodies that are shown.

    Parameters
    ----------
    look : MoldLook
        Piece and mold.
    plan : PlanDocument, optional
        For the pours.
    most : int
        Triangles of one body.

    Returns
    -------
    Scene
        The rubber lies around what is shown of the master, so that the two meet without a gap.
    """
    made = look.piece.sizes
    piece = _fewer(look.piece.mesh, most)
    master = piece if made is None else _fewer(made.master, most)
    bodies = mold_bodies(look.mold, master.mesh)
    moves = apart(bodies)
    room = piece if look.hollow is None else _fewer(look.hollow.body.room, most)
    lift = next(shift for body, shift in moves if body.kind == "master")
    # what is pulled apart inside must not reach what lies above
    rise = SPREAD * max(look.piece.size) * max(_count(look, plan) - 1, 0)
    moves = tuple((body, _up(shift, rise) if body.place == "above" else shift) for body, shift in moves)
    mold = chain(_molded(look, moves), _bars(look, bodies.box, _up(lift, rise)))
    shown = chain(_casting(look, room, plan, lift), mold)
    # an older plan may pour where the piece is no more
    there = tuple(one for one in shown if len(one.mesh.faces))
    return Scene(there, max(piece.off, master.off, room.off), len(look.piece.mesh.faces))


def _count(look: MoldLook, plan: PlanDocument | None) -> int:
    """Bands or pours, whichever are more."""
    return max(len(look.fill.bands) if look.fill else 0, len(plan.pours) if plan else 0)


def _casting(look: MoldLook, room: Thinned, plan: PlanDocument | None, lift: Shift) -> Iterator[Shown]:
    mass = look.fill_mass - look.core_kept
    yield Shown("piece", "piece", "piece", room.mesh, look.room_solid.volume, mass, lift, PIECE_TONE)
    if look.hollow is not None:
        above = _up(lift, 1.1 * look.piece.size[2])
        core = look.hollow.body
        shown = shown_of(core.core).mesh
        yield Shown("core", "core", "core", shown, core.volume, look.core_mass, above, CORE_TONE)
    step = SPREAD * max(look.piece.size)
    bands = look.fill.bands if look.fill else ()
    yield from _bands(bands, room.mesh, lift, step)
    if plan is not None:
        yield from _pours(plan.pours, room.mesh, lift, step)


def _bands(bands: tuple[FillBand, ...], room: Mesh, lift: Shift, step: float) -> Iterator[Shown]:
    names = list(PATTERNS)
    kinds = list(dict.fromkeys((band.grade, band.colour) for band in bands if band.grade))
    for number, band in enumerate(bands, 1):
        neat = band.grade is None
        pattern = "" if neat else names[kinds.index((band.grade or "", band.colour)) % len(names)]
        yield Shown(
            f"band-{number}", "band", band.name, _between(room, band.lower, band.upper), band.volume,
            band.glass_mass + band.resin_mass, _up(lift, (number - 1) * step),
            NEAT if neat else colour_tone(band.colour), pattern, (band.lower, band.upper),
        )  # fmt: skip


def _pours(pours: list[Pour], room: Mesh, lift: Shift, step: float) -> Iterator[Shown]:
    for pour in pours:
        mass = pour.resin_kg + sum(portion.mass_kg for portion in pour.glass)
        yield Shown(
            f"pour-{pour.number}", "pour", f"pour {pour.number}", _between(room, pour.from_m, pour.to_m),
            pour.volume_m3, mass, _up(lift, (pour.number - 1) * step), POUR_TONES[pour.number % 2],
            ("", "dashes")[pour.number % 2], (pour.from_m, pour.to_m),
        )  # fmt: skip


def _between(room: Mesh, low: float, high: float) -> Mesh:
    """What lies of a body between two levels."""
    body = as_manifold(room)
    cut = body.trim_by_plane((0, 0, 1), low * _MM).trim_by_plane((0, 0, -1), -high * _MM)
    return as_mesh(cut)


def _up(shift: Shift, by: float) -> Shift:
    return (shift[0], shift[1], shift[2] + by)


def _molded(look: MoldLook, moves: tuple[tuple[Body, Shift], ...]) -> Iterator[Shown]:
    board = look.mold.choices.board.density.value
    for body, shift in moves:
        if body.kind == "rubber":
            rubber = look.mold.rubber
            yield _body(body, "rubber", shift, rubber.volume, rubber.mass, RUBBER_TONE)
        elif body.kind == "master":
            yield _body(body, "master", shift, None, look.mold.hold_down.master_mass, MASTER_TONE)
        else:
            tone = BLOCK_TONE if body.kind == "block" else BOX_TONE
            name = f"{body.kind}-{body.name.rpartition(' ')[2]}-{body.place}".lower()
            yield _body(body, name, shift, body.volume, body.volume * board, tone)


def _body(body: Body, name: str, shift: Shift, volume: float | None, mass: float | None, tone: str) -> Shown:
    words = f"{body.name}, {body.place}" if body.place else body.name
    held = body.volume if volume is None else volume
    return Shown(name, body.kind, words, body.mesh, held, mass, shift, tone)


def _bars(look: MoldLook, box: Mesh, lift: Shift) -> Iterator[Shown]:
    """Bars that a hung master hangs from: across the shorter way, side by side over the master."""
    if look.mold.method != "hung":
        return
    bars, board = look.mold.choices.bars, look.mold.choices.thickness
    across = int(look.mold.inside[0] > look.mold.inside[1])
    beside, half = 1 - across, look.mold.inside[across] / 2 + board
    wide = max(look.piece.size[beside], bars.count * bars.width)
    rim = float(box.bounds[1, 2])
    material = bars.board or look.mold.choices.board
    for number in range(bars.count):
        middle = wide * ((number + 0.5) / bars.count - 0.5)
        low, high = np.zeros(3), np.zeros(3)
        low[across], high[across] = -half, half
        low[beside], high[beside] = middle - bars.width / 2, middle + bars.width / 2
        low[2], high[2] = rim, rim + bars.height
        mesh = cuboid(low.tolist(), high.tolist())
        volume = measure(mesh).volume
        yield Shown(
            f"bar-{number + 1}", "bar", f"bar {number + 1}", mesh, volume, volume * material.density.value,
            _up(lift, 1.2 * look.piece.size[2]), BAR_TONE,
        )  # fmt: skip
