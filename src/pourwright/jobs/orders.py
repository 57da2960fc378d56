"""The order list `orders.toml`: what is to be made by when, on how many molds, and who sells what for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Literal, Self

from pydantic import PrivateAttr, model_validator

from pourwright.foundation.quantities import Price
from pourwright.jobs.fields import Count, Moment, Refused, Share, Title
from pourwright.jobs.job import nearest_line, place_of
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.keys import Section, key
from pourwright.jobs.orders_sections import Buying, LineShop, OfferRow, OrderRow, Product, SupplierRow
from pourwright.line.defaults import LINE

LEAST_KEPT, MOST_KEPT = 0.5, 0.99


class OrderList(Section):
    """An order list, every amount exact and with its words kept."""

    format: Literal[1] = key("number of the format of this file")
    title: Title = key("what it is called", default="orders")
    currency: str | None = key("ISO 4217 code of all money in it", shown="needed where there is money in it")
    invented: bool = key("true in examples whose data are made up", default=False)
    start: Moment | None = key("nothing is done before, by the shop's clock", shown="the next working hour")
    kept: Share | None = key(
        "how often a promised date has to hold", room=LINE["kept"], shown="0.90", why="one in ten is late"
    )
    seed: Count = key("start of the random numbers", default=0, why="the same list gives the same dates")
    shop: LineShop = key("who works when", factory=LineShop)
    product: list[Product] = key("what is made", min_length=1)
    order: list[OrderRow] = key("what is wanted", min_length=1)
    offer: list[OfferRow] = key("what can be bought", factory=list, shown="none: prices by the kilogram")
    supplier: list[SupplierRow] = key("on what terms", factory=list, shown="none: each order will do")
    buying: Buying = key("how it is bought", factory=Buying)

    @model_validator(mode="after")
    def _sometimes_late(self) -> Self:
        if self.kept is not None and not LEAST_KEPT <= self.kept <= MOST_KEPT:
            what = f"days that hold in {100 * self.kept:g} % of the months"
            raise Refused(what, f"{LEAST_KEPT} to {MOST_KEPT}", "no day holds always", "kept")
        return self

    _path: Path = PrivateAttr(default=Path("orders.toml"))
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

    def product_at(self, name: str) -> int:
        """Position of a product."""
        return next(at for at, one in enumerate(self.product) if one.name == name)

    def moneys(self) -> Iterator[tuple[KeyPath, Price]]:
        """Every amount of money, with its place."""
        for at, product in enumerate(self.product):
            yield from _named(("product", at), product, "leaves", "mold_price")
        for at, offer in enumerate(self.offer):
            yield ("offer", at, "price"), offer.price
            for number, more in enumerate(offer.more):
                yield ("offer", at, "more", number, "price"), more.price
        for at, supplier in enumerate(self.supplier):
            yield from _named(("supplier", at), supplier, "least", "fee")


def _named(above: KeyPath, table: Section, *names: str) -> Iterator[tuple[KeyPath, Price]]:
    for name in names:
        money = getattr(table, name)
        if money is not None:
            yield (*above, name), money
