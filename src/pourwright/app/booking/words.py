"""How the book calls what was entered, and how it writes values and amounts."""

from __future__ import annotations

from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    System,
    format_area,
    format_length,
    format_mass,
    format_temperature,
)
from pourwright.records import KINDS

KIND_WORDS: dict[str, str] = {
    "weigh_a": "A weighed",
    "weigh_b": "B weighed",
    "mixed": "mixed",
    "poured": "poured",
    "caught": "found beside the mold",
    "topped_up": "topped up",
    "clung": "left on face, funnel and stick",
    "level": "level",
    "no_level": "level: cannot be read",
    "temperature": "temperature",
    "gel": "gelled",
    "bubbles": "bubbles",
    "note": "note",
    "photo": "photo",
    "step": "done",
    "demolded": "out of the mold",
    "size": "measured",
    "water": "water in the mold",
    "water_level": "its level",
    "crushed": "glass crushed",
    "sieved": "glass sieved",
    "rubber_a": "rubber, A weighed",
    "rubber_b": "rubber, B weighed",
    "mold_made": "the mold is made",
}


def shown_value(kind: str, value: float | None, system: System) -> str:
    """Write a value in the maker's unit.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    value : float or None
        In the unit of its kind.
    system : UnitSystem
        Of the words.

    Returns
    -------
    str
        Empty where there is none.

    Examples
    --------
    >>> shown_value("poured", 2.4, "metric"), shown_value("temperature", 31.0, "metric")
    ('2.40 kg', '31.0 °C')
    """
    if value is None:
        return ""
    unit = KINDS[kind]
    if unit == "kg":
        return ("−" if value < 0 else "") + format_mass(abs(value), system)
    if unit == "m":
        return format_length(value, system)
    return format_temperature(value + ZERO_CELSIUS, system, digits=1)


def shown_amount(amount: float, unit: str, system: System) -> str:
    """Write an amount of stock.

    Parameters
    ----------
    amount : float
        In the unit; a move may be less than nothing.
    unit : str
        ``kg``, ``m2``, ``pieces`` or ``casts``.
    system : UnitSystem
        Of the words.

    Returns
    -------
    str

    Examples
    --------
    >>> shown_amount(-1.5, "kg", "metric"), shown_amount(12.0, "pieces", "metric")
    ('−1.50 kg', '12 pieces')
    """
    sign, size = ("−" if amount < 0 else ""), abs(amount)
    if unit == "kg":
        return sign + format_mass(size, system)
    return sign + (format_area(size, system) if unit == "m2" else f"{size:g} {unit}")
