"""What may be changed in a cost workbook: prices, the run, the terms of a sale."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.cost_line import CostLine, PriceUsed
from pourwright.jobs.cost_price import Prices
from pourwright.jobs.cost_sheet import CostSheet, Made
from pourwright.sheets.costs.grid import NOTHING, Cell, Grid, Value

ONE = Decimal(1)
WORK, OVERHEAD = "hours-", "overhead-"
SCRAP, PRACTICE = "scrap", "practice-"


def exact(number: float) -> Decimal:
    """A number as it is written in the document."""
    return Decimal(repr(float(number)))


def kind_of(line: CostLine) -> str:
    """What a line is: "work", "overhead" or "thing"."""
    kinds = ((WORK, "work"), (OVERHEAD, "overhead"))
    return next((kind for start, kind in kinds if line.key.startswith(start)), "thing")


def is_own(line: CostLine) -> bool:
    """Whether it is an amount at a price, and no sum of scrap or practice."""
    return line.key != SCRAP and not line.key.startswith(PRACTICE)


class Units:
    """Units of the amounts, as the maker weighs and measures."""

    def __init__(self, units: str) -> None:
        foot = (
            Decimal(UNITS[Dimension.LENGTH]["ft"].factor.numerator)
            / UNITS[Dimension.LENGTH]["ft"].factor.denominator
        )
        pound = UNITS[Dimension.MASS]["lb"].factor
        us = {"kg": ("lb", Decimal(pound.numerator) / pound.denominator), "m2": ("ft2", foot * foot)}
        self._turned = us if units == "us" else {}

    def name(self, unit: str) -> str:
        """Name of the unit."""
        return self._turned.get(unit, (unit, ONE))[0]

    def amount(self, number: float | None, unit: str) -> Decimal | None:
        """An amount in that unit."""
        return None if number is None else exact(number) / self._turned.get(unit, (unit, ONE))[1]

    def price(self, money: Decimal, unit: str) -> Decimal:
        """Money for one of that unit."""
        return money * self._turned.get(unit, (unit, ONE))[1]


@dataclass(frozen=True, slots=True)
class _Row:
    unit: str
    used: PriceUsed | None
    gap: str
    names: tuple[str, ...]


def price_key(line: CostLine) -> tuple[str, ...]:
    """What lines with the same price have in common."""
    used = line.price
    if used is None:
        return ("", line.gap, line.unit)
    return (used.file, str(used.line), str(used.money), line.unit)


def _rows(lines: Sequence[CostLine]) -> Mapping[tuple[str, ...], _Row]:
    found: dict[tuple[str, ...], _Row] = {}
    own = list(filter(is_own, lines))
    for line in own:
        before = found.get(price_key(line))
        names = () if before is None else before.names
        names = names if line.words in names else (*names, line.words)
        found[price_key(line)] = _Row(line.unit, line.price, line.gap, names)
    hours = Counter(price_key(line) for line in own if kind_of(line) == "work").most_common(1)
    fixed = {key: "an hour of work" for key, _ in hours}
    fixed |= {price_key(line): "overhead of an hour" for line in own if kind_of(line) == "overhead"}
    return {key: replace(row, names=(fixed[key],)) if key in fixed else row for key, row in found.items()}


def _named(names: Sequence[str], kind: str) -> str:
    """The first of them, and how many more."""
    first = (
        f"an hour: {names[0]}"
        if kind == "h" and not names[0].startswith(("an hour", "overhead"))
        else names[0]
    )
    return first if len(names) == 1 else f"{first}, and {len(names) - 1} more"


def write_prices(grid: Grid, sheet: CostSheet, units: Units) -> Mapping[tuple[str, ...], Cell]:
    """Write every price once.

    Parameters
    ----------
    grid : Grid
        Filled from its row on.
    sheet : CostSheet
        The cost.
    units : Units
        Of the amounts.

    Returns
    -------
    mapping
        Its cell by `price_key`.
    """
    grid.words(0, "Prices", "sub")
    grid.next()
    grid.heads(("what", sheet.currency, "for one", "as it is written", "where", "of"), "B")
    cells = {}
    for key, row in _rows(sheet.lines).items():
        grid.words(0, _named(row.names, row.unit))
        used = row.used
        cells[key] = grid.given(1, None if used is None else units.price(used.money, row.unit), "exact")
        grid.words(2, units.name(row.unit))
        told = (
            (row.gap, "", "")
            if used is None
            else (used.text, f"{used.file}:{used.line}", used.date or "no date")
        )
        for column, text in enumerate(told, 3):
            grid.words(column, text, "note")
        grid.next()
    grid.next()
    return cells


@dataclass(frozen=True, slots=True)
class Running:
    """Cells of the run.

    Parameters
    ----------
    casts, scrap, starts : Cell
        Castings that share a mold; share that fails; castings begun for a good piece.
    late : Cell
        1 where finishing is lost too, else 0.
    practice : mapping
        Mean hours over those of the first, by stage.
    """

    casts: Cell
    scrap: Cell
    starts: Cell
    late: Cell
    practice: Mapping[str, Cell]


def write_run(grid: Grid, made: Made) -> Running:
    """Write how many are made and fail.

    Parameters
    ----------
    grid : Grid
        Filled from its row on.
    made : Made
        Of the cost.

    Returns
    -------
    Running
    """
    grid.words(0, "How many, and how many fail", "sub")
    grid.next()

    def given(words: str, value: float | None, kind: str = "number", note: str = "") -> Cell:
        return _labelled(grid, words, None if value is None else exact(value), kind, note)

    life = given("castings that a mold gives", made.life, "number", made.life_from)
    wanted = given("good pieces wanted", made.pieces, "number", "left empty: as many as the mold gives")
    told = None if made.pieces is not None else made.castings
    castings = given("castings wanted, where no pieces are", told, "number", "left empty: the same")
    scrap = given("share of the castings that fail", made.scrap, "share", made.scrap_from)
    late = given("1 where a fault shows only once it is finished", float(made.found_finished), "whole")
    rate = given("hours of the 2n-th piece over the n-th", made.learning, "number", "1: no practice")
    first = given("which piece of its kind the first one is", made.begins, "whole")
    starts = _reckoned(grid, "castings begun for a good piece", f"1/(1-{scrap.at})", 1 / (1 - scrap.number))
    begun = NOTHING if made.castings is None else exact(made.castings)
    all_ = _reckoned(
        grid, "castings begun in all",
        f'IF({wanted.at}="",IF({castings.at}="","",{castings.at}),{wanted.at}/(1-{scrap.at}))', begun,
    )  # fmt: skip
    molds = _reckoned(
        grid, "molds", f'IF({all_.at}="","",ROUNDUP(ROUND({all_.at}/{life.at},9),0))',
        NOTHING if made.molds is None else Decimal(made.molds),
    )  # fmt: skip
    casts = _reckoned(
        grid,
        "castings that share a mold",
        f'IF({all_.at}="",{life.at},{all_.at}/{molds.at})',
        exact(made.casts),
    )
    run = f'IF({wanted.at}="",ROUNDUP(ROUND({life.at}*(1-{scrap.at}),9),0),{wanted.at})'
    counts = {"casting": f"ROUNDUP(ROUND({run}*{starts.at},9),0)", "piece": run}
    values = {"casting": made.practice_casting, "piece": made.practice_piece}
    practice = {
        stage: _reckoned(
            grid, f"mean hours of a {stage} over those of the first one",
            _practice(count, rate.at, first.at), exact(values[stage]),
        )
        for stage, count in counts.items()
    }  # fmt: skip
    grid.next()
    return Running(casts, scrap, starts, late, practice)


def _practice(count: str, rate: str, first: str) -> str:
    """Wright's law of the single unit, its mean over a run and over its first piece."""
    rows = f'ROW(INDIRECT("A1:A"&{count}))'
    power = f"LOG({rate},2)"
    return f"IF({rate}=1,1,SUMPRODUCT(({rows}+{first}-1)^{power})/{first}^{power}/({count}))"


def _labelled(grid: Grid, words: str, value: Value | None, kind: str, note: str = "") -> Cell:
    grid.words(0, words)
    cell = grid.given(1, value, kind)
    grid.words(2, note, "note")
    grid.next()
    return cell


def _reckoned(grid: Grid, words: str, formula: str, value: Value) -> Cell:
    grid.words(0, words)
    cell = grid.formula(1, formula, value, "number")
    grid.next()
    return cell


@dataclass(frozen=True, slots=True)
class Selling:
    """Cells of the terms of a sale, by name; see `SaleTerms`."""

    cells: Mapping[str, Cell]

    def __getitem__(self, name: str) -> Cell:
        return self.cells[name]


_TERMS = (
    ("margin", "margin wanted, share of the price", "share"),
    ("tax_kind", "VAT is in the price shown, sales tax comes on top", "words"),
    ("tax", "tax on the net price", "share"),
    ("fee", "fee, share of what the buyer pays", "share"),
    ("fixed", "fee for each sale", "money"),
    ("seconds", "share of the good pieces sold as seconds", "share"),
    ("off", "taken off their price", "share"),
    ("retail", "a dealer's price over what he pays", "number"),
    ("gallery", "share that a gallery keeps", "share"),
    ("point_step", "prices are set in steps of", "money"),
    ("point_less", "and so much below a step", "money"),
    ("asked", "a price you think of, as it is shown", "money"),
    ("per_month", "pieces sold in a month", "number"),
    ("monthly", "overhead and tools of a month", "money"),
)
_NOTES = {
    "tax_kind": "VAT, sales tax, or empty",
    "monthly": "paid before a mold comes back; what an hour carries of it is a price above",
}


def write_terms(grid: Grid, price: Prices) -> Selling:
    """Write on what terms a piece is sold.

    Parameters
    ----------
    grid : Grid
        Filled from its row on.
    price : Prices
        Of the cost.

    Returns
    -------
    Selling
    """
    grid.words(0, "How it is sold", "sub")
    grid.next()
    told = price.terms.model_dump() | {"margin": price.margin}
    cells = {}
    for name, words, kind in _TERMS:
        value = told[name]
        told_value = exact(value) if isinstance(value, float) else value
        cells[name] = _labelled(grid, words, told_value, kind, _NOTES.get(name, ""))
    grid.next()
    return Selling(cells)
