"""The lines of a cost in a workbook: amount times price, shared, rounded once, added up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from pourwright.jobs.cost_line import CostLine
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.sheets.costs.givens import Running, Units, is_own, kind_of, price_key
from pourwright.sheets.costs.grid import NOTHING, Cell, Grid

WHAT, STAGE, KIND, AMOUNT, UNIT, PRICE, EXACT, MONEY, NOTE = range(9)
PARTS = {
    "casting": "Into one casting",
    "mold": "The mold, its share of one casting",
    "piece": "Once it is good",
}
HEADS = ("what", "part", "kind", "amount", "unit", "price", "unrounded", "cost", "")
WORDS = {"casting": "hours of casting", "piece": "hours of finishing"}
MISSING = "a price is missing, and not in it"
LONGEST = 200
"""Letters of a gap: a formula takes 255 in one piece, and marks count twice."""
_NONE = Decimal(0)


@dataclass(frozen=True, slots=True)
class Written:
    """A line in the sheet.

    Parameters
    ----------
    line : CostLine
        Of the document.
    exact, money : Cell
        Unrounded, and rounded once.
    """

    line: CostLine
    exact: Cell
    money: Cell


@dataclass(frozen=True, slots=True)
class Table:
    """All lines.

    Parameters
    ----------
    rows : tuple of Written
        In their order.
    first, last : int
        Rows of the sheet that hold lines, from 0.
    casting, full : Cell
        One casting begun, one good piece.
    missing : Cell
        Says so where a price is missing.
    """

    rows: tuple[Written, ...]
    first: int
    last: int
    casting: Cell
    full: Cell
    missing: Cell


def write_lines(
    grid: Grid, sheet: CostSheet, prices: Mapping[tuple[str, ...], Cell], run: Running, units: Units
) -> Table:
    """Write every line, what practice takes off, what scrap adds, and both totals.

    Parameters
    ----------
    grid : Grid
        Filled from its row on.
    sheet : CostSheet
        The cost.
    prices : mapping
        Cells by `price_key`.
    run : Running
        Cells of the run.
    units : Units
        Of the amounts.

    Returns
    -------
    Table
    """
    lines = _Lines(grid, sheet, prices, run, units)
    grid.words(0, "What one good piece costs", "sub")
    grid.next()
    grid.heads(HEADS, "DFGH")
    lines.top = first = grid.row
    cast = [*lines.part("casting"), *lines.part("mold"), lines.practice("casting")]
    casting, _ = lines.total("one casting begun", cast, sheet.totals.casting)
    done = [*lines.part("piece"), lines.practice("piece")]
    scrap = lines.scrap(cast, done)
    full, missing = lines.total("one good piece", [*cast, *done, scrap], sheet.totals.full, casting)
    grid.next()
    return Table((*cast, *done, scrap), first, grid.row - 3, casting, full, missing)


class _Lines:
    def __init__(
        self, grid: Grid, sheet: CostSheet, prices: Mapping[tuple[str, ...], Cell], run: Running, units: Units
    ) -> None:
        self.grid, self.sheet, self.prices, self.run, self.units = grid, sheet, prices, run, units
        self.top = self.first = 0

    def part(self, stage: str) -> Iterator[Written]:
        """Lines of one part, under its heading."""
        self.grid.words(WHAT, PARTS[stage], "sub")
        self.grid.next()
        self.first = self.grid.row
        for line in self.sheet.lines:
            if line.stage == stage and is_own(line):
                yield self._line(line)

    def _line(self, line: CostLine) -> Written:
        grid, price = self.grid, self.prices[price_key(line)]
        grid.words(WHAT, line.words)
        grid.words(STAGE, line.stage, "note")
        grid.words(KIND, kind_of(line), "note")
        amount = self._amount(line)
        grid.words(UNIT, self.units.name(line.unit))
        shown = grid.formula(PRICE, f'IF({price.at}="","",{price.at})', price.value, "exact")
        shared = f"/{self.run.casts.at}" if line.stage == "mold" else ""
        known = f'IF(OR({amount.at}="",{shown.at}=""),"",{amount.at}*{shown.at}{shared})'
        return self._money(line, known, line.exact)

    def _amount(self, line: CostLine) -> Cell:
        value = self.units.amount(line.amount, line.unit)
        if kind_of(line) != "overhead":
            return self.grid.given(AMOUNT, value)
        kinds, amounts = (self._above(column, self.first) for column in (KIND, AMOUNT))
        return self.grid.formula(AMOUNT, f'SUMIFS({amounts},{kinds},"work")', value or _NONE, "number")

    def _above(self, column: int, first: int) -> str:
        """A column from a row down to the row above."""
        return f"{self.grid.place(column, first)}:{self.grid.place(column, self.grid.row - 1)}"

    def practice(self, stage: str) -> Written:
        """What practice takes off the hours of a part."""
        line, factor = self._made(f"practice-{stage}", stage), self.run.practice[stage]
        exact, stages, kinds = (self._above(column, self.top) for column in (EXACT, STAGE, KIND))
        paid = "+".join(
            f'SUMIFS({exact},{stages},"{stage}",{kinds},"{kind}")' for kind in ("work", "overhead")
        )
        self.grid.words(WHAT, f"practice, the mean of the run: {WORDS[stage]}")
        return self._money(line, f"({factor.at}-1)*({paid})", line.exact)

    def scrap(self, cast: Sequence[Written], done: Sequence[Written]) -> Written:
        """What castings that fail add."""
        line, run = self._made("scrap", "casting"), self.run
        lost, late = (f"SUM({rows[0].exact.at}:{rows[-1].exact.at})" for rows in (cast, done))
        self.grid.words(WHAT, "castings that fail")
        formula = f"({run.starts.at}-1)*({lost}+IF({run.late.at}=1,{late},0))"
        return self._money(line, formula, line.exact)

    def _made(self, key: str, stage: str) -> CostLine:
        """A line of scrap or practice; one of nothing where the document has none."""
        none = {"amount": None, "unit": "", "exact": _NONE, "money": self.grid.round(_NONE)}
        found = (line for line in self.sheet.lines if line.key == key)
        return next(found, CostLine.model_validate({"key": key, "stage": stage, "words": "", **none}))

    def _money(self, line: CostLine, formula: str, value: Decimal | None) -> Written:
        grid = self.grid
        exact = grid.formula(EXACT, formula, NOTHING if value is None else value, "exact")
        rounded = f'IF({exact.at}="","",{grid.rounded(exact.at)})'
        money = grid.formula(MONEY, rounded, NOTHING if line.money is None else line.money)
        if line.gap:
            # the word goes once the gap is filled
            told = line.gap[:LONGEST].replace('"', '""')
            missing = line.gap[:LONGEST] if exact.value == NOTHING else NOTHING
            grid.formula(NOTE, f'IF({exact.at}="","{told}","")', missing, "words", "note")
        grid.next()
        return Written(line, exact, money)

    def total(
        self, words: str, rows: Sequence[Written], value: Decimal, less: Cell | None = None
    ) -> tuple[Cell, Cell]:
        """A sum of rounded lines; a total among them is taken off again."""
        grid = self.grid
        grid.words(WHAT, words, "sum")
        for column in range(STAGE, MONEY):
            grid.words(column, "", "sum")
        moneys = f"{rows[0].money.at}:{rows[-1].money.at}"
        cell = grid.formula(MONEY, f"SUM({moneys})" + (f"-{less.at}" if less else ""), value, style="sum")
        gap = MISSING if any(not row.money.known for row in rows) else NOTHING
        note = grid.formula(
            NOTE, f'IF(SUMPRODUCT(ISTEXT({moneys})*1)=0,"","{MISSING}")', gap, "words", "note"
        )
        grid.next()
        return cell, note
