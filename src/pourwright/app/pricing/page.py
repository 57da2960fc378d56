"""What the page asks of a cost: told from a plan that is there and the price list as it lies there."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.planned import Planned
from pourwright.app.pricing.pricing import cost_sheet, taken_of
from pourwright.app.pricing.quotes import PRICES_FILE, price_list_of, quotes_for
from pourwright.app.pricing.risk import risk_of
from pourwright.app.pricing.shown import shown_cost
from pourwright.app.pricing.shown_line import Row
from pourwright.app.pricing.shown_month import shown_month
from pourwright.app.pricing.shown_variants import shown_variants
from pourwright.app.pricing.side_by_side import side_by_side
from pourwright.app.pricing.starting import new_prices
from pourwright.app.pricing.sums import sums_of
from pourwright.app.pricing.there import PlanThere, is_planned, plan_there
from pourwright.app.which import chosen_variants
from pourwright.app.working.standing import Standing
from pourwright.app.working.works import Works
from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import CURRENCIES
from pourwright.jobs import load_job
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.jobs.cost_variants import CostVariants
from pourwright.jobs.job import Job
from pourwright.jobs.texts import read_text

NO_PLAN, NOT_WORKED_OUT = "no plan yet", "mold and fill not worked out yet"
USUAL = {"metric": "EUR", "us": "USD"}


@dataclass(frozen=True)
class Costing:
    """The cost of one variant of a job; looking at it makes no plan and writes nothing.

    Parameters
    ----------
    works : Works
        Of this server.
    file : Path
        The job file.
    variant : str, optional
        Else the first.
    """

    works: Works
    file: Path
    variant: str | None = None

    def standing(self, *, risk: bool = False) -> Standing:
        """The cost as a document, None where there is no plan, and whether the plan is of today's choices.

        Parameters
        ----------
        risk : bool
            Whether a month is weighed too.

        Raises
        ------
        UserError
            For a job or a price list with errors, and where there are no prices.
        """
        job = self._job()
        there = plan_there(job, self.works)
        look = _look(job, there)
        sheet = None if look is None else cost_sheet(look, datetime.now(UTC), risk=risk)
        return {
            "document": None if sheet is None else sheet.model_dump(mode="json", by_alias=True),
            "old": there is not None and bool(there.because),
            "word": "" if there is None else there.word,
            "because": [] if there is None else list(there.because),
            "made": None if sheet is None else sheet.computed_for,
        }

    def side_by_side(self) -> Row:
        """All variants: the ``document``, and by name ``old``, what differs where a plan is old.

        Raises
        ------
        UserError
            As for the cost of one.
        """
        sheet, plans = self._variants()
        old = {name: list(plan.because) for name, plan in plans.items() if plan is not None and plan.because}
        return {"document": sheet.model_dump(mode="json", by_alias=True), "old": old}

    def told(self) -> Row:
        """Everything on the page: the ``cost``, the ``plan``, the price ``list``, what is ``wrong``.

        A ``month`` and the ``variants`` besides, where there are some.
        """
        job = self._job()
        there, place = plan_there(job, self.works), price_list_of(job)
        wrong: Sequence[UserError] = ()
        cost: Row = {"cost": None, "month": None, "variants": None}
        lines = {} if place is None else _lines(place)
        if place is not None or job.prices is not None:
            try:
                cost = self._costed(job, there, PRICES_FILE if lines else "", place)
            except UserError as error:
                wrong = getattr(error, "every", (error,))
        return {
            "plan": None if there is None else {"word": there.word, "because": list(there.because)},
            "poured": is_planned(job),
            "list": None if place is None else {"place": str(place), "name": place.name, "lines": lines},
            "own": job.prices is not None,
            "wrong": [_wrong(each, place) for each in wrong],
            "currencies": sorted(CURRENCIES),
            "currency": USUAL[job.units] if job.prices is None else job.prices.currency,
            **cost,
        }

    def begin(self, currency: str) -> dict[str, Any]:
        """Write a price list to fill in beside the job; its ``file``."""
        return {"file": new_prices(self._job(), currency).name}

    def _costed(self, job: Job, there: PlanThere | None, listed: str, place: Path | None) -> Row:
        """The cost of the variant, its month, and all variants beside it."""
        look = _look(job, there)
        sheet = None if look is None else cost_sheet(look, datetime.now(UTC))
        return {
            "cost": None if sheet is None else shown_cost(sheet, listed),
            "month": None if look is None or sheet is None else _month(look, sheet, place),
            "variants": self._beside(),
        }

    def _beside(self) -> Row | None:
        """All variants, where there are several and something is known of one."""
        if len(load_job(self.file).variants()) == 1:
            return None
        sheet, plans = self._variants()
        return shown_variants(sheet, plans) if any(each.cost for each in sheet.variants) else None

    def _variants(self) -> tuple[CostVariants, dict[str, PlanThere | None]]:
        plans: dict[str, PlanThere | None] = {}

        def plan(job: Job) -> Planned | str:
            found = plans[job.variant_name] = plan_there(job, self.works)
            if found is None:
                return NO_PLAN if is_planned(job) else NOT_WORKED_OUT
            return found.planned

        return side_by_side(load_job(self.file), plan, datetime.now(UTC)), plans

    def _job(self) -> Job:
        return chosen_variants(load_job(self.file), self.variant)[0]


def _look(job: Job, there: PlanThere | None) -> CostLook | None:
    """What a cost is told from; errors of the price list come first, whether there is a plan or not."""
    quotes = quotes_for(job, None, datetime.now(UTC).date())
    return None if there is None else CostLook(job, there.planned, quotes, taken_of(there.planned, job))


def _month(look: CostLook, sheet: CostSheet, place: Path | None) -> Row:
    """A month weighed; what the price list has to say for it where it cannot be."""
    try:
        return {"wrong": None, **shown_month(risk_of(sums_of(look)), sheet)}
    except UserError as error:
        return {"wrong": _wrong(error, place)}


def _lines(place: Path) -> dict[int, str]:
    """The price list line by line; nothing where it is no text."""
    try:
        text = read_text(place, "price list", missing="", instead="")
    except UserError:
        return {}
    return dict(enumerate(text.splitlines(), start=1))


def _wrong(error: UserError, place: Path | None) -> Row:
    """Tell what is wrong, with its line in the price list where it stands there."""
    found = None if place is None else re.match(re.escape(str(place)) + r":(\d+)(?: (.*))?$", error.where)
    line = 0 if found is None else int(found[1])
    where = (
        error.where
        if found is None
        else f"{PRICES_FILE}, line {line}" + ((found[2] and f", {found[2]}") or "")
    )
    return {"where": where, "line": line, "what": error.what, "allowed": error.allowed, "todo": error.todo}
