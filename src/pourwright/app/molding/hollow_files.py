"""The picture of a hollow piece: core, walls, what holds the core, what is set in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from pourwright.app.molding.bodies import bodies_of
from pourwright.app.molding.bodies_sections import cut_of
from pourwright.app.molding.look import MoldLook
from pourwright.geometry import Mesh, plane_section
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.plan_part import Polyline
from pourwright.mold.bodies.body import MoldBodies
from pourwright.mold.hollow.insert import Insert
from pourwright.sheets.crossings import reach
from pourwright.sheets.mold_section_drawing import Cut, Level, MoldSection, Span, draw_mold_section
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording

TOLERANCE = 1e-4
BAR, ROD = 0.018, 0.008
"""Drawn height of the bar over the core, and width of a rod [m]."""
ROUND = 24


def hollow_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Draw a piece with its core and its inserts.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        All that is told.

    Yields
    ------
    (str, bytes)
        Path and content; nothing for a solid piece without inserts.
    """
    if look.hollow is None and not look.inserts:
        return
    words = Wording(sheet.job)
    svg = draw_mold_section(hollow_section(look, bodies_of(look), sheet, words), words, tallest=260.0)
    yield "drawings/hollow.svg", svg.encode()
    yield "drawings/hollow.png", png_of(svg)


def hollow_section(look: MoldLook, bodies: MoldBodies, sheet: MoldSheet, words: Wording) -> MoldSection:
    """Show the piece ready for casting, cut through the middle.

    Parameters
    ----------
    look : MoldLook
        The mold.
    bodies : MoldBodies
        Of it.
    sheet : MoldSheet
        What holds the core.
    words : Wording
        The maker's units.

    Returns
    -------
    MoldSection
    """
    room = look.piece.mesh if look.hollow is None else look.hollow.body.room
    off = {"base"} if look.mold.method == "screwed" else set()
    panels = [cut for each in bodies.panels if each.name not in off for cut in cut_of("panel", each.mesh)]
    around = [*cut_of("rubber", bodies.rubber.mesh), *panels]
    cuts = [*around, *cut_of("casting", room), *_core_cuts(look, around), *map(_insert_cut, look.inserts)]
    top = float(look.piece.mesh.bounds[1, 2])
    span = _span(look.piece.mesh, top)
    levels = [Level(top, span, (f"mouth, {words.length(top)}",)), Level(0.0, span, ("mold's floor, 0",))]
    levels += [*_core_levels(look, sheet, words), *(_insert_level(each, words) for each in look.inserts)]
    widths, heights = _dimensions(look, room)
    title = "Cast hollow: the core in its place" if look.hollow else "What is set into the casting"
    return MoldSection(title, cuts, levels, widths, heights)


def _core_cuts(look: MoldLook, around: Sequence[Cut]) -> Iterator[Cut]:
    """The core, and the bar that holds it: on top of it, or on rods right through it."""
    if look.hollow is None:
        return
    core = look.hollow.body.core
    yield from cut_of("core", core)
    points = [point for cut in around for line in cut.lines for point in line]
    left, right, rim = min(x for x, _ in points), max(x for x, _ in points), max(z for _, z in points)
    (low_x, _, low_z), (high_x, _, high_z) = core.bounds.tolist()
    yield Cut("bar", (_box(left, rim, right, rim + BAR),))
    if rim > high_z + TOLERANCE or look.hollow.body.cover:
        middle, reach = (low_x + high_x) / 2, (high_x - low_x) / 4
        foot = low_z if look.hollow.body.cover else high_z
        for x in (middle - reach, middle + reach):
            yield Cut("rod", (_box(x - ROD / 2, foot, x + ROD / 2, rim),))


def _box(x0: float, z0: float, x1: float, z1: float) -> Polyline:
    return [(x0, z0), (x1, z0), (x1, z1), (x0, z1)]


def _core_levels(look: MoldLook, sheet: MoldSheet, words: Wording) -> Iterator[Level]:
    if look.hollow is None or sheet.hollow is None or sheet.hollow.chosen is None:
        return
    core, held = look.hollow.body.core, sheet.hollow.chosen.hold_down
    low = float(core.bounds[0, 2])
    span = (float(core.bounds[0, 0]), float(core.bounds[1, 0]))
    yield Level(low, span, (f"core's floor, {words.length(low)}", "on stubs of cured resin"))
    if held.force_N and held.rises_at_m is not None:
        weight = f"{words.load(held.weight_needed_kg)} on its bar"
        yield Level(
            held.rises_at_m, span, (f"it floats from {words.length(held.rises_at_m)}", weight), accent=True
        )


def _insert_cut(insert: Insert) -> Cut:
    """Its outline seen from the front; dashed where it lies beside the cut."""
    half, (x0, y0, z0), (x1, _, z1) = insert.choice.diameter / 2, insert.entry, insert.end
    axis = int(np.argmax(np.abs(insert.way)))
    if axis == 1:
        turns = np.linspace(0.0, 2 * np.pi, ROUND, endpoint=False)
        line = [(float(x0 + half * np.cos(turn)), float(z0 + half * np.sin(turn))) for turn in turns]
        beside = min(y0, float(insert.end[1])) > 0.0 or max(y0, float(insert.end[1])) < 0.0
        return Cut("insert", (line,), beside=beside)
    wide, high = (0.0, half) if axis == 0 else (half, 0.0)
    box = _box(min(x0, x1) - wide, min(z0, z1) - high, max(x0, x1) + wide, max(z0, z1) + high)
    return Cut("insert", ([(float(x), float(z)) for x, z in box],), beside=bool(abs(y0) > half))


def _insert_level(insert: Insert, words: Wording) -> Level:
    choice = insert.choice
    middle = (insert.entry + insert.end) / 2
    size = f"{words.length(choice.diameter)} x {words.length(insert.depth)}"
    edge = f"edge {words.length(insert.edge)}"
    x = float(middle[0])
    return Level(float(middle[2]), (x, x), (choice.name, size, edge))


def _dimensions(look: MoldLook, room: Mesh) -> tuple[list[list[Span]], list[list[Span]]]:
    """Walls and core across, half-way up the core; floor, core and cover upwards."""
    low, high = (room.bounds[each].tolist() for each in (0, 1))
    whole_wide, whole_high = [(low[0], high[0])], [(low[2], high[2])]
    if look.hollow is None:
        return [whole_wide], [whole_high]
    z0, z1 = look.hollow.body.core.bounds[:, 2].tolist()
    outer = _span(look.piece.mesh, (z0 + z1) / 2)
    inner = _span(look.hollow.body.core, (z0 + z1) / 2)
    across = [(outer[0], inner[0]), inner, (inner[1], outer[1])]
    upward = [(low[2], z0), (z0, z1), *([(z1, high[2])] if high[2] - z1 > TOLERANCE else [])]
    return [across, whole_wide], [upward, whole_high]


def _span(mesh: Mesh, height: float) -> Span:
    """From where to where a body reaches at a height, in the cut through the middle [m]."""
    lines = [[(float(x), float(z)) for x, z in line] for line in plane_section(mesh, "y", 0.0)]
    return reach(lines, height)
