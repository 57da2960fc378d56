"""Marks of an axis, at round numbers of the maker's own unit."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import datetime

from pourwright.app.charting.chart import Tick
from pourwright.foundation.notation import DAYS, MONTHS, UnitSystem, format_clock
from pourwright.sheets.axes import nice_step, time_ticks

HOUR_STEPS = (1, 2, 6, 12, 24, 48, 96, 240, 720)
MOST_HOURS = 12
WIDE = 700.0
"""Room that days are laid out for; a narrower screen leaves marks out."""


def round_ticks(
    low: float, high: float, most: int, shown: Callable[[float], float], plain: Callable[[float], float]
) -> tuple[Tick, ...]:
    """Mark an axis at round numbers.

    Parameters
    ----------
    low, high : float
        Ends, in the plan's unit.
    most : int
        No more steps than this.
    shown, plain : callable
        From the plan's unit to the maker's, and back.

    Returns
    -------
    tuple of Tick
        From below ``low`` to above ``high``; their words are bare numbers.

    Examples
    --------
    >>> [tick.words for tick in round_ticks(0.0, 0.35, 4, lambda m: m * 1000, lambda mm: mm / 1000)]
    ['0', '100', '200', '300', '400']
    """
    first, last = shown(low), shown(high)
    step = nice_step(max(last - first, 1e-9), most)
    places = range(math.floor(first / step + 1e-9), math.ceil(last / step - 1e-9) + 1)
    return tuple(Tick(plain(place * step), f"{place * step:.10g}") for place in places)


def day_ticks(first: datetime, low: float, high: float, system: UnitSystem) -> tuple[Tick, ...]:
    """Mark an axis of hours at the shop's days, and at every sixth hour where it is short.

    Parameters
    ----------
    first : datetime
        Hour zero, on the shop's clock.
    low, high : float
        Ends of the axis [h].
    system : UnitSystem
        How the shop's clock is read.

    Returns
    -------
    tuple of Tick
        In order; a day is strong.
    """
    return tuple(
        Tick(
            tick.hours, day_words(tick.moment) if tick.major else hour_words(tick.moment, system), tick.major
        )
        for tick in time_ticks(first, (low, high), WIDE)
    )


def hour_ticks(low: float, high: float) -> tuple[Tick, ...]:
    """Mark an axis of hours at even hours: quarters of a day, days or many days.

    Parameters
    ----------
    low, high : float
        Ends [h].

    Returns
    -------
    tuple of Tick
        At most a dozen, inside the ends.

    Examples
    --------
    >>> [tick.words for tick in hour_ticks(0.0, 100.0)]
    ['0', '12', '24', '36', '48', '60', '72', '84', '96']
    """
    step = next((each for each in HOUR_STEPS if high - low <= MOST_HOURS * each), HOUR_STEPS[-1])
    places = range(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1)
    return tuple(Tick(float(place * step), f"{place * step}") for place in places)


def day_words(moment: datetime) -> str:
    """Name a day: ``Tue 1 Dec``."""
    return f"{DAYS[moment.weekday()]} {moment.day} {MONTHS[moment.month - 1]}"


def hour_words(moment: datetime, system: UnitSystem) -> str:
    """Name an hour: ``18:00`` or ``6 pm``."""
    return format_clock(moment, system).replace(":00 ", " ")
