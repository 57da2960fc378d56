"""The price list `prices.toml`: what things and hours cost and since when, how a piece is sold."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Literal

from pydantic import PrivateAttr

from pourwright.costing.defaults import COSTING
from pourwright.foundation.quantities import Price
from pourwright.jobs.fields import Day, Duration, Mass
from pourwright.jobs.job import nearest_line, place_of
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.keys import Section, key
from pourwright.jobs.prices_risk import Risk
from pourwright.jobs.prices_rows import Freight, Item, PriceRow, Tool
from pourwright.jobs.prices_sections import (
    EnergyUsed,
    Fees,
    Finish,
    MoldLife,
    Overhead,
    RunOf,
    Scrap,
    Seconds,
    Sell,
    Tax,
    Work,
)

Without = Literal[
    "master", "release", "consumables", "packing", "energy", "overhead", "items", "freight", "close_mold",
    "fixings", "photos",
]  # fmt: skip


class PriceList(Section):
    """A price list, every amount exact and with its words kept."""

    format: Literal[1] = key("number of the format of this file")
    currency: str = key("ISO 4217 code of everything in it")
    date: Day | None = key("of every price that has none of its own", shown="each has its own")
    old_after: Duration | None = key(
        "from then on a price is called old", room=COSTING["old_after"], shown="180 days"
    )
    invented: bool = key("true in examples whose prices are made up", default=False)
    price: list[PriceRow] = key(
        "what things cost; of several rows for one thing the newest counts", factory=list
    )
    item: list[Item] = key("feet, fixings and what else goes with a piece", factory=list)
    freight: list[Freight] = key("prices of sending, by weight", factory=list)
    packing_mass: Mass | None = key("of box and padding", shown="none: the piece alone is weighed")
    tool: list[Tool] = key("tools that have to bring back their price", factory=list)
    without: list[Without] = key("lines that this shop does not have: no gap is told for them", factory=list)
    mold: MoldLife = key("how long a mold lasts", factory=MoldLife)
    scrap: Scrap = key("what fails", factory=Scrap)
    seconds: Seconds | None = key("pieces sold cheaper", shown="none")
    run: RunOf = key("how many are made", factory=RunOf)
    overhead: Overhead | None = key("rent, insurance, heating", shown="none: a gap")
    energy: EnergyUsed = key("energy used", factory=EnergyUsed)
    finish: Finish = key("how a piece is finished", factory=Finish)
    work: Work = key("your own times", factory=Work)
    fees: Fees = key("of a sale", factory=Fees)
    tax: Tax | None = key("VAT or sales tax", shown="none")
    risk: Risk = key("how far a month may be off", factory=Risk)
    sell: Sell | None = key("what is wanted of a price", shown="none: no price is told")

    _path: Path = PrivateAttr(default=Path("prices.toml"))
    _lines: Mapping[KeyPath, int] = PrivateAttr(default_factory=dict)
    _digest: str = PrivateAttr(default="")

    @property
    def path(self) -> Path:
        """The file it was read from."""
        return self._path

    @property
    def digest(self) -> str:
        """The sha256 of that file."""
        return self._digest

    def line(self, path: KeyPath) -> int:
        """Line of a key, or of the table around it."""
        return nearest_line(self._lines, path) or 1

    def where(self, path: KeyPath) -> str:
        """Say where a key stands, for an error."""
        return place_of(self._path, self._lines, path)

    def dated(self, own: dt.date | None) -> dt.date | None:
        """Date of a price: its own, or that of the file."""
        return own or self.date

    def moneys(self) -> Iterator[tuple[KeyPath, Price, dt.date | None]]:
        """Every price and amount of money, with its place and its own date."""
        for name in ("price", "item", "freight", "tool"):
            for at, row in enumerate(getattr(self, name)):
                yield (name, at, "price"), row.price, row.date
        for name, keys in (("overhead", ("hour", "month")), ("fees", ("fixed",)), ("sell", _SELL)):
            table = getattr(self, name)
            for each in keys:
                if table is not None and getattr(table, each) is not None:
                    yield (name, each), getattr(table, each), None


_SELL = ("point_step", "point_less", "asked")
