"""One block of rubber, pulled off or cut open, with or without space blocks."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import format_share
from pourwright.materials.batches import time_to_pour
from pourwright.mold.result import MoldResult
from pourwright.mold.ways.ask import Ask, late_words, panel_area, panel_count, stretch_words
from pourwright.mold.ways.defaults import LIMITS
from pourwright.mold.ways.life import life_of
from pourwright.mold.ways.way import Way
from pourwright.mold.ways.work import Step, pouring, task

LINES = (0, 1, 3)
"""Parting lines of no, one and two cuts, as `Way.lines` counts them."""


def block_way(ask: Ask, mold: MoldResult, sawing: Step | None = None) -> Way:
    """Reckon one poured block.

    Parameters
    ----------
    ask : Ask
        The piece and the shop's choices.
    mold : MoldResult
        Designed for this way.
    sawing : Step, optional
        Work on its space blocks.

    Returns
    -------
    Way
    """
    rubber, cuts = mold.choices.rubber, cuts_of(ask)
    line = ask.facts.line / 2 * cuts
    screwed = mold.method == "screwed"
    stretched = 0.0 if cuts else ask.facts.stretch
    return Way(
        way="block",
        held=mold.method,
        space_blocks=bool(mold.blocks),
        volume=mold.rubber.volume,
        mass=mold.rubber.mass,
        pours=(mold.rubber.batches,),
        panel_area=panel_area(mold),
        block_volume=sum(block.volume for block in mold.blocks),
        blocks=len(mold.blocks),
        steps=tuple(_steps(mold, sawing, line, rubber.demold_time.value)),
        each=(task("close and open", "close"), task("scrape the line", "clean_line", line)),
        lines=LINES[cuts],
        line=line,
        lift=mold.hold_down.net_force,
        turned=mold.empty_mass + mold.hold_down.master_mass if screwed else 0.0,
        life=life_of(ask.cast, stretched, ask.bears, skin=False),
        no=tuple(_no(ask, mold)),
        against=tuple(_against(ask, cut=cuts > 0)),
    )


def cuts_of(ask: Ask) -> int:
    """How often a block has to be cut open to let the piece out."""
    if ask.cuts is not None:
        return min(ask.cuts, 2)
    held = ask.facts.blocked >= LIMITS["free"].value and ask.facts.stretch > LIMITS["uncut"].value
    return int(held)


def _steps(mold: MoldResult, sawing: Step | None, line: float, cures: float) -> Iterator[Step]:
    yield task("box", "panel", panel_count(mold))
    yield task("seams", "seam", sum(seam.length for seam in mold.seams))
    if sawing is not None:
        yield sawing
    screwed = mold.method == "screwed"
    yield task("screw the master down" if screwed else "hang the master", "screw" if screwed else "hang")
    yield pouring("pour the rubber", mold.rubber.batches, cures)
    if screwed:
        yield task("turn it over", "turn")
    if line:
        yield task("cut it open", "cut", line)
    yield task("take the master out", "take_apart")


def _no(ask: Ask, mold: MoldResult) -> Iterator[str]:
    if mold.method == "screwed":
        yield from ask.standing()
        yield from ask.too_long(mold.rubber.batches)
    if ask.goes_through:
        yield "a hole goes through the piece across the pull: one cut does not open the ring of rubber in it"
    needed, works = time_to_pour(mold.rubber.batches), mold.choices.works_for
    if mold.method == "hung" and needed > works:
        yield late_words(needed, works, len(mold.rubber.batches))


def _against(ask: Ask, *, cut: bool) -> Iterator[str]:
    if cut:
        over = format_share(ask.facts.blocked)
        needs = stretch_words(ask.facts.stretch, ask.bears)
        yield f"rubber lies over {over} of the surface; uncut it would have to {needs}"
