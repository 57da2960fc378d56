"""What is told of each variant side by side, every number with where it stands."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.document.chances import about_one_in
from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.mold_days import HOURS, Kept, kept_of
from pourwright.app.pricing.planned import Planned
from pourwright.app.setup import working_hours
from pourwright.foundation.notation import format_share
from pourwright.jobs.cost_line import Trace
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.jobs.cost_variants import Cell, Column
from pourwright.jobs.plan_chances import Chances
from pourwright.line.capacity.rate import MONTH

WEEK = 7

COLUMNS = (
    Column(key="cost", words="cost of a good piece", unit="", less_is_better=True),
    Column(key="shown", words="price shown", unit="", less_is_better=True),
    Column(key="margin", words="margin", unit="", less_is_better=False),
    Column(key="days", words="days in the mold", unit="day", less_is_better=True),
    Column(key="hours", words="hours of work", unit="h", less_is_better=True),
    Column(key="weight", words="weight of the piece", unit="kg", less_is_better=True),
    Column(key="over_limit", words="castings too hot", unit="", less_is_better=True),
    Column(
        key="per_month", words="pieces a month, one mold and one person", unit="piece", less_is_better=False
    ),
)
NO_MARGIN = "the price list wants no margin: write [sell] margin"
QUICK = "planned with the likeliest numbers only: leave --quick out, or plan it first"
AT_ONCE = "it goes in at once and has no plan: pourwright fill --heat says how hot it gets"


def cells_of(sheet: CostSheet, look: CostLook) -> Iterator[Cell]:
    """Tell one variant, in the order of the columns."""
    planned, weight = look.planned, look.taken.weight
    kept = kept_of(planned)
    full = _cost("totals.full", "one good piece", float(sheet.totals.full), sheet.currency)
    without = f"without {', '.join(sheet.totals.without)}" if sheet.totals.without else ""
    yield Cell(key="cost", money=sheet.totals.full, words=without, made_of=[full])
    yield from _price(sheet)
    yield Cell(key="days", value=kept.days, made_of=list(kept.made_of), gap=kept.gap)
    hours = _cost("made.hours", "worked for one good piece", sheet.made.hours, "h")
    yield Cell(key="hours", value=sheet.made.hours, made_of=[hours])
    yield Cell(key="weight", value=weight.value, made_of=[weight])
    yield _risk(planned)
    yield _pieces(kept, sheet, month_of(look))


def _cost(path: str, words: str, value: float, unit: str) -> Trace:
    return Trace(where="cost", path=path, words=words, value=value, unit=unit)


def _price(sheet: CostSheet) -> Iterator[Cell]:
    """Sold directly; the margin is what rounding leaves of the one wanted."""
    if sheet.price is None:
        yield from (Cell(key=key, gap=NO_MARGIN) for key in ("shown", "margin"))
        return
    way = sheet.price.ways[0]
    shown = _cost("price.ways[0].shown", way.words, float(way.shown), sheet.currency)
    yield Cell(key="shown", money=way.shown, words=way.words, made_of=[shown])
    left = format_share(way.margin, digits=1)
    margin = _cost("price.ways[0].margin", way.words, way.margin, "")
    yield Cell(key="margin", value=way.margin, words=left, made_of=[margin])


def _risk(planned: Planned) -> Cell:
    if planned.plan is None:
        return Cell(key="over_limit", gap=AT_ONCE)
    chances = planned.plan.chances
    if chances is None:
        return Cell(key="over_limit", gap=QUICK)
    path, over = _over(chances)
    words = f"{_one_in(over)} too hot"
    if about_one_in(chances.soft_when_opened) is not None:
        words += f", {_one_in(chances.soft_when_opened)} soft when opened"
    trace = Trace(where="plan", path=path, words="castings over the limit", value=over, unit="")
    return Cell(key="over_limit", value=over, words=words, made_of=[trace])


def _over(chances: Chances) -> tuple[str, float]:
    """Share of castings over the limit in any pour; of the worst pour where no more is told."""
    for at, row in enumerate(chances.compared):
        if row.chosen and row.over_limit is not None:
            return f"chances.compared[{at}].over_limit", row.over_limit
    at, worst = max(enumerate(chances.pours), key=lambda one: one[1].over_limit)
    return f"chances.pours[{at}].over_limit", worst.over_limit


def _one_in(share: float) -> str:
    count = about_one_in(share)
    return "fewer than 1 in 1000" if count is None else f"about 1 in {count}"


def _pieces(kept: Kept, sheet: CostSheet, month: Trace) -> Cell:
    by_mold = kept.pieces(sheet.made.scrap)
    if by_mold is None:
        return Cell(key="per_month", gap=kept.gap)
    by_hours = month.value / sheet.made.hours if sheet.made.hours else by_mold
    scrap = _cost("made.scrap", "castings that fail", sheet.made.scrap, "")
    hours = _cost("made.hours", "worked for one good piece", sheet.made.hours, "h")
    words = "the mold" if by_mold <= by_hours else "the hours"
    return Cell(
        key="per_month",
        value=round(min(by_mold, by_hours), 4),
        words=f"at most: {words} stand{'s' if words == 'the mold' else ''} in the way of more",
        made_of=[*kept.made_of, scrap] if words == "the mold" else [month, hours],
    )


def month_of(look: CostLook) -> Trace:
    """Hours worked in a month: what the overhead is shared by, else one person in the shop's hours."""
    own = look.quotes.listed.overhead
    if own is not None and own.hours is not None:
        return look.written(("overhead", "hours"), "worked in a month", own.hours, "h")
    times, days = working_hours(look.job), working_hours(look.job).weekdays
    opens, closes = (each.hour + each.minute / 60 for each in (times.opens, times.closes))
    value = round((closes - opens) * len(days) / WEEK * MONTH / HOURS, 2)
    words = "one person in the shop's hours, holidays not counted"
    return Trace(
        where="plan", path="job.opens, job.closes, job.working_days", words=words, value=value, unit="h"
    )
