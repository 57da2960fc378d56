"""A sheet of a workbook that is filled row by row, each formula with its value beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from pourwright.foundation.notation import minor_digits, rounded_money

Value = Decimal | str
LETTERS = "ABCDEFGHIJKLMNOP"
NOTHING = ""
"""What an unknown cell shows; sums leave it out."""
_INK, _GREY, _LINE, _MARKED = "#1a1a1a", "#5f5f5f", "#b9b4a8", "#fdf3d0"


@dataclass(frozen=True, slots=True)
class Cell:
    """A place in the sheet and what it shows.

    Parameters
    ----------
    at : str
        As ``$B$7``.
    value : Decimal or str
        A number, or words; `NOTHING` where it is not known.
    """

    at: str
    value: Value

    @property
    def number(self) -> Decimal:
        """Its number; 0 where it has none, as a sum takes it."""
        return self.value if isinstance(self.value, Decimal) else Decimal(0)

    @property
    def known(self) -> bool:
        """Whether it has a number."""
        return isinstance(self.value, Decimal)


class Grid:
    """One sheet.

    Parameters
    ----------
    book, sheet : Any
        Of the library.
    currency : str
        ISO 4217 code: its smallest coin is what money is rounded to.
    """

    def __init__(self, book: Any, sheet: Any, currency: str) -> None:
        self._sheet, self._formats, self._book = sheet, dict[tuple[str, str], Any](), book
        self.currency, self.digits, self.row = currency, minor_digits(currency), 0

    def round(self, amount: Decimal) -> Decimal:
        """To the smallest coin, as the formula `rounded` does."""
        return rounded_money(amount, self.currency)

    def rounded(self, formula: str) -> str:
        """Formula of an amount rounded to the smallest coin, half a coin up."""
        return f"ROUND({formula},{self.digits})"

    def place(self, column: int, row: int | None = None) -> str:
        """A fixed place, of the row that is being filled where none is named."""
        return f"${LETTERS[column]}${(self.row if row is None else row) + 1}"

    def words(self, column: int, text: str, style: str = "", kind: str = "words") -> Cell:
        """Write words; nothing in them is taken for a formula."""
        self._sheet.write_string(self.row, column, text, self._format(style, kind))
        return Cell(self.place(column), text)

    def given(self, column: int, value: Value | None, kind: str = "number") -> Cell:
        """Write something that may be changed; None leaves a marked gap."""
        return self._write(column, value, self._format("given", kind))

    def fixed(self, column: int, value: Value | None, kind: str = "number") -> Cell:
        """Write something that belongs to the rows around it."""
        return self._write(column, value, self._format("", kind))

    def formula(
        self,
        column: int,
        text: str,
        value: Value,
        kind: str = "money",
        style: str = "",
        row: int | None = None,
    ) -> Cell:
        """Write a formula with its value, which a reader that reckons nothing shows."""
        shown = float(value) if isinstance(value, Decimal) else value
        line = self.row if row is None else row
        self._sheet.write_formula(line, column, f"={text}", self._format(style, kind), shown)
        return Cell(self.place(column, row), value)

    def heads(self, titles: Sequence[str], numbers: str = "") -> None:
        """Write the heads of a table; those of the columns named by their letters stand to the right."""
        for column, title in enumerate(titles):
            self.words(column, title, "head", "right" if LETTERS[column] in numbers else "words")
        self.next()

    def next(self, rows: int = 1) -> None:
        """Go on further down."""
        self.row += rows

    def _write(self, column: int, value: Value | None, form: Any) -> Cell:
        if value is None:
            self._sheet.write_blank(self.row, column, None, form)
        elif isinstance(value, str):
            self._sheet.write_string(self.row, column, value, form)
        else:
            self._sheet.write_number(self.row, column, float(value), form)
        return Cell(self.place(column), NOTHING if value is None else value)

    def _format(self, style: str, kind: str) -> Any:
        known = self._formats.get((style, kind))
        if known is None:
            known = self._book.add_format({**self._numbers(kind), **_STYLES[style]})
            self._formats[style, kind] = known
        return known

    def _numbers(self, kind: str) -> dict[str, Any]:
        places = f".{'0' * self.digits}" if self.digits else ""
        shown = {"money": f"#,##0{places}", "exact": f"#,##0{places or '.'}00##"} | _NUMBERS
        return {"num_format": shown[kind], **_SIDES.get(kind, {})}


_NUMBERS = {"number": "#,##0.####", "share": "0.0#%", "whole": "0", "words": "@", "right": "@"}
_SIDES: Mapping[str, Mapping[str, Any]] = {
    "words": {"align": "left", "indent": 1},
    "right": {"align": "right"},
}
_STYLES: Mapping[str, Mapping[str, Any]] = {
    "": {"font_color": _INK},
    "title": {"font_color": _INK, "bold": True, "font_size": 16},
    "sub": {"font_color": _INK, "bold": True, "font_size": 12},
    "head": {"font_color": _GREY, "bottom": 1, "font_size": 9},
    "note": {"font_color": _GREY, "font_size": 9},
    "sum": {"font_color": _INK, "bold": True, "top": 1},
    "given": {"font_color": _INK, "bg_color": _MARKED, "border": 1, "border_color": _LINE},
}
"""By name: what may be changed is marked by its ground and its frame."""
