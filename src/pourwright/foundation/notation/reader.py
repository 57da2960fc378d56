"""From the maker's words to an exact number: fractions, feet and inches, pounds and ounces, prices."""

import itertools
import re
import unicodedata
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from functools import cache

from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import (
    CURRENCIES,
    EXAMPLES,
    UNITS,
    Dimension,
    Price,
    Quantity,
    Unit,
    spellings,
)

# digits are capped, so that no text can ask for a number that fills the memory
_WHOLE, _DECIMAL = r"(\d{1,15})", r"(\d{1,15}(?:\.\d{0,30})?(?:[eE][+-]?\d\d?)?|\.\d{1,30})"
_NUMBER = re.compile(rf"(?:(?:{_WHOLE}[ -])?{_WHOLE}/{_WHOLE}|{_DECIMAL})(?![\d.])")
_MARKS = {"'", "''", "′", '"', "″"}
_COMMA = re.compile(r"\d,\d")
_VULGAR = re.compile("[\u00bc-\u00be\u2150-\u215e]")
_MONEY = {kind for kind in Dimension if kind.name.startswith("MONEY")}
_PLAIN = str.maketrans("−⁄\u00a0\u202f”’", "-/  \"'")
_FEET_DASH = re.compile(r"(?<=['′]) ?-(?=[\d.])")


class _RefusedError(Exception):
    """Why a text cannot be read; turned into one sentence for the maker at the door."""


def parse_quantity(text: str, dimension: Dimension, *, where: str = "") -> Quantity:
    """Read a quantity in workshop notation, exactly.

    Parameters
    ----------
    text : str
        What the maker wrote, unit included.
    dimension : Dimension
        What it must be.
    where : str
        Where it stands, for the error.

    Returns
    -------
    Quantity
        SI value, rounded once

    Raises
    ------
    UserError
        When it is not that kind of quantity, or could mean two things.

    Examples
    --------
    >>> parse_quantity("3/4 in", Dimension.LENGTH).si
    0.01905
    >>> parse_quantity("12.50 EUR/kg", Dimension.MONEY_PER_MASS).currency
    'EUR'
    """
    try:
        value, currency = _read(_plain(text), dimension)
        return Quantity(float(value), dimension, text, currency)
    except _RefusedError as refusal:
        raise UserError(
            f"{text!r} is no {dimension}: {refusal}",
            where=where,
            allowed=_allowed(dimension),
            todo=f"write for example {EXAMPLES[dimension]}",
        ) from None


def _plain(text: str) -> str:
    spaced = _VULGAR.sub(lambda found: " " + unicodedata.normalize("NFKC", found[0]), text)
    return _FEET_DASH.sub(" ", " ".join(spaced.translate(_PLAIN).split()))


def _allowed(dimension: Dimension) -> str:
    money = "EUR" if dimension in _MONEY else ""
    names = ", ".join(money + name or "a bare number" for name in UNITS[dimension])
    return f"{names} (or another code of ISO 4217)" if money else names


def _read(text: str, dimension: Dimension) -> tuple[Fraction, str]:
    _refuse_comma(text)
    sign = -1 if text.startswith("-") else 1
    rest = text[1:].lstrip() if text[:1] in {"+", "-"} else text
    if dimension in _MONEY:
        amount, currency = _read_money(rest, dimension)
        return sign * amount, currency
    parts = list(_take_parts(rest, dimension))
    for (number, unit), (_, smaller) in itertools.pairwise(parts):
        if unit.offset or not smaller.name or smaller.factor >= unit.factor:
            raise _RefusedError(f"{smaller.name!r} cannot follow {unit.name!r}")
        if number.denominator != 1:
            raise _RefusedError(f"only the last part may have a fraction, {unit.name!r} has one")
    value = sum((number * unit.factor for number, unit in parts), Fraction(0)) * sign + parts[0][1].offset
    if dimension is Dimension.TEMPERATURE and value < 0:
        raise _RefusedError("that is below absolute zero")
    return value, ""


def _refuse_comma(text: str) -> None:
    if _COMMA.search(text):
        raise _RefusedError("a comma may mean thousands or decimals, so only the point is read, as in 1.5")


def _take_parts(text: str, dimension: Dimension) -> Iterator[tuple[Fraction, Unit]]:
    while True:
        number, text = _take_number(text)
        unit, text = _take_unit(text, dimension)
        yield number, unit
        if not text:
            return


def _take_number(text: str) -> tuple[Fraction, str]:
    found = _NUMBER.match(text)
    if not found:
        raise _RefusedError(f"no number at {text!r}" if text else "nothing stands there")
    whole, top, bottom, decimal = found.groups()
    if bottom and not int(bottom):
        raise _RefusedError("a fraction over zero")
    number = Fraction(decimal) if decimal else int(whole or 0) + Fraction(int(top), int(bottom))
    return number, text[found.end() :].lstrip()


@cache
def _unit_pattern(dimension: Dimension) -> re.Pattern[str]:
    longest_first = sorted(spellings(dimension), key=len, reverse=True)
    written = (re.escape(name) + (r"(?![^ \d.])" if name in _MARKS else "(?![^ ])") for name in longest_first)
    return re.compile(f"({'|'.join(written)}) ?")


def _take_unit(text: str, dimension: Dimension) -> tuple[Unit, str]:
    known = spellings(dimension)
    found = _unit_pattern(dimension).match(text)
    if found:
        return known[found[1]], text[found.end() :]
    word = text.split(" ", maxsplit=1)[0]
    if not word:
        raise _RefusedError("the unit is missing")
    if near := [name for name in known if word != name and name.lower() == word.lower()]:
        raise _RefusedError(f"the unit is written {near[0]!r}, not {word!r}")
    others = [kind for kind in Dimension if word in spellings(kind)]
    raise _RefusedError(f"{word!r} is a unit of {others[0]}" if others else f"no unit {word!r} is known")


def _read_money(text: str, dimension: Dimension) -> tuple[Fraction, str]:
    number, unit, currency = _take_money(text, dimension)
    return number * unit.factor, currency


def _take_money(text: str, dimension: Dimension) -> tuple[Fraction, Unit, str]:
    _refuse_comma(text)
    number, rest = _take_number(text)
    currency, per = rest[:3], re.sub(r"^(?: ?/ ?| per )", "/", rest[3:])
    if currency not in CURRENCIES:
        raise _RefusedError(f"no currency code at {rest!r}" if rest else "the currency is missing")
    unit, left = _take_unit(per, dimension)
    if left:
        raise _RefusedError(f"{left!r} stands after it")
    return number, unit, currency


def parse_price(text: str, dimensions: Sequence[Dimension], *, where: str = "") -> Price:
    """Read money, or money per something, without any rounding.

    Parameters
    ----------
    text : str
        What the maker wrote.
    dimensions : sequence of Dimension
        Kinds of prices it may be; MONEY is plain money.
    where : str
        Where it stands, for the error.

    Returns
    -------
    Price

    Raises
    ------
    UserError
        When it is none of them, or below zero.

    Examples
    --------
    >>> price = parse_price("30 USD/lb", [Dimension.MONEY_PER_MASS])
    >>> price.amount, price.unit, price.currency
    (Decimal('30'), 'lb', 'USD')
    """
    refusals = []
    for dimension in dimensions:
        try:
            number, unit, currency = _take_money(_plain(text), dimension)
        except _RefusedError as refusal:
            refusals.append(str(refusal))
            continue
        amount = Decimal(number.numerator) / number.denominator
        return Price(amount, currency, dimension, unit.name.removeprefix("/"), 1 / unit.factor, text)
    if text.lstrip().startswith(("-", "−")):
        raise UserError(f"{text!r} is below zero", where=where, allowed="0 or more", todo="mend the value")
    kind = dimensions[0] if len(dimensions) == 1 else "price"
    raise UserError(
        f"{text!r} is no {kind}: {refusals[0]}",
        where=where,
        allowed=", ".join(EXAMPLES[each] for each in dimensions),
        todo=f"write for example {EXAMPLES[dimensions[0]]}",
    )
