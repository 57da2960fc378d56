"""Two pours that part: the master lies in clay up to the parting, then in the first half."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pourwright.foundation.notation import format_share
from pourwright.materials.batches import Batch
from pourwright.mold.result import MoldResult
from pourwright.mold.ways.ask import Ask, panel_area, panel_count
from pourwright.mold.ways.defaults import AMOUNTS, LIMITS, WAITS
from pourwright.mold.ways.life import life_of
from pourwright.mold.ways.way import Way
from pourwright.mold.ways.work import Step, pouring, task

Pours = tuple[tuple[Batch, ...], ...]


def two_part_way(ask: Ask, mold: MoldResult) -> Way:
    """Reckon two pours with a parting bed.

    Parameters
    ----------
    ask : Ask
        The piece and the shop's choices.
    mold : MoldResult
        One block of the same size, open on both sides: its panels are those of a screwed master.

    Returns
    -------
    Way

    Notes
    -----
    The box lies on its side. Half of it is clay, up to the parting; the first pour fills the other half.
    Then all is turned over, the clay comes out and the second pour takes its place: the bed has the volume
    of the second half.
    """
    rubber = mold.choices.rubber
    halves = _halves(ask, mold)
    extra = 1 + mold.choices.rubber_pour_allowance
    pours = tuple(ask.batches(half * rubber.density.value * extra) for half in halves)
    line = ask.facts.line
    return Way(
        way="two-part",
        held="bed",
        volume=sum(halves),
        mass=sum(halves) * rubber.density.value,
        pours=pours,
        panel_area=panel_area(mold),
        clay_volume=halves[1],
        steps=tuple(_steps(ask, mold, pours)),
        each=(task("close and open", "close"), task("scrape the line", "clean_line", line)),
        lines=2,
        line=line,
        lift=0.0,
        turned=mold.empty_mass + mold.hold_down.master_mass - halves[1] * rubber.density.value,
        life=life_of(ask.cast, 0.0, ask.bears, skin=False),
        no=tuple(_no(ask, pours)),
        against=("a parting line runs all round; the halves may step against each other",),
    )


def _halves(ask: Ask, mold: MoldResult) -> tuple[float, float]:
    """Rubber of the two pours [m3], the box parted in its middle."""
    x, y, z = mold.inside
    low, high = (x * y * z / 2 - half for half in ask.facts.halves)
    return low, high


def _steps(ask: Ask, mold: MoldResult, pours: Pours) -> Iterator[Step]:
    rubber, line = mold.choices.rubber, ask.facts.line
    first, second = pours
    yield task("box", "panel", panel_count(mold))
    yield task("seams", "seam", 2 * sum(seam.length for seam in mold.seams))
    yield task("clay bed", "bed", line)
    yield task("keys", "key", math.ceil(line / AMOUNTS["key_spacing"].value))
    yield pouring("first half", first, rubber.demold_time.value)
    yield task("clay out, clean, release", "second_half", wait=WAITS["release"].value)
    yield pouring("second half", second, rubber.demold_time.value)
    yield task("take the master out", "take_apart")


def _no(ask: Ask, pours: Pours) -> Iterator[str]:
    yield from ask.too_long(max(pours, key=len))
    locked = ask.facts.locked
    if locked > LIMITS["locked"].value:
        yield (
            f"two parts lock on {format_share(locked)} of the surface at best, opened across the mouth "
            f"along {ask.facts.opens}"
        )
