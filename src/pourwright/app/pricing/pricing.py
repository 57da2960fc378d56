"""Say what a piece of a job costs and what it is sold for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright import __version__
from pourwright.app.document import job_info
from pourwright.app.document.credits import listed
from pourwright.app.document.moments import iso
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.pricing.folder import COST_FOLDER, cost_files, costs_json
from pourwright.app.pricing.hours import HOURS
from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.moving import moves_of
from pourwright.app.pricing.of_fill import taken_of_fill
from pourwright.app.pricing.of_plan import taken_of_plan
from pourwright.app.pricing.overhead import overhead_price
from pourwright.app.pricing.planned import Planned, planned_for
from pourwright.app.pricing.quotes import Quotes, quotes_for
from pourwright.app.pricing.risk import risk_of
from pourwright.app.pricing.selling import prices_part
from pourwright.app.pricing.sums import Sums, line_parts, sums_of
from pourwright.app.pricing.taken import USUAL, Taken
from pourwright.app.which import as_loaded, chosen_variants
from pourwright.costing.defaults import COSTING
from pourwright.costing.lines import practised
from pourwright.costing.starts import starts_for
from pourwright.foundation.notation import format_share, rounded_money
from pourwright.foundation.progress import SILENT, Progress
from pourwright.foundation.sources import Sourced
from pourwright.jobs.cost_line import PriceUsed
from pourwright.jobs.cost_sheet import CostSheet, CostTotals, ListUsed, Made
from pourwright.jobs.job import Job
from pourwright.jobs.plan import SourceUsed

RULE = (
    "Every line is rounded once to the smallest coin, half a coin up, and a total is the sum of the rounded "
    "lines: what is printed adds up."
)
ROW = "no price: write [[price]] of = "
LOOKING = 0.25
"""Share of all hours from which on the look-out for leaks is worth a word."""
KINDS = {"work": "an hour", "overhead": "overhead"}


@dataclass(frozen=True)
class CostReport:
    """What a piece costs.

    Parameters
    ----------
    sheets : tuple of CostSheet
        All that is told, one for each variant.
    files : tuple of Path
        What was written.
    """

    sheets: tuple[CostSheet, ...]
    files: tuple[Path, ...] = ()

    @property
    def sheet(self) -> CostSheet:
        """Of the first variant."""
        return self.sheets[0]

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        told = costs_json(self.sheets)
        return told | {"files": [str(path) for path in self.files]} if self.files else told


def cost_job(
    path: Path | Job,
    *,
    variant: str | None = None,
    prices: Path | None = None,
    out: Path | None = None,
    quick: bool = False,
    risk: bool = False,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> CostReport:
    """Say what a good piece costs, and what it is sold for.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    variant : str, optional
        The variant to look at; else the first, or all of them where a folder is named.
    prices : Path, optional
        The price list; else prices.toml beside the job or in a folder above it.
    out : Path, optional
        Folder to write; replaced in one step.
    quick : bool
        Where a plan has to be made for it: with the likeliest numbers only.
    risk : bool
        Whether a month is weighed too: profit with its band, and what matters most.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    CostReport
        Without a folder nothing is written.

    Raises
    ------
    UserError
        For a job, a plan, a price list or a folder that will not do, with its line.
    """
    if out is not None:
        COST_FOLDER.refuse_foreign(out)
    jobs = chosen_variants(as_loaded(path), variant)
    moment = now or datetime.now(UTC)
    looks = [_look(job, prices, moment, progress, quick=quick) for job in (jobs[:1] if out is None else jobs)]
    report = CostReport(tuple(cost_sheet(look, moment, risk=risk) for look in looks))
    if out is None:
        return report
    progress.step("writing the sheets", 0, 1)
    return replace(report, files=tuple(sorted(COST_FOLDER.write(out, cost_files(looks, report.sheets)))))


def _look(job: Job, prices: Path | None, moment: datetime, progress: Progress, *, quick: bool) -> CostLook:
    quotes = quotes_for(job, prices, moment.date())
    progress.step("the plan", 0, 1)
    planned = planned_for(job, moment, progress, quick=quick)
    return CostLook(job, planned, quotes, taken_of(planned, job))


def taken_of(planned: Planned, job: Job) -> Taken:
    """Read what the plan says, or fill and mold where no pours are planned."""
    materials = shop_materials(job)
    if planned.plan is not None:
        return taken_of_plan(planned.plan, planned, job, materials)
    assert planned.mineral is not None
    return taken_of_fill(planned.mineral, planned, job, materials)


def cost_sheet(look: CostLook, now: datetime, *, risk: bool = False) -> CostSheet:
    """Tell a cost.

    Parameters
    ----------
    look : CostLook
        Plan and prices.
    now : datetime
        Aware; the only time stamp in the document.
    risk : bool
        Whether a month is weighed too.

    Returns
    -------
    CostSheet
    """
    sums = sums_of(look)
    own = look.quotes.listed
    digest = {own.path.name: own.digest} if own.digest else {}
    return CostSheet(
        version=__version__,
        computed_for=iso(now),
        inputs=dict(look.planned.inputs) | digest,
        job=job_info(look.job).model_copy(update={"currency": look.quotes.currency}),
        currency=look.quotes.currency,
        plan=look.planned.used,
        prices=list_used(look.quotes),
        made=_made(sums),
        lines=list(line_parts(sums)),
        totals=CostTotals(
            casting=sums.cost.casting,
            full=sums.cost.full,
            mold=rounded_money(sums.mold, look.quotes.currency),
            without=sums.missing,
        ),
        price=prices_part(sums),
        moves=moves_of(sums),
        risk=risk_of(sums) if risk else None,
        rule=RULE,
        notes=list(_notes(sums)),
        warnings=list(dict.fromkeys(_warnings(sums))),
        sources=_sources(sums),
    )


def list_used(quotes: Quotes) -> ListUsed:
    """Tell which price list it is."""
    own = quotes.listed
    return ListUsed(
        file=str(own.path) if own.digest else "",
        date=None if own.date is None else own.date.isoformat(),
        old_after_days=quotes.old_after,
        old_why="your own limit" if own.old_after is not None else COSTING["old_after"].conditions,
        invented=own.invented or (quotes.job.invented and not own.digest),
    )


def _made(sums: Sums) -> Made:
    how, run = sums.running, sums.running.run
    pieces = sums.look.quotes.listed.run.pieces
    return Made(
        casts=float(run.casts),
        life=float(how.life),
        life_from=how.life_from,
        scrap=float(run.scrap),
        scrap_from=how.scrap_from,
        starts=float(round(run.starts, 6)),
        pieces=pieces,
        starts_mean=None if pieces is None else float(round(pieces * run.starts, 6)),
        starts_p95=None if pieces is None else starts_for(pieces, float(1 - run.scrap)),
        molds=how.molds,
        castings=None if how.molds is None else float(how.molds * run.casts),
        found_finished=run.found_finished,
        learning=float(run.learning),
        begins=run.begins,
        practice_casting=float(practised("casting", run)),
        practice_piece=float(practised("piece", run)),
        hours=float(round(sums.hours, 4)),
    )


def _notes(sums: Sums) -> Iterator[str]:
    made, run, overhead = sums.running, sums.running.run, overhead_price(sums.look)
    yield f"A mold gives {float(made.life):g} castings ({made.life_from})."
    yield f"Scrap: {made.scrap_from}."
    if overhead is not None and overhead.note:
        yield f"Overhead: {overhead.note}, {overhead.text}."
    if _is_watched(sums):
        yield (
            "Looking for leaks is much of the time, since the plan's calendar has it: if you work beside it, "
            'give it its own price ([[price]] of = "hour", step = "look") or your own time ([work] look).'
        )
    if run.learning != 1:
        yield (
            f"Practice: twice as many pieces made, and one takes {format_share(float(run.learning))} of the "
            "hours (Wright's law, read for each piece by itself); the plan has the hours of the first one."
        )


def _is_watched(sums: Sums) -> bool:
    """Whether looking after the pours is much of the hours, at the price of any other hour."""
    hour = sums.look.quotes.of("hour", "h")
    looking = [entry for entry in sums.entries if entry.key == f"{HOURS}look" and entry.price == hour]
    return any(float(entry.amount or 0) > LOOKING * float(sums.hours) for entry in looking)


def _warnings(sums: Sums) -> Iterator[str]:
    rows = {gap: names for gap, names in sums.gaps.items() if gap.startswith(ROW)}
    if rows:
        missing = "; ".join(name for names in rows.values() for name in names)
        wanted = ", ".join(gap.removeprefix(ROW) for gap in rows)
        yield f"No price, so not in the cost: {missing}. Write a [[price]] for each, of = {wanted}."
    for gap, names in sums.gaps.items():
        if gap not in rows:
            yield f"Not in the cost: {'; '.join(names)}: {gap}."
    limit = sums.look.quotes.old_after
    for used, named in _priced(sums).items():
        place, money, when, age, old = used
        if old:
            yield f"Old price: {named}, {money}, of {when}, {age} days, over {limit} ({place}): ask again."
        elif age is not None and age < 0:
            yield f"The price of {named}, {money}, is of {when}, which lies ahead ({place})."
        elif when is None:
            yield f"The price of {named}, {money}, has no date ({place})."
    yield from _too_many(sums)


def _too_many(sums: Sums) -> Iterator[str]:
    """More sold in a month than anybody can make in the hours that the overhead is shared by."""
    listed = sums.look.quotes.listed
    worked = None if listed.overhead is None else listed.overhead.hours
    if worked is None or listed.run.per_month is None:
        return
    needed = listed.run.per_month * float(sums.hours)
    if needed > worked:
        made = f"{listed.run.per_month:g} pieces a month are {needed:.0f} h of work"
        yield f"{made}, and [overhead] says {worked:g} h a month: one of the two is off."


def _priced(sums: Sums) -> dict[tuple[str, str, str | None, int | None, bool], str]:
    """Every price that was used, with what it is of."""
    found: dict[tuple[str, str, str | None, int | None, bool], list[str]] = {}
    for entry in sums.entries:
        used: PriceUsed | None = entry.price
        if used is not None and entry.amount is not None:
            name = KINDS.get(entry.kind, entry.words)
            mark = (f"{used.file}:{used.line}", used.text, used.date, used.age_days, used.old)
            found.setdefault(mark, []).append(name)
    return {mark: ", ".join(dict.fromkeys(names)) for mark, names in found.items()}


def _sources(sums: Sums) -> list[SourceUsed]:
    models = {"wright-1936": "hours that fall with practice"} if sums.running.run.learning != 1 else {}
    return listed(_practice(sums), models)


def _practice(sums: Sums) -> Iterator[tuple[str, Sourced]]:
    yield "age of a price", COSTING["old_after"]
    used = {trace.path for entry in sums.entries for trace in entry.made_of if trace.where == "practice"}
    yield from (
        (name.removeprefix("shop ").replace("_", " "), USUAL[name]) for name in sorted(used & set(USUAL))
    )
    if sums.running.scrap_from.startswith("common practice"):
        yield "scrap", COSTING["scrap"]
