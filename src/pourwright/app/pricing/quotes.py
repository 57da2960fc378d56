"""The price of a thing: from the price list, else from the job's own prices, with its line and its age."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path

from pourwright.costing.defaults import COSTING
from pourwright.costing.lines import ONE
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_price
from pourwright.foundation.quantities import Dimension, Price, Quantity
from pourwright.jobs import load_prices
from pourwright.jobs.cost_line import PriceUsed
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.prices import PriceList
from pourwright.jobs.prices_rows import OF, PriceRow

PRICES_FILE = "prices.toml"
ABOVE = 4
DAY = 86_400
IN_JOB = ("resin", "mineral", "rubber", "glass", "board", "hour")
SIZES = {"kg": ONE, "m2": ONE, "piece": ONE, "h": Decimal(3600), "kWh": Decimal(3_600_000)}
"""Units of a line in SI."""


@dataclass(frozen=True)
class Quotes:
    """All prices that count for a job.

    Parameters
    ----------
    listed : PriceList
        The price list; an empty one where there is none.
    job : Job
        With prices of its own, perhaps.
    today : date
        From which the age of a price counts.
    """

    listed: PriceList
    job: Job
    today: date

    @property
    def currency(self) -> str:
        """ISO 4217 code."""
        return self.listed.currency

    @property
    def old_after(self) -> int:
        """Days from which on a price is called old."""
        own = self.listed.old_after
        return round((COSTING["old_after"].value if own is None else own.si) / DAY)

    def of(
        self,
        thing: str,
        unit: str,
        *,
        density: float | None = None,
        sheet: float | None = None,
        **which: str | None,
    ) -> PriceUsed | None:
        """Find the price of a thing.

        Parameters
        ----------
        thing : str
            As the list calls it.
        unit : str
            Of the line.
        density : float, optional
            Where it may be priced by its volume [kg/m3].
        sheet : float, optional
            Area of a board that may be priced by the sheet [m2].
        **which : str
            Its id, grade, colour or step: a row that names them counts more than one that does not.
        """
        rows = [
            (at, row) for at, row in enumerate(self.listed.price) if row.of == thing and _fits(row, which)
        ]
        if not rows:
            return self._in_job(thing, unit, density, sheet)
        at, row = max(rows, key=lambda one: (_named(one[1]), self._date(one[1].date)))
        money = _for_one(row.price, unit, density, sheet)
        used = self.used(row.price, money, ("price", at, "price"), row.date, row.note or "")
        return used.model_copy(update=_turned(row.price, unit))

    def used(
        self, price: Price, money: Decimal, path: KeyPath, own: date | None = None, note: str = ""
    ) -> PriceUsed:
        """Say where a price stands and how old it is."""
        when = self.listed.dated(own)
        age = None if when is None else (self.today - when).days
        return PriceUsed(
            text=price.text,
            money=money,
            file=self.listed.path.name,
            line=self.listed.line(path),
            date=None if when is None else when.isoformat(),
            age_days=age,
            old=age is not None and age > self.old_after,
            note=note,
        )

    def _date(self, own: date | None) -> date:
        return self.listed.dated(own) or date.min

    def _in_job(self, thing: str, unit: str, density: float | None, sheet: float | None) -> PriceUsed | None:
        written: Quantity | None = None
        if self.job.prices is not None and thing in IN_JOB:
            written = getattr(self.job.prices, thing)
        if written is None:
            return None
        where = self.job.where(f"prices.{thing}")
        if written.currency != self.currency:
            raise UserError(
                f"{written.text!r} is in {written.currency}, the price list in {self.currency}",
                where=where,
                allowed="one currency for all of a cost",
                todo=f'write [[price]] of = "{thing}" into the price list, or take the line out of the job',
            )
        price = parse_price(written.text, OF[thing], where=where)
        if _by_volume(price) and density is None:
            return None
        used = PriceUsed(
            text=price.text, money=_for_one(price, unit, density, sheet), file=self.job.path.name,
            line=self.job.line(f"prices.{thing}") or 1, date=None, age_days=None, old=False,
        )  # fmt: skip
        return used.model_copy(update=_turned(price, unit))


def _fits(row: PriceRow, which: dict[str, str | None]) -> bool:
    return all(getattr(row, name) in (None, which.get(name)) for name in ("id", "grade", "colour", "step"))


def _named(row: PriceRow) -> int:
    return sum(getattr(row, name) is not None for name in ("id", "grade", "colour", "step"))


def _by_volume(price: Price) -> bool:
    return price.dimension is Dimension.MONEY_PER_VOLUME


def _turned(price: Price, unit: str) -> dict[str, bool]:
    by_sheet = price.dimension is Dimension.MONEY_PER_PIECE and unit == "m2"
    return {"by_volume": _by_volume(price), "by_sheet": by_sheet}


def _for_one(price: Price, unit: str, density: float | None, sheet: float | None) -> Decimal:
    """Money for one unit of a line."""
    if _by_volume(price) and unit == "kg":
        return price.per_si / exact(density or 0.0)
    if price.dimension is Dimension.MONEY_PER_PIECE and unit == "m2":
        return price.per_si / exact(sheet or 0.0)
    return price.per_si * SIZES[unit]


def exact(number: float) -> Decimal:
    """A number as it is written in a document."""
    return Decimal(repr(float(number)))


def quotes_for(job: Job, file: Path | None, today: date) -> Quotes:
    """Find the prices of a job.

    Parameters
    ----------
    job : Job
        Its folder is looked into first, then those above.
    file : Path or None
        The price list to take instead.
    today : date
        From which the age of a price counts.

    Returns
    -------
    Quotes

    Raises
    ------
    UserError
        For a price list with errors, and where there are no prices at all.
    """
    place = file or price_list_of(job)
    if place is not None:
        return Quotes(load_prices(place), job, today)
    if job.prices is not None:
        return Quotes(PriceList(format=1, currency=job.prices.currency), job, today)
    raise UserError(
        "there are no prices", where=str(job.path.parent / PRICES_FILE),
        allowed="a prices.toml beside the job or in the shop's folder, or [prices] in the job",
        todo="write one to fill in, with --new-list EUR (or your currency)",
    )  # fmt: skip


def quotes_beside(job: Job, today: date) -> Quotes | None:
    """Find the price list of a job, where there is one.

    Parameters
    ----------
    job : Job
        Its folder is looked into first, then those above.
    today : date
        From which the age of a price counts.

    Returns
    -------
    Quotes or None
    """
    place = price_list_of(job)
    return None if place is None else Quotes(load_prices(place), job, today)


def price_list_of(job: Job) -> Path | None:
    """Find the price list beside a job or in a folder above it; None where there is none."""
    here = job.path.resolve().parent
    places = [job.path.parent / PRICES_FILE, *(above / PRICES_FILE for above in here.parents[:ABOVE])]
    return next((place for place in places if place.is_file()), None)
