"""Numbers with their words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from pourwright.app.answering.document import Cell, Head, Height, Number, Table
from pourwright.app.setup import Setup
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    System,
    format_area,
    format_duration,
    format_force,
    format_length,
    format_mass,
    format_pressure,
    format_share,
    format_temperature,
    format_volume,
)
from pourwright.geometry import PourFrame
from pourwright.mold import MoldResult

WORDS: dict[str, Callable[[float, System], str]] = {
    "m": format_length,
    "m2": format_area,
    "m3": format_volume,
    "kg": format_mass,
    "N": format_force,
    "Pa": format_pressure,
    "share": lambda share, _system: format_share(share),
    "count": lambda count, _system: f"{count:g}",
    "h": lambda hours, _system: format_duration(hours * 3600),
}
"""How a number is written, by the unit at the end of its key."""


def unit_of(key: str) -> str:
    """Give the unit at the end of a key.

    Parameters
    ----------
    key : str
        As in ``volume_m3``.

    Returns
    -------
    str

    Examples
    --------
    >>> unit_of("rubber_mixed_kg"), unit_of("bottles_count")
    ('kg', 'count')
    """
    return key.rpartition("_")[2]


def number(key: str, label: str, value: float, system: System, note: str = "") -> Number:
    """Write a number.

    Parameters
    ----------
    key : str
        Name with its unit.
    label : str
        Beside it.
    value : float
        SI.
    system : UnitSystem
        Of its text.
    note : str
        What to know of it.

    Returns
    -------
    Number

    Examples
    --------
    >>> number("glass_kg", "glass", 1.5, "metric").text
    '1.50 kg'
    """
    return Number(key=key, label=label, value=value, text=WORDS[unit_of(key)](value, system), note=note)


def in_degrees_of(system: System, text: str) -> str:
    """Write the temperatures that stand in the words of a record in other units.

    Parameters
    ----------
    system : UnitSystem
        Wanted.
    text : str
        As a record has it, its temperatures in ``degC``.

    Returns
    -------
    str

    Examples
    --------
    >>> in_degrees_of("us", "1 kg in a pail at 23 degC")
    '1 kg in a pail at 73 °F'
    """

    def written(found: re.Match[str]) -> str:
        return format_temperature(float(found[1]) + ZERO_CELSIUS, system)

    return re.sub(r"(-?\d+(?:\.\d+)?) ?(?:degC|°C)", written, text)


def size_text(sides: Iterable[float], system: System) -> str:
    """Write the sides of a box.

    Parameters
    ----------
    sides : iterable of float
        [m]
    system : UnitSystem
        Of the text.

    Returns
    -------
    str

    Examples
    --------
    >>> size_text((0.3, 0.2), "metric")
    '300 mm x 200 mm'
    """
    return " x ".join(format_length(side, system) for side in sides)


def cell(value: float | str | None, text: str | None = None) -> Cell:
    """Write a cell; a word is its own text."""
    return Cell(value=value, text=str(value) if text is None else text)


def measured(key: str, value: float, system: System) -> Cell:
    """Write a number in a cell, by the unit of its column."""
    return Cell(value=value, text=WORDS[unit_of(key)](value, system))


def table(key: str, caption: str, heads: Iterable[tuple[str, str]], rows: Iterable[list[Cell]]) -> Table:
    """Put a table together; heads are keys with their labels."""
    named = [Head(key=name, label=label) for name, label in heads]
    return Table(key=key, caption=caption, heads=named, rows=list(rows))


def height_of(setup: Setup, poured: float) -> Height:
    """Write a height in every reading.

    Parameters
    ----------
    setup : Setup
        Frame, rim and units.
    poured : float
        Up from the mold's floor [m].

    Returns
    -------
    Height
    """
    return height_in(setup.piece.frame, setup.mold, poured, setup.system)


def height_in(frame: PourFrame, mold: MoldResult, poured: float, system: System) -> Height:
    """Write a height in every reading; arguments as of `height_of`."""
    standing = max(frame.as_standing(poured), 0.0) if frame.upright else None
    dip = max(mold.rim - poured, 0.0)
    return Height(
        m=poured,
        text=format_length(poured, system),
        standing_m=standing,
        standing_text="" if standing is None else format_length(standing, system),
        dip_m=dip,
        dip_text=format_length(dip, system),
    )
