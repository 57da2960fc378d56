"""Numbers, money and places of a cost as the page says them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from pourwright.foundation.notation import UnitSystem, format_amount, rounded_money
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.sheets.wording import Wording

US_UNITS = {"kg": ("lb", Dimension.MASS, "lb"), "m2": ("ft²", Dimension.AREA, "ft2")}
NAMES = {"m2": "m²", "piece": ""}
DIGITS = Decimal("0.0001")
"""Finer than any amount or price in a list."""
_IN_LIST = re.compile(r"^(?P<file>[^:]+):(?P<line>\d+)(?: (?P<key>.*))?$")


@dataclass(frozen=True)
class Told:
    """Says numbers and money of one cost.

    Parameters
    ----------
    sheet : CostSheet
        The cost.
    listed : str
        Name of the price list whose lines the page shows; empty where it shows none.
    """

    sheet: CostSheet
    listed: str = ""

    @cached_property
    def words(self) -> Wording:
        """The maker's units."""
        return Wording(self.sheet.job)

    @cached_property
    def anchors(self) -> Mapping[str, str]:
        """Where each line stands on the page, by its key."""
        return {line.key: f"cost-{at}" for at, line in enumerate(self.sheet.lines, start=1)}

    def money(self, amount: Decimal, *, code: bool = False) -> str:
        """Write money, with its currency where asked for."""
        return format_amount(amount, self.sheet.currency, self.words.system, code=code)

    def signed(self, amount: Decimal) -> str:
        """Write money that is more or less than before."""
        return f"+{self.money(amount)}" if amount > 0 else self.money(amount)

    def rounded(self, money: Decimal) -> str:
        """Write money, and what it was before it was rounded where that is more."""
        coins, whole = self.money(money, code=True), decimals(money)
        if whole == decimals(rounded_money(money, self.sheet.currency)):
            return coins
        return f"{whole}, rounded {coins}"

    def amount(self, value: float, unit: str) -> str:
        """Write an amount in the maker's units, rounded for reading."""
        if unit == "m2":
            return self.words.area(value)
        if unit == "h/m2":
            return f"{self.words.duration(value)} for a square metre"
        if unit == "":
            return self.words.share(value)
        if unit in {"piece", "kWh"}:
            return self.exact(value, unit)
        return self.words.told(value, unit)

    def fine(self, value: float, unit: str) -> str:
        """Write an amount as finely as the plan has it; times stay hours and minutes."""
        return self.exact(value, unit) if unit == "kg" else self.amount(value, unit)

    def exact(self, value: float, unit: str) -> str:
        """Write an amount as a decimal number, to be checked by hand."""
        name, size = self._unit(unit)
        return f"{decimals(Decimal(repr(value)) / size)} {name}".rstrip()

    def rate(self, money: Decimal, unit: str) -> str:
        """Write what one of a line's units costs [money for one SI unit of the line]."""
        name, size = self._unit(unit)
        each = money * size
        coins = rounded_money(each, self.sheet.currency)
        number = self.money(coins) if decimals(each) == decimals(coins) else decimals(each)
        return f"{number} {self.sheet.currency}{f'/{name}' if name else ''}"

    def _unit(self, unit: str) -> tuple[str, Decimal]:
        if self.words.system is UnitSystem.US and unit in US_UNITS:
            name, dimension, key = US_UNITS[unit]
            return name, Decimal(repr(float(UNITS[dimension][key].factor)))
        return NAMES.get(unit, unit), Decimal(1)

    def place(self, text: str) -> dict[str, str]:
        """Say where a number of a price list stands, and lead to its line where the page shows it."""
        found = _IN_LIST.match(text)
        if found is None:
            return {"text": text, "to": ""}
        key = f", {found['key']}" if found["key"] else ""
        to = f"#row-{found['line']}" if found["file"] == self.listed else ""
        return {"text": f"{found['file']}, line {found['line']}{key}", "to": to}


def decimals(number: Decimal) -> str:
    """Write a number with at most four decimals, none of them for show.

    Examples
    --------
    >>> decimals(Decimal("13.2950")), decimals(Decimal("2")), decimals(Decimal("0.66666"))
    ('13.295', '2', '0.6667')
    """
    text = f"{number.quantize(DIGITS):f}"
    return text.rstrip("0").rstrip(".")
