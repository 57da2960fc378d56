"""What the sections through a mold show: as the rubber is poured, and as it is cast."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from pourwright.app.molding.look import MoldLook
from pourwright.geometry import Mesh, plane_section, simplified
from pourwright.jobs.plan_part import Polyline
from pourwright.mold.bodies.body import Body, MoldBodies
from pourwright.sheets.mold_section_drawing import Cut, Level, MoldSection, Span, lines_of
from pourwright.sheets.wording import Wording

TOLERANCE = 1e-4
CORE = ("master", "casting")
BAR = 0.04
"""How high a bar is drawn, of the box's height; what it must carry is told with the hold-down."""
_TURNED = {"screwed": "open face down, the master screwed to the base board"}


def poured_section(look: MoldLook, bodies: MoldBodies, words: Wording) -> MoldSection:
    """Show the box while the rubber is poured.

    Parameters
    ----------
    look : MoldLook
        The mold.
    bodies : MoldBodies
        Of it.
    words : Wording
        The maker's units.

    Returns
    -------
    MoldSection
        Turned over where the master is screwed to the base board.
    """
    turned = look.mold.method == "screwed"
    cuts = _cuts(bodies, {"floor for casting"}, turned=turned)
    floor = -_top(bodies.box) if turned else _low(bodies.box)
    inside = _across(bodies.box)
    mark, after = look.mold.rubber.fill_mark, look.mold.rubber.level_after
    levels = [Level(floor, inside, ("inside floor, 0",))]
    if mark is not None:
        said = (f"fill mark {words.length(mark)}", "rubber to here, then", "the master goes in")
        levels.append(Level(floor + mark, inside, said, accent=True))
    end = ("end mark " + words.length(after), "the rubber ends here")
    levels.append(Level(floor + after, inside, end, accent=True))
    how = _TURNED.get(look.mold.method, "open face up, the master hung from bars")
    return _section(f"The rubber is poured: {how}", [*cuts, *([] if turned else [_bar(cuts)])], levels)


def cast_section(look: MoldLook, bodies: MoldBodies, words: Wording) -> MoldSection:
    """Show the mold ready for casting.

    Parameters
    ----------
    look : MoldLook
        The mold.
    bodies : MoldBodies
        Of it.
    words : Wording
        The maker's units.

    Returns
    -------
    MoldSection
    """
    off = {"base"} if look.mold.method == "screwed" else set()
    cuts = [replace(cut, kind="casting") if cut.kind == "master" else cut for cut in _cuts(bodies, off)]
    if look.hollow is not None:
        around = [cut for cut in cuts if cut.kind != "casting"]
        body = look.hollow.body
        cuts = [*around, *cut_of("casting", body.room), *cut_of("core", body.core)]
    low, top = _low(bodies.master.mesh), _top(bodies.master.mesh)
    as_it_stands = look.piece.frame.flipped
    mouth = (f"mouth, {words.length(top - low)}", *(["the foot as it stands"] if as_it_stands else []))
    floor = ("mold's floor, 0", *(["the top as it stands"] if as_it_stands else []))
    levels = [Level(top, _at(cuts, top), mouth, accent=True), Level(low, _at(cuts, low), floor)]
    if _top(bodies.box) > top + 1e-6:
        rim = f"rim, {words.length(_top(bodies.box) - low)}"
        levels.append(Level(_top(bodies.box), _across(bodies.box), (rim,)))
    return _section("It is cast: open face up", cuts, levels)


def _section(title: str, cuts: Sequence[Cut], levels: Sequence[Level]) -> MoldSection:
    rubber, core, panel = (_extents(cuts, kind) for kind in ({"rubber"}, CORE, {"panel"}))
    widths = [_chain(rubber[0], core[0]), [rubber[0]], [panel[0]]]
    heights = [_chain(rubber[1], core[1]), [panel[1]]]
    return MoldSection(title, cuts, levels, widths, heights)


def _at(cuts: Sequence[Cut], height: float) -> Span:
    """From where to where the piece reaches at its mouth or its floor [m]."""
    points = [p for cut in cuts if cut.kind in CORE for line in cut.lines for p in line]
    xs = [x for x, z in points if abs(z - height) < 10 * TOLERANCE] or [0.0]
    return min(xs), max(xs)


def _chain(outer: Span, inner: Span) -> list[Span]:
    """From one edge to the next; what has no length is left out."""
    edges = (outer[0], inner[0], inner[1], outer[1])
    return [(low, high) for low, high in pairwise(edges) if high - low > 1e-6]


def _bar(cuts: Sequence[Cut]) -> Cut:
    """A bar across the rim that the master hangs from."""
    (left, right), (low, rim) = _extents(cuts, {"panel"})
    top = rim + BAR * (rim - low)
    return Cut("bar", ([(left, rim), (right, rim), (right, top), (left, top)],))


def _extents(cuts: Sequence[Cut], kinds: Collection[str]) -> tuple[Span, Span]:
    points = [p for cut in cuts if cut.kind in kinds and not cut.beside for line in cut.lines for p in line]
    xs, zs = zip(*points, strict=True)
    return (min(xs), max(xs)), (min(zs), max(zs))


def _cuts(bodies: MoldBodies, off: set[str], *, turned: bool = False) -> list[Cut]:
    order = (bodies.rubber, bodies.master, *bodies.blocks, *bodies.panels)
    return [cut for body in order if body.name not in off for cut in _cut(body, turned=turned)]


def cut_of(kind: str, mesh: Mesh) -> Iterator[Cut]:
    """Cut a body through the middle; nothing where the cut misses it."""
    lines = [simplified(line, TOLERANCE) for line in plane_section(mesh, "y", 0.0)]
    if lines:
        yield Cut(kind, lines_of(lines))


def _cut(body: Body, *, turned: bool) -> Iterator[Cut]:
    lines = [simplified(line, TOLERANCE) for line in plane_section(body.mesh, "y", 0.0)]
    if lines:
        yield Cut(body.kind, lines_of(lines, turned=turned))
    elif body.kind == "block":
        (x0, _, z0), (x1, _, z1) = body.mesh.bounds.tolist()
        square: Polyline = [(x0, z0), (x1, z0), (x1, z1), (x0, z1)]
        yield Cut(body.kind, lines_of([square], turned=turned), beside=True)


def _across(mesh: Mesh) -> Span:
    low, high = mesh.bounds[:, 0]
    return float(low), float(high)


def _low(mesh: Mesh) -> float:
    return float(mesh.bounds[0, 2])


def _top(mesh: Mesh) -> float:
    return float(mesh.bounds[1, 2])
