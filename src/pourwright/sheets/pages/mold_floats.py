"""The page of what floats in the liquid rubber, and what holds it."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.mold_floats import FloatBars, FloatBlock, Floats
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, plural, table
from pourwright.sheets.wording import Wording

NEWTONS = 9.80665
ALIKE = 1e-4
BENDS = (
    "Bars are reckoned as held at their ends and pressed where the open face lies against them. Weights "
    "right over the master bend them less. They may bend {limit}: the open face moves by as much against the "
    "rubber's level."
)
SCREWS = (
    "What draws a screw out is taken from the Wood Handbook, in board from its relation for particleboard, a "
    "guide for MDF; of that {share} is used. Drill before you drive them, or the board splits."
)
BLOCKS = (
    "Rubber is taken to creep in below and behind a space block. One that stands off an upright panel is "
    "levered off it, and only the far row of its screws is counted on to hold that; the last column adds "
    "pull and push as shares of what its screws may bear."
)
HEADS = (
    "block",
    "weighs",
    "lifted by",
    "worst at",
    "off panel",
    "pulls its screws",
    "pushes across",
    "its screws, used",
)


def floats_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : MoldSheet
        With what floats, or without.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.floats
    if part is None:
        return
    yield {
        "title": "What floats",
        "lead": " ".join(part.words),
        "facts": list(_facts(part, words)),
        "blocks": list(_blocks(part, words)),
    }


def _facts(part: Floats, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("rubber lifts with", _load(part.lift_N, words), f"master {words.load(part.master_kg)}")
    worst = words.length(part.worst_level_m)
    standing = part.worst_standing_m
    alike = standing is None or abs(standing - part.worst_level_m) < ALIKE
    told = "" if alike or standing is None else f"; {words.length(standing)} as the piece stands"
    yield fact("worst when the rubber is", worst, f"up the box{told}")
    if part.bars is not None:
        each = f"{words.load(part.bars.weight_each_kg)} on each bar"
        needed = part.weight_needed_kg
        yield fact("weight", words.load(needed) if needed else "none", each if needed else "it sinks")
    if part.screws is not None:
        yield fact("screws", str(part.screws.count), part.screws.size)


def _blocks(part: Floats, words: Wording) -> Iterator[Page]:
    yield {
        "drawing": "drawings/floats.svg",
        "alt": "Lift, weight and what is left, by the level of the rubber",
    }
    if part.bars is not None:
        yield {"sub": "Bars"}
        yield {"text": _bars(part.bars, words)}
        yield {"table": _bent(part.bars, words), "size": 9}
        yield {"small": BENDS.format(limit=words.length(part.bars.limit_m))}
    if part.screws is not None:
        yield {"sub": "Screws into the master"}
        yield {"text": _screws(part, words)}
        yield {"small": SCREWS.format(share="2 parts in 11")}
    if part.blocks:
        yield {"sub": "Space blocks"}
        rows = [_block(block, words) for block in part.blocks]
        yield {"table": table(HEADS, rows, "lrrrrrrr"), "size": 8.5}
        yield {"small": BLOCKS}


def _bars(bars: FloatBars, words: Wording) -> str:
    said = (
        f"{plural(bars.count, 'bar')} of {words.size(bars.section_m)} (across and up), {bars.board}, "
        f"{bars.across} over a span of {words.length(bars.span_m)}; the open face touches each over "
        f"{words.length(bars.touches_m)}."
    )
    if bars.holds:
        return said
    if bars.instead_section_m is None:
        return f"{said} They are too weak, and no lath or board as sold would do: take steel."
    return f"{said} They are too weak: {bars.instead_count} of {words.size(bars.instead_section_m)} would do."


def _bent(bars: FloatBars, words: Wording) -> Page:
    allowed = words.pressure(bars.stress_allowed_Pa)
    heads = ("when", "load on all", "bend", f"stress, {allowed} allowed", "")
    rows = [
        [
            when,
            _load(bend.force_N, words),
            words.bend(bend.bends_m),
            words.pressure(bend.stress_Pa),
            "holds" if bend.holds else "too weak",
        ]
        for when, bend in (
            ("before the rubber, down", bars.hanging),
            ("drowned, up, with safety", bars.drowned),
        )
    ]
    return table(heads, rows, "lrrrl")


def _screws(part: Floats, words: Wording) -> str:
    screws = part.screws
    if screws is None:
        return ""
    through = "down through the bars" if part.bars else "up through the base board"
    said = (
        f"{screws.count} wood screws of {screws.size} {through}, {words.length(screws.depth_m)} deep in the "
        f"edge of the master's boards ({screws.into}); each may bear {_load(screws.bears_N, words)}. "
    )
    if screws.count_face != screws.count:
        said += f"Into the face of its boards {screws.count_face} are enough. "
    carried = "its weight before the rubber" if part.bars else "the lift with rubber under it"
    return (
        f"{said}They carry {carried} {part.safety_factor:g} times. Spread them over the face, some "
        f"{words.length(screws.apart_m)} apart."
    )


def _block(block: FloatBlock, words: Wording) -> list[str]:
    return [
        f"{block.letter}, {block.wall}",
        words.load(block.mass_kg),
        _load(block.net_N, words) if block.net_N > 0 else "sinks",
        words.length(block.worst_level_m),
        words.length(block.off_panel_m),
        _load(block.pull_N, words),
        _load(block.push_N, words),
        f"{block.screws}, {words.share(block.screws_used)}",
    ]


def _load(newtons: float, words: Wording) -> str:
    """A force [N] as the mass that weighs as much."""
    return words.load(newtons / NEWTONS)
