"""All that a cost is told from: plan, mold, prices, and what is known of the materials."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from pourwright.app.pricing.planned import Planned
from pourwright.app.pricing.quotes import Quotes
from pourwright.app.pricing.taken import Taken
from pourwright.costing.lines import Line, Stage
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.cost_line import PriceUsed, Trace
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath, shown


@dataclass(frozen=True)
class CostLook:
    """One variant, planned and priced.

    Parameters
    ----------
    job : Job
        The variant.
    planned : Planned
        Its plan or its fill, and how its mold is made.
    quotes : Quotes
        Its prices.
    taken : Taken
        What they say is used up and worked.
    """

    job: Job
    planned: Planned
    quotes: Quotes
    taken: Taken

    @property
    def system(self) -> UnitSystem:
        """Units of everything printed."""
        return UnitSystem(self.job.units)

    def written(self, path: KeyPath, words: str, value: float, unit: str) -> Trace:
        """A number of the price list."""
        listed = self.quotes.listed
        place = f"{listed.path.name}:{listed.line(path)} {shown(path)}"
        return Trace(where="prices", path=place, words=words, value=value, unit=unit)


@dataclass(frozen=True)
class Entry:
    """A line of cost with its words and all it comes from.

    Parameters
    ----------
    key, stage : str
        As in the document.
    words, unit : str
        As in the document.
    made_of : tuple of Trace
        Numbers of the amount.
    amount : Decimal or None
        None where it is not known.
    price : PriceUsed or None
        None where it is not known.
    gap : str
        What to write where something is not known.
    kind : str
        "thing", "work" or "overhead".
    """

    key: str
    stage: Stage
    words: str
    unit: str
    made_of: tuple[Trace, ...]
    amount: Decimal | None
    price: PriceUsed | None
    gap: str = ""
    kind: str = "thing"

    @property
    def line(self) -> Line:
        """For the sum."""
        known = self.amount is not None and self.price is not None
        practised = self.kind != "thing" and self.stage != "mold"
        money = self.price.money if known and self.price is not None else None
        return Line(self.key, self.stage, self.amount or Decimal(0), money, practised)

    @property
    def told_gap(self) -> str:
        """What is missing; empty where nothing is."""
        return self.gap if self.line.price is None else ""
