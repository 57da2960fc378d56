"""What the title of a logger's column says: its unit, its name, whether it is the shop's air."""

from __future__ import annotations

import re

_AIR = re.compile(r"\b(air|ambient|room|shop|luft|outside|internal|int)", re.IGNORECASE)
_CELSIUS = re.compile(r"(°|deg\.? ?|º|�|\(|\[|_)\s?c\b|celsius", re.IGNORECASE)
_FAHRENHEIT = re.compile(r"(°|deg\.? ?|º|�|\(|\[|_)\s?f\b|fahrenheit", re.IGNORECASE)
_UNIT = re.compile(r"\s*[(\[,_]?\s*(?:(?:°|º|�|deg\.?)\s?[CF]|celsius|fahrenheit)\b\s*[)\]]?", re.IGNORECASE)


def unit_of(title: str) -> str | None:
    """Find the unit of temperature in the title of a column: degC, degF, or None.

    Parameters
    ----------
    title : str
        Of the column.

    Returns
    -------
    str or None

    Examples
    --------
    >>> unit_of("Core (°F)"), unit_of("Core, deg C"), unit_of("Core")
    ('degF', 'degC', None)
    """
    if _FAHRENHEIT.search(title):
        return "degF"
    return "degC" if _CELSIUS.search(title) else None


def name_of(title: str) -> str:
    """Give the name in the title of a column, without its unit.

    Parameters
    ----------
    title : str
        Of the column.

    Returns
    -------
    str

    Examples
    --------
    >>> name_of("Core [°C]"), name_of("T2 (deg F)"), name_of("°C")
    ('Core', 'T2', '')
    """
    return _UNIT.sub("", title).strip(" \"'")


def is_of_air(title: str) -> bool:
    """Tell whether a column is that of the shop's air, by its title.

    Parameters
    ----------
    title : str
        Of the column.

    Returns
    -------
    bool

    Examples
    --------
    >>> is_of_air("Room [°C]"), is_of_air("Core [°C]")
    (True, False)
    """
    return _AIR.search(title) is not None
