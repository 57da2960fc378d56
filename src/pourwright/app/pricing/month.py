"""The month that a cost is weighed over: its money by kind, and how far each thing may be off."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.app.learnt.paces import STEPS
from pourwright.app.learnt.used import used_by
from pourwright.app.learnt.words import counted
from pourwright.app.pricing.cells import month_of
from pourwright.app.pricing.hours import HOURS
from pourwright.app.pricing.look import Entry
from pourwright.app.pricing.mold_days import kept_of
from pourwright.app.pricing.moving import CAST
from pourwright.app.pricing.overhead import monthly
from pourwright.app.pricing.steps import HOUR
from pourwright.app.pricing.sums import Sums
from pourwright.app.pricing.terms import NOTHING, Deal
from pourwright.calibration.learning.record import Learned
from pourwright.costing.defaults import COSTING
from pourwright.costing.lines import practised
from pourwright.costing.margins import price_for
from pourwright.costing.risk.defaults import RISK
from pourwright.costing.risk.month import Leak, Month, Parts
from pourwright.costing.risk.three_points import ThreePoints, from_tenths
from pourwright.foundation.errors import UserError
from pourwright.jobs.prices_risk import Risk

HIGHEST = 0.95
"""No more than so many castings are taken to fail."""
SPREADS = {
    "demand": "level", "hours": "hours", "resin": "cast", "rubber": "rubber", "bought": "bought",
    "used": "used", "paid": "paid",
}  # fmt: skip
"""Keys of [risk], by what they are called in a month."""
PRACTICE = "common practice, no source"
LEARNT_STEPS = ("pour", "lay", "check")


@dataclass(frozen=True)
class Spread:
    """How far one thing may be off, and who says so."""

    points: ThreePoints
    where: str


def month_of_sums(sums: Sums, deal: Deal, spreads: dict[str, Spread]) -> Month:
    """Put a month together from the lines of a cost."""
    look, run = sums.look, sums.running.run
    own, a_month = look.quotes.listed.risk, monthly(look)

    def each(entry: Entry) -> bool:
        return not (a_month and entry.kind == "overhead")

    again = sums.again(each)
    net = deal.round(price_for(deal.cost, deal.margin, deal.terms))
    entries = [entry for entry in sums.entries if each(entry)]
    sold = look.quotes.listed.run.per_month
    return Month(
        orders=sold or 0.0,
        fetch=float(deal.round(deal.terms.got(net))),
        kept=float(deal.terms.fixed),
        casting=_parts(sums, [entry for entry in entries if entry.stage != "piece"]),
        piece=_parts(sums, [entry for entry in entries if entry.stage == "piece"]),
        lost_finished=run.found_finished,
        monthly=float(a_month),
        rounding=float(again.full - again.exact),
        scrap=spreads["scrap"].points,
        leak=_leak(sums, own),
        most=castings_a_month(sums),
        one_by_one=own.one_by_one,
        **{name: spreads[key].points for key, name in SPREADS.items()},
    )


def castings_a_month(sums: Sums) -> float:
    """Begun at most: by the price list, else by one mold and one person."""
    own = sums.look.quotes.listed.risk.most
    if own is not None:
        return own
    scrap = float(sums.running.run.scrap)
    by_hours = month_of(sums.look).value / float(sums.hours) / (1.0 - scrap) if sums.hours else float("inf")
    pieces = kept_of(sums.look.planned).pieces(scrap)
    return by_hours if pieces is None else min(pieces / (1.0 - scrap), by_hours)


def _parts(sums: Sums, entries: Iterable[Entry]) -> Parts:
    """Money of one casting begun or one good piece, by what it is for."""
    run, found = sums.running.run, dict.fromkeys(("work", "cast", "glass", "rubber", "other"), NOTHING)
    for entry in entries:
        money = entry.line.money or NOTHING
        money = money / run.casts if entry.stage == "mold" else money
        money = money * practised(entry.stage, run) if entry.line.practised else money
        found[_kind(entry)] += money
    return Parts(**{name: float(money) for name, money in found.items()})


def _kind(entry: Entry) -> str:
    if entry.kind != "thing":
        return "work"
    if entry.key in CAST:
        return "cast"
    if entry.key.startswith(("glass-", "bottles-")):
        return "glass"
    return "rubber" if entry.key == "rubber" else "other"


def _leak(sums: Sums, own: Risk) -> Leak:
    hour = sums.look.quotes.of("hour", "h")
    chance = RISK["leaks"].value if own.leaks is None else own.leaks
    resin = RISK["leak_resin"].value if own.leak_resin is None else own.leak_resin
    work = (RISK["leak_work"].value if own.leak_work is None else own.leak_work.si) / HOUR
    return Leak(chance, resin, 0.0 if hour is None else work * float(hour.money))


def spreads_of(sums: Sums) -> dict[str, Spread]:
    """Say of everything how far it may be off: the price list, else the book, else common practice."""
    found = {key: _spread(sums, key) for key in SPREADS}
    return {"scrap": _scrap(sums), **found}


def _spread(sums: Sums, key: str) -> Spread:
    own = sums.look.quotes.listed.risk
    written: list[float] | None = getattr(own, key)
    if written is not None:
        less, more = written
        place = sums.look.written(("risk", key), "", more, "").path
        return Spread(ThreePoints(1.0 - less, 1.0, 1.0 + more, own.law), place)
    usual = RISK[key]
    if key == "hours" and (learnt := _learnt(sums, "hours", STEPS)):
        return _with_paces(sums, learnt)
    return Spread(
        ThreePoints(usual.low or 1.0, 1.0, usual.high or 1.0, own.law), f"{PRACTICE}: {usual.conditions}"
    )


def _learnt(sums: Sums, quantity: str, subjects: Iterable[str]) -> list[Learned]:
    wanted = set(subjects)
    return [
        one
        for one in used_by(sums.look.job)
        if one.quantity == quantity and one.subject in wanted and not one.kept_family
    ]


def _with_paces(sums: Sums, learnt: list[Learned]) -> Spread:
    """Hours at the mold as the book knows them, all others as is usual."""
    law, usual = sums.look.quotes.listed.risk.law, RISK["hours"]
    hours = {
        entry.key.removeprefix(HOURS): float(entry.amount or 0)
        for entry in sums.entries
        if entry.kind == "work"
    }
    known = sum(hours.get(name, 0.0) for name in LEARNT_STEPS) / max(sum(hours.values()), 1e-9)
    bands = [from_tenths(one.low / one.value, 1.0, one.high / one.value) for one in learnt]
    low = known * min(band.low for band in bands) + (1 - known) * (usual.low or 1.0)
    high = known * max(band.high for band in bands) + (1 - known) * (usual.high or 1.0)
    where = f"the shop's book at the mold, {counted(learnt[0])}; the rest {PRACTICE}"
    return Spread(ThreePoints(max(low, 0.0), 1.0, high, law), where)


def _scrap(sums: Sums) -> Spread:
    own, likely = sums.look.quotes.listed.risk, float(sums.running.run.scrap)
    if own.scrap is not None:
        low, high = own.scrap
        place = sums.look.written(("risk", "scrap"), "", high, "").path
        if not low <= likely <= high:
            raise UserError(
                f"the likely share, {100 * likely:g} % ({sums.running.scrap_from}), is not between "
                f"{100 * low:g} % and {100 * high:g} %",
                where=sums.look.quotes.listed.where(("risk", "scrap")),
                todo="mend [risk] scrap, or [scrap] rate",
            )
        return Spread(ThreePoints(low, likely, high, own.law), place)
    learnt = _learnt(sums, "scrap_rate", ["pieces"])
    if learnt and sums.look.quotes.listed.scrap.rate is None:
        band = from_tenths(min(learnt[0].low, likely), likely, max(learnt[0].high, likely))
        points = ThreePoints(max(band.low, 0.0), likely, max(min(band.high, HIGHEST), likely), own.law)
        return Spread(points, f"the shop's book, {counted(learnt[0])}")
    usual = COSTING["scrap"]
    low, high = ((end or 0.0) / usual.value * likely for end in (usual.low, usual.high))
    return Spread(
        ThreePoints(low, likely, max(min(high, HIGHEST), likely), own.law), f"{PRACTICE}, around your share"
    )
