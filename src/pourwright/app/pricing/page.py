"""What the page asks of a cost: told from a plan that is there and the price list as it lies there."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.pricing import cost_sheet, taken_of
from pourwright.app.pricing.quotes import PRICES_FILE, price_list_of, quotes_for
from pourwright.app.pricing.shown import shown_cost
from pourwright.app.pricing.shown_line import Row
from pourwright.app.pricing.starting import new_prices
from pourwright.app.pricing.there import PlanThere, is_planned, plan_there
from pourwright.app.which import chosen_variants
from pourwright.app.working.standing import Standing
from pourwright.app.working.works import Works
from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import CURRENCIES
from pourwright.jobs import load_job
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.jobs.job import Job
from pourwright.jobs.texts import read_text

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

    def standing(self) -> Standing:
        """The cost as a document, None where there is no plan, and whether the plan is of today's choices.

        Raises
        ------
        UserError
            For a job or a price list with errors, and where there are no prices.
        """
        job = self._job()
        there = plan_there(job, self.works)
        sheet = _sheet(job, there)
        return {
            "document": None if sheet is None else sheet.model_dump(mode="json", by_alias=True),
            "old": there is not None and bool(there.because),
            "word": "" if there is None else there.word,
            "because": [] if there is None else list(there.because),
            "made": None if sheet is None else sheet.computed_for,
        }

    def told(self) -> Row:
        """Everything on the page: the ``cost``, the ``plan``, the price ``list``, what is ``wrong``."""
        job = self._job()
        there, place = plan_there(job, self.works), price_list_of(job)
        wrong: Sequence[UserError] = ()
        sheet = None
        if place is not None or job.prices is not None:
            try:
                sheet = _sheet(job, there)
            except UserError as error:
                wrong = getattr(error, "every", (error,))
        lines = {} if place is None else _lines(place)
        return {
            "plan": None if there is None else {"word": there.word, "because": list(there.because)},
            "poured": is_planned(job),
            "list": None if place is None else {"place": str(place), "name": place.name, "lines": lines},
            "own": job.prices is not None,
            "wrong": [_wrong(each, place) for each in wrong],
            "cost": None if sheet is None else shown_cost(sheet, PRICES_FILE if lines else ""),
            "currencies": sorted(CURRENCIES),
            "currency": USUAL[job.units] if job.prices is None else job.prices.currency,
        }

    def begin(self, currency: str) -> dict[str, Any]:
        """Write a price list to fill in beside the job; its ``file``."""
        return {"file": new_prices(self._job(), currency).name}

    def _job(self) -> Job:
        return chosen_variants(load_job(self.file), self.variant)[0]


def _sheet(job: Job, there: PlanThere | None) -> CostSheet | None:
    """The cost; errors of the price list come first, whether there is a plan or not."""
    now = datetime.now(UTC)
    quotes = quotes_for(job, None, now.date())
    if there is None:
        return None
    return cost_sheet(CostLook(job, there.planned, quotes, taken_of(there.planned, job)), now)


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
