"""All variants of a job through the whole corridor, side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright import __version__
from pourwright.app.document import job_info
from pourwright.app.document.moments import iso
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.pricing.cells import COLUMNS, cells_of
from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.planned import Planned, planned_for
from pourwright.app.pricing.pricing import cost_sheet, list_used, taken_of
from pourwright.app.pricing.quotes import Quotes, quotes_for
from pourwright.app.which import as_loaded, chosen_variants
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.cost_variants import Cell, CostVariants, VariantCost
from pourwright.jobs.job import Job

ALONE = "This job has no variants: write [[variant]] with the lines that differ, and each is a row."
SAME_PRICES = "All at the same prices; the whole cost of one: pourwright cost JOB --variant NAME --trace."


@dataclass(frozen=True)
class VariantsReport:
    """All variants side by side.

    Parameters
    ----------
    sheet : CostVariants
        All that is told.
    """

    sheet: CostVariants

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        return self.sheet.model_dump(mode="json", by_alias=True)


@dataclass(frozen=True)
class _Named:
    """Tells progress with the name of the variant."""

    name: str
    progress: Progress

    def step(self, stage: str, done: float, total: float) -> None:
        self.progress.step(f"{self.name}: {stage}", done, total)


def cost_variants(
    path: Path | Job,
    *,
    prices: Path | None = None,
    quick: bool = False,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> VariantsReport:
    """Say of all variants what a good piece costs, is sold for, takes and weighs.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    prices : Path, optional
        The price list; else prices.toml beside the job or in a folder above it.
    quick : bool
        Where plans have to be made for it: with the likeliest numbers only.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    VariantsReport
        A variant that cannot be planned or priced has a gap with the reason. Nothing is written.

    Raises
    ------
    UserError
        For a job or a price list that will not do, with its line.
    """
    whole, moment = as_loaded(path), now or datetime.now(UTC)

    def plan(job: Job) -> Planned:
        return planned_for(job, moment, _Named(job.variant_name, progress), quick=quick)

    return VariantsReport(side_by_side(whole, plan, moment, prices))


def side_by_side(
    whole: Job, plan: Callable[[Job], Planned | str], now: datetime, prices: Path | None = None
) -> CostVariants:
    """Lay all variants of a job side by side.

    Parameters
    ----------
    whole : Job
        With all its variants.
    plan : callable
        Gives the plan of a variant, or says why there is none.
    now : datetime
        Aware.
    prices : Path, optional
        The price list, as in `cost_variants`.

    Returns
    -------
    CostVariants

    Raises
    ------
    UserError
        For a price list that will not do, with its line.
    """
    jobs = chosen_variants(whole, None)
    quotes = [quotes_for(job, prices, now.date()) for job in jobs]
    rows = [_row(job, each, now, plan) for job, each in zip(jobs, quotes, strict=True)]
    first = quotes[0]
    info = job_info(jobs[0]).model_copy(update={"variant": "", "currency": first.currency})
    return CostVariants(
        version=__version__,
        computed_for=iso(now),
        job=info,
        currency=first.currency,
        prices=list_used(first),
        columns=list(COLUMNS),
        variants=rows,
        notes=[SAME_PRICES if whole.variant else ALONE],
        warnings=list(_common(rows)),
    )


def _row(job: Job, quotes: Quotes, now: datetime, plan: Callable[[Job], Planned | str]) -> VariantCost:
    surface = quotes.listed.finish.surface_of(job.variant_name)
    material = job.casting.material
    cells: list[Cell] = []
    sheet, gap = None, ""
    try:
        materials = shop_materials(job)
        record = materials.resin.get(material) or materials.mineral.get(material)
        material = material if record is None else record.name
        planned = plan(job)
        if isinstance(planned, str):
            gap = planned
        else:
            look = CostLook(job, planned, quotes, taken_of(planned, job))
            sheet = cost_sheet(look, now)
            cells = list(cells_of(sheet, look))
    except UserError as error:
        sheet, gap = None, str(error)
    return VariantCost(
        name=job.variant_name, material=material, surface=surface, cells=cells, cost=sheet, gap=gap
    )


def _common(rows: Sequence[VariantCost]) -> Iterator[str]:
    """What is to be minded in every variant; what is said of one stands in its own cost."""
    told = [row.cost.warnings for row in rows if row.cost is not None]
    for text in told[0] if told else ():
        if all(text in each for each in told):
            yield text
