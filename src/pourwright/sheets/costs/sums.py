"""The cost once more, without what is paid already: what the least price and the break-even begin with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from pourwright.jobs.cost_sheet import Made
from pourwright.sheets.costs.givens import Running, is_own, kind_of
from pourwright.sheets.costs.grid import LETTERS, Cell, Grid
from pourwright.sheets.costs.table import EXACT, KIND, MONEY, STAGE, Table, Written

KINDS = ("thing", "work", "overhead")
ONE, NONE = Decimal(1), Decimal(0)


@dataclass(frozen=True, slots=True)
class Case:
    """What is counted in one column.

    Parameters
    ----------
    words : str
        Its head.
    mold, work, overhead : int
        1 where it is counted; things always are.
    """

    words: str
    mold: int
    work: int
    overhead: int


def cases_of(monthly: Decimal) -> Mapping[str, Case]:
    """The columns; overhead of the month is paid before a mold comes back."""
    return {
        "full": Case("all", 1, 1, 1),
        "even": Case("break-even", 0, 1, 0 if monthly else 1),
        "next": Case("next piece", 0, 1, 0),
        "bought": Case("hours unpaid", 0, 0, 0),
    }


def write_sums(grid: Grid, table: Table, run: Running, made: Made, monthly: Cell) -> Mapping[str, Cell]:
    """Write what one good piece costs, in four ways to count.

    Parameters
    ----------
    grid : Grid
        Filled from its row on.
    table : Table
        All lines.
    run : Running
        Cells of the run.
    made : Made
        Of the cost.
    monthly : Cell
        Overhead of a month.

    Returns
    -------
    mapping
        Cost of a good piece by the name of the case.
    """
    grid.words(0, "What of it is counted", "sub")
    grid.next()
    cases = cases_of(monthly.number)
    grid.heads(("", *(case.words for case in cases.values())), "BCDE")
    top = grid.row
    found = {}
    for column, (name, case) in enumerate(cases.items(), 1):
        grid.row = top
        found[name] = _Column(grid, table, run, made, column, case).write(monthly if name == "even" else None)
    grid.next()
    return found


class _Column:
    """One way to count, downwards."""

    def __init__(self, grid: Grid, table: Table, run: Running, made: Made, column: int, case: Case) -> None:
        self.grid, self.table, self.run, self.made, self.column, self.case = (
            grid,
            table,
            run,
            made,
            column,
            case,
        )

    def write(self, monthly: Cell | None) -> Cell:
        """Write it; the overhead of the break-even follows the month's."""
        flags = self._flags(monthly)
        moneys = {name: self._counted(MONEY, name, flags) for name in ("cast", "done")}
        exacts = {name: self._counted(EXACT, name, flags) for name in ("cast", "done")}
        less = {stage: self._practice(stage, flags) for stage in ("casting", "piece")}
        cast, done = (
            exacts["cast"].number + less["casting"].number,
            exacts["done"].number + less["piece"].number,
        )
        lost = (self.run.starts.number - ONE) * (cast + (done if self.made.found_finished else NONE))
        scrap = self._row(
            "castings that fail",
            f"({self.run.starts.at}-1)*({exacts['cast'].at}+{less['casting'].at}"
            f"+IF({self.run.late.at}=1,{exacts['done'].at}+{less['piece'].at},0))",
            lost, "exact",
        )  # fmt: skip
        rounded = [less["casting"], less["piece"], scrap]
        text = "+".join(
            [*(cell.at for cell in moneys.values()), *(self.grid.rounded(cell.at) for cell in rounded)]
        )
        value = sum((cell.number for cell in moneys.values()), NONE) + sum(
            (self.grid.round(cell.number) for cell in rounded), NONE
        )
        return self._row("one good piece", text, value, "money", "sum")

    def _flags(self, monthly: Cell | None) -> dict[str, Cell]:
        flags = {}
        for name in ("mold", "work", "overhead"):
            value = Decimal(getattr(self.case, name))
            text = f"{value}" if monthly is None or name != "overhead" else f"IF({monthly.at}>0,0,1)"
            flags[name] = self._row(f"{name} counted", text, value, "whole")
        return flags

    def _row(self, words: str, text: str, value: Decimal, kind: str, style: str = "") -> Cell:
        if self.column == 1:
            self.grid.words(0, words, style)
        cell = self.grid.formula(self.column, text, value, kind, style)
        self.grid.next()
        return cell

    def _counted(self, column: int, part: str, flags: Mapping[str, Cell]) -> Cell:
        """Sum of the lines of castings, with the mold's, or of finishing."""
        stage = "casting" if part == "cast" else "piece"
        texts = [f"{flag}*{self._sumifs(column, stage, kind)}" for kind, flag in self._weights(flags)]
        value = sum(
            (cell.number * self._sum(column, stage, kind) for kind, cell in self._values(flags)), NONE
        )
        if part == "cast":
            texts += [f'{flags["mold"].at}*SUMIFS({self._all(column)},{self._all(STAGE)},"mold")']
            value += flags["mold"].number * sum((self._sum(column, "mold", kind) for kind in KINDS), NONE)
        said = "rounded lines" if column == MONEY else "unrounded lines"
        kind = "money" if column == MONEY else "exact"
        return self._row(
            f"{said}, {'castings' if part == 'cast' else 'finishing'}", "+".join(texts), value, kind
        )

    def _practice(self, stage: str, flags: Mapping[str, Cell]) -> Cell:
        factor = self.run.practice[stage]
        paid = [(kind, flag) for kind, flag in self._weights(flags) if kind != "thing"]
        text = "+".join(f"{flag}*{self._sumifs(EXACT, stage, kind)}" for kind, flag in paid)
        value = sum(
            (
                cell.number * self._sum(EXACT, stage, kind)
                for kind, cell in self._values(flags)
                if kind != "thing"
            ),
            NONE,
        )
        return self._row(
            f"practice, {'castings' if stage == 'casting' else 'finishing'}",
            f"({factor.at}-1)*({text})", (factor.number - ONE) * value, "exact",
        )  # fmt: skip

    def _weights(self, flags: Mapping[str, Cell]) -> list[tuple[str, str]]:
        return [("thing", "1"), ("work", flags["work"].at), ("overhead", flags["overhead"].at)]

    def _values(self, flags: Mapping[str, Cell]) -> list[tuple[str, Cell]]:
        return [("thing", Cell("", ONE)), ("work", flags["work"]), ("overhead", flags["overhead"])]

    def _all(self, column: int) -> str:
        return f"${LETTERS[column]}${self.table.first + 1}:${LETTERS[column]}${self.table.last + 1}"

    def _sumifs(self, column: int, stage: str, kind: str) -> str:
        return f'SUMIFS({self._all(column)},{self._all(STAGE)},"{stage}",{self._all(KIND)},"{kind}")'

    def _sum(self, column: int, stage: str, kind: str) -> Decimal:
        cell_of: Callable[[Written], Cell] = (
            (lambda row: row.money) if column == MONEY else (lambda row: row.exact)
        )
        return sum(
            (
                cell_of(row).number
                for row in self.table.rows
                if is_own(row.line) and row.line.stage == stage and kind_of(row.line) == kind
            ),
            NONE,
        )
