"""A skin of rubber, brushed on coat by coat, in a rigid shell of two halves."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pourwright.foundation.notation import format_area
from pourwright.materials.batches import Batch
from pourwright.mold.result import MoldResult
from pourwright.mold.ways.ask import Ask, stretch_words
from pourwright.mold.ways.defaults import AMOUNTS, LIMITS, WAITS
from pourwright.mold.ways.life import life_of
from pourwright.mold.ways.way import Way
from pourwright.mold.ways.work import Step, pouring, task


def skin_way(ask: Ask, mold: MoldResult) -> Way:
    """Reckon a skin in a shell; the master stands on a board, open face down.

    Parameters
    ----------
    ask : Ask
        The piece and the shop's choices.
    mold : MoldResult
        For its base board and the mass of the master.

    Returns
    -------
    Way
    """
    facts, rubber = ask.facts, mold.choices.rubber
    volume = ask.skin_volume + facts.mouth_girth * AMOUNTS["skin_flange"].value * ask.skin
    shell = ask.shell_volume + 2 * facts.line * AMOUNTS["shell_flange"].value * ask.shell
    mass = volume * rubber.density.value
    count = coats(ask.skin)
    cut = facts.stretch > ask.bears
    line = facts.line / 2 if cut else 0.0
    coat = ask.batches(mass * (1 + AMOUNTS["skin_loss"].value) / count)
    board = next(panel for panel in mold.panels if panel.name == "base")
    return Way(
        way="skin",
        held="screwed",
        volume=volume,
        mass=mass,
        pours=(coat,) * count,
        panel_area=board.length * board.width,
        shell_volume=shell,
        steps=tuple(_steps(ask, coat, count, line)),
        each=(
            task("close and open", "close"),
            task("lay skin and shell", "shell_close"),
            task("scrape the line", "clean_line", line),
        ),
        lines=1 if cut else 0,
        line=line,
        lift=0.0,
        planned=ask.cast != "resin",
        life=life_of(ask.cast, 0.0 if cut else facts.stretch, ask.bears, skin=True),
        no=tuple(_no(ask, coat)),
        against=tuple(_against(ask, cut=cut)),
    )


def coats(thickness: float) -> int:
    """Count the coats of a brushed skin.

    Parameters
    ----------
    thickness : float
        Of the skin [m].

    Returns
    -------
    int

    Examples
    --------
    >>> coats(0.010), coats(0.008)
    (4, 4)
    """
    return max(math.ceil(thickness / AMOUNTS["coat"].value * (1 - 1e-9)), 1)


def _steps(ask: Ask, coat: tuple[Batch, ...], count: int, line: float) -> Iterator[Step]:
    area, rubber = ask.facts.area, ask.choices.rubber
    yield task("board", "panel")
    yield task("screw the master down", "screw")
    for number in range(1, count + 1):
        last = number == count
        wait = rubber.demold_time.value if last else WAITS["coat"].value
        mixed, brushed = pouring("", coat, 0.0), task("", "coat", area)
        yield Step(
            f"coat {number}",
            mixed.work + brushed.work,
            mixed.low + brushed.low,
            mixed.high + brushed.high,
            wait,
        )
        if number == 2:
            yield task("flange, undercuts, keys", "flange", wait=WAITS["coat"].value)
    yield task("parting wall", "wall")
    for name, dries in (("first", "half_shell"), ("second", "shell")):
        yield task(f"ready the {name} half of the shell", "shell_ready")
        yield task(f"lay up the {name} half", "shell", area / 2, WAITS[dries].value)
    if line:
        yield task("cut it open", "cut", line)
    yield task("take the master out", "take_apart")


def _no(ask: Ask, coat: tuple[Batch, ...]) -> Iterator[str]:
    yield from ask.standing()
    yield from ask.too_long(coat)
    if ask.goes_through:
        yield "a hole goes through the piece across the pull: a skin around it does not come off"


def _against(ask: Ask, *, cut: bool) -> Iterator[str]:
    facts = ask.facts
    if facts.flat > LIMITS["flat"].value:
        yield f"{format_area(facts.flat, ask.choices.units)} of flat wall: a skin hangs off its shell there"
    if cut:
        yield f"the skin would have to {stretch_words(facts.stretch, ask.bears)}, so it is cut"
    if ask.cast == "resin":
        yield "the heat of resin in a skin is not reckoned, so no plan can be made"
