"""The same quantity in the units that were not written: mm beside inches, °F beside °C, pounds beside kg."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache
from types import MappingProxyType

from pourwright.foundation.notation import (
    UnitSystem,
    format_density,
    format_fine_length,
    format_length,
    format_mass,
    format_money,
    format_share,
    format_temperature,
    format_volume,
)
from pourwright.foundation.quantities import UNITS, Dimension, Quantity, spellings

_US_UNITS = frozenset(
    {*"in ft oz lb degF quart gallon lb/ft3 /lb /oz /quart /gallon".split(), "fl oz", "/fl oz"}
)
# half of a sixteenth of an inch, and of a hundredth of a millimetre: nearer than that nothing is lost
_LEAST_INCH = 0.0254 / 16
_EXACT = 1e-9


def other_of(quantity: Quantity) -> str:
    """Write a quantity in the units that its text does not use.

    Parameters
    ----------
    quantity : Quantity
        As read.

    Returns
    -------
    str
        "" for what is the same everywhere; "about" before what is rounded.

    Examples
    --------
    >>> from pourwright.foundation.notation import parse_quantity
    >>> other_of(parse_quantity("3/4 in", Dimension.LENGTH))
    '19.05 mm'
    >>> other_of(parse_quantity("20 mm", Dimension.LENGTH))
    'about 13/16 in'
    """
    write = _WRITERS.get(quantity.dimension)
    if write is None:
        return ""
    system = UnitSystem.METRIC if is_us(quantity) else UnitSystem.US
    return write(quantity, system)


def is_us(quantity: Quantity) -> bool:
    """Tell whether a quantity is written in inches, pounds, Fahrenheit or gallons.

    Parameters
    ----------
    quantity : Quantity
        As read.

    Returns
    -------
    bool
    """
    return bool(_us_words(quantity.dimension).search(quantity.text))


@cache
def _us_words(dimension: Dimension) -> re.Pattern[str]:
    words = [word for word, unit in spellings(dimension).items() if unit.name in _US_UNITS]
    longest = [re.escape(word.removeprefix("/")) for word in sorted(words, key=len, reverse=True)]
    if not longest:
        return _NOTHING
    before = "(?:per |/ ?)" if words[0].startswith("/") else "(?<![A-Za-z°])"
    return re.compile(rf"{before}(?:{'|'.join(longest)})(?![A-Za-z])")


_NOTHING = re.compile(r"(?!)")


def _about(text: str, si: float, back: float) -> str:
    return text if abs(back - si) <= _EXACT * max(abs(si), 1.0) else f"about {text}"


def _length(quantity: Quantity, system: UnitSystem) -> str:
    si = quantity.si
    if system is UnitSystem.METRIC:
        digits = next((n for n in (0, 1, 2) if _is_round(1000 * si, n)), 2)
        return format_length(si, system, digits=digits)
    if 0 < abs(si) < _LEAST_INCH:
        return f"about {format_fine_length(si, system)}"
    sixteenth = _LEAST_INCH * round(si / _LEAST_INCH)
    return _about(format_length(si, system), si, sixteenth)


def _is_round(number: float, digits: int) -> bool:
    return abs(number - round(number, digits)) < 10.0**-digits * 1e-6


def _temperature(quantity: Quantity, system: UnitSystem) -> str:
    unit = UNITS[Dimension.TEMPERATURE]["degF" if system is UnitSystem.US else "degC"]
    degrees = (quantity.si - float(unit.offset)) / float(unit.factor)
    return format_temperature(quantity.si, system, digits=0 if _is_round(degrees, 0) else 1)


def _per_amount(quantity: Quantity, system: UnitSystem) -> str:
    mass = quantity.dimension is Dimension.MONEY_PER_MASS
    us, metric = ("/lb", "/kg") if mass else ("/gallon", "/l")
    name = us if system is UnitSystem.US else metric
    factor = float(UNITS[quantity.dimension][name].factor)
    return f"{format_money(quantity.si / factor, quantity.currency)}{name}"


def _plain(write: Callable[[float, UnitSystem], str]) -> Callable[[Quantity, UnitSystem], str]:
    def told(quantity: Quantity, system: UnitSystem) -> str:
        text = write(quantity.si, system)
        # less than the other system's smallest step is better not told than told as nothing
        return "" if quantity.si and text.startswith("0 ") else text

    return told


_WRITERS: Mapping[Dimension, Callable[[Quantity, UnitSystem], str]] = MappingProxyType(
    {
        Dimension.LENGTH: _length,
        Dimension.MASS: _plain(format_mass),
        Dimension.VOLUME: _plain(format_volume),
        Dimension.TEMPERATURE: _temperature,
        Dimension.DENSITY: _plain(format_density),
        Dimension.SHARE: lambda quantity, _: format_share(
            quantity.si, digits=next((n for n in (0, 1, 2) if _is_round(100 * quantity.si, n)), 2)
        ),
        Dimension.MONEY_PER_MASS: _per_amount,
        Dimension.MONEY_PER_VOLUME: _per_amount,
    }
)
