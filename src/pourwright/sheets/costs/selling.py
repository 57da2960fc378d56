"""Prices in a workbook: what leaves the margin, price points, the least, the break-even."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from pourwright.jobs.cost_price import Prices, WayToSell
from pourwright.sheets.costs.givens import Selling, exact
from pourwright.sheets.costs.grid import NOTHING, Cell, Grid, Value

HEADS = ("how", "net", "tax", "shown", "you get", "profit", "margin", "mark-up")
WAYS = {
    "direct": "you to the buyer",
    "wholesale": "you to a dealer",
    "retail": "a dealer to the buyer",
    "gallery": "through a gallery",
}
NEVER = "never"


@dataclass(frozen=True, slots=True)
class Sale:
    """One way of selling, in formulas.

    Parameters
    ----------
    terms : Selling
        Cells of the terms.
    fee, fixed, commission : str
        Formulas of what is kept of a price.
    """

    terms: Selling
    fee: str = "0"
    fixed: str = "0"
    commission: str = "0"

    @property
    def fetched(self) -> str:
        """Mean net price over that of a first."""
        return f"(1-{self.terms['seconds'].at}*{self.terms['off'].at})"

    @property
    def kept(self) -> str:
        """Share of the net price that reaches the maker."""
        return f"(1-{self.commission}-{self.fee}*(1+{self.terms['tax'].at}))"

    def price(self, cost: str, margin: str = "0") -> str:
        """The net price that leaves a margin."""
        left = f"({self.kept}-{margin}*(1-{self.commission}))"
        return f"IF({left}>0,({cost}+{self.fixed})/{left}/{self.fetched},NA())"

    def got(self, net: str) -> str:
        """What reaches the maker."""
        return f"({net}*{self.fetched}*{self.kept}-{self.fixed})"


@dataclass(slots=True)
class Shop:
    """Writes all prices of one cost.

    Parameters
    ----------
    grid : Grid
        Filled from its row on.
    price : Prices
        Of the document.
    terms : Selling
        Cells of the terms.
    sums : mapping
        Cost of a good piece by what is counted.
    """

    grid: Grid
    price: Prices
    terms: Selling
    sums: Mapping[str, Cell]
    direct: Sale = field(init=False)
    plain: Sale = field(init=False)

    def __post_init__(self) -> None:
        self.direct = Sale(self.terms, self.terms["fee"].at, self.terms["fixed"].at)
        self.plain = Sale(self.terms)

    def write(self, spent: Cell) -> Cell:
        """Write ways, points, the least and the break-even.

        Parameters
        ----------
        spent : Cell
            Money of one mold, unrounded.

        Returns
        -------
        Cell
            The price sold directly, as it is shown.
        """
        grid = self.grid
        grid.words(0, "Prices that leave the margin", "sub")
        grid.next()
        grid.heads(HEADS, "BCDEFGH")
        told: dict[str, WayToSell] = {way.way: way for way in self.price.ways}
        direct = self._ways(told)
        self._points(direct)
        self._least()
        self._even(spent, direct["got"])
        return direct["shown"]

    def _ways(self, told: Mapping[str, WayToSell]) -> Mapping[str, Cell]:
        cost, margin = self.sums["full"].at, self.terms["margin"].at
        direct = self._way(told["direct"], self.direct.price(cost, margin), self.direct)
        dealer = self.plain.price(cost, margin)
        self._way(told["wholesale"], dealer, self.plain)
        self._way(
            told["retail"],
            f"{dealer}*{self.terms['retail'].at}",
            self.plain,
            f"({dealer}*{self.plain.fetched})",
        )
        if "gallery" in told:
            gallery = Sale(self.terms, commission=self.terms["gallery"].at)
            self._way(told["gallery"], gallery.price(cost, margin), gallery)
        self.grid.next()
        return direct

    def _way(self, way: WayToSell, net: str, sale: Sale, got: str = "") -> Mapping[str, Cell]:
        grid, terms = self.grid, self.terms
        grid.words(0, WAYS[way.way])
        first = grid.formula(1, grid.rounded(net), way.net)
        tax = grid.formula(2, grid.rounded(f"{first.at}*{terms['tax'].at}"), way.tax)
        shown = grid.formula(3, self._shown(first.at, tax.at), way.shown)
        reached = grid.formula(4, grid.rounded(got or sale.got(first.at)), way.got)
        profit = grid.formula(5, f"{reached.at}-{self.sums['full'].at}", way.profit)
        fetched = got or f"({first.at}*{sale.fetched}*(1-{sale.commission}))"
        grid.formula(6, f"ROUND({profit.at}/{fetched},4)", exact(way.margin), "share")
        grid.formula(
            7,
            f"IF({fetched}>{profit.at},ROUND({profit.at}/({fetched}-{profit.at}),4),0)",
            exact(way.markup),
            "share",
        )
        grid.next()
        return {"net": first, "shown": shown, "got": reached}

    def _shown(self, net: str, tax: str) -> str:
        """VAT is in the price of a label, sales tax comes on top."""
        return f'IF({self.terms["tax_kind"].at}="sales tax",{net},{net}+{tax})'

    def _points(self, direct: Mapping[str, Cell]) -> None:
        step, less = self.terms["point_step"].at, self.terms["point_less"].at
        above = f"ROUNDUP(ROUND(({direct['shown'].at}+{less})/{step},9),0)*{step}-{less}"
        told = {point.words: point for point in self.price.points}
        self.grid.heads(("price points", "net", "", "shown", "you get", "profit", "margin"), "BCDEFGH")
        for words, text in (
            ("the point below", f'IF({step}="","",IF({above}-{step}>0,{above}-{step},""))'),
            ("the point above", f'IF({step}="","",{above})'),
            ("the price you think of", f'IF(N({self.terms["asked"].at})>0,{self.terms["asked"].at},"")'),
        ):
            point = told.get(words)
            self._point(
                words, text, None if point is None else (point.shown, point.net, point.profit, point.margin)
            )
        self.grid.next()

    def _point(self, words: str, text: str, told: tuple[Decimal, Decimal, Decimal, float] | None) -> None:
        grid, tax = self.grid, self.terms["tax"].at
        values: tuple[Value, ...] = (NOTHING,) * 4 if told is None else (*told[:3], exact(told[3]))
        grid.words(0, words)
        shown = grid.formula(3, self._round_known(text, text), values[0])
        free = f'IF({self.terms["tax_kind"].at}="sales tax",{shown.at},{shown.at}/(1+{tax}))'
        net = grid.formula(1, self._round_known(shown.at, free), values[1])
        got = NOTHING if told is None else told[2] + self.sums["full"].number
        reached = grid.formula(4, self._round_known(net.at, self.direct.got(net.at)), got)
        grid.formula(5, f'IF({net.at}="","",{reached.at}-{self.sums["full"].at})', values[2])
        left = f"({self.direct.got(net.at)}-{self.sums['full'].at})/({net.at}*{self.direct.fetched})"
        grid.formula(6, f'IF({net.at}="","",ROUND({left},4))', values[3], "share")
        grid.next()

    def _round_known(self, asked: str, text: str) -> str:
        return f'IF({asked}="","",{self.grid.rounded(text)})'

    def _least(self) -> None:
        least = self.price.least
        self.grid.words(0, "The least, net, sold directly", "head")
        self.grid.next()
        for words, name, value in (
            ("for the next piece, hours paid", "next", least.money),
            ("for the next piece, hours unpaid", "bought", least.without_hours),
            ("at which all is paid and nothing earned", "full", least.full),
        ):
            self.grid.words(0, words)
            self.grid.formula(1, self.grid.rounded(self.direct.price(self.sums[name].at)), value)
            self.grid.next()
        self.grid.next()

    def _even(self, spent: Cell, got: Cell) -> None:
        grid, even, terms = self.grid, self.price.even, self.terms
        grid.words(0, "When the mold has come back, sold directly", "head")
        grid.next()

        def row(words: str, text: str, value: Value, kind: str = "money") -> Cell:
            grid.words(0, words)
            cell = grid.formula(1, text, value, kind)
            grid.next()
            return cell

        mold = row("spent once", grid.rounded(spent.at), even.spent)
        left = row("left of each piece", f"{got.at}-{self.sums['even'].at}", even.left)
        pieces = NEVER if even.pieces is None else Decimal(even.pieces)
        row("good pieces", f'IF({left.at}>0,{_up(f"{mold.at}/{left.at}")},"{NEVER}")', pieces, "whole")
        sold, earned = terms["per_month"].at, f"({left.at}*{terms['per_month'].at}-{terms['monthly'].at})"
        none = terms["per_month"].value == NOTHING
        months: Value = NOTHING if none else NEVER if even.months is None else Decimal(even.months)
        row(
            "months",
            f'IF({sold}="","",IF({earned}>0,{_up(f"{mold.at}/{earned}")},"{NEVER}"))',
            months,
            "whole",
        )


def _up(text: str) -> str:
    """Up to the next whole number; what a binary fraction adds to one is none."""
    return f"ROUNDUP(ROUND({text},9),0)"
