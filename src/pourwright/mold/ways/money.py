"""What a way costs, and what one cast out of it costs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.mold.ways.defaults import AMOUNTS
from pourwright.mold.ways.way import Way

HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class Prices:
    """What the shop pays; None where the job does not say.

    Parameters
    ----------
    rubber, shell : float or None
        A kilogram.
    sheet : float or None
        A sheet of board.
    hour : float or None
        An hour of work.
    """

    rubber: float | None = None
    sheet: float | None = None
    shell: float | None = None
    hour: float | None = None


@dataclass(frozen=True, slots=True)
class Cost:
    """Money of one mold; None where a price is missing.

    Parameters
    ----------
    rubber, wood, shell, work : float or None
        Of making it.
    total : float or None
        Of all that.
    each : float or None
        Share of the mold and work at it, for one cast.
    """

    rubber: float | None
    wood: float | None
    shell: float | None
    work: float | None
    total: float | None
    each: float | None


def cost_of(
    way: Way, prices: Prices, thickness: float, shell_density: float, casts: int | None = None
) -> Cost:
    """Price a way.

    Parameters
    ----------
    way : Way
        With its amounts.
    prices : Prices
        Of the job.
    thickness : float
        Of the board [m].
    shell_density : float
        Of a dry shell [kg/m3].
    casts : int, optional
        Wanted; as many as the mold gives where left out.

    Returns
    -------
    Cost
    """
    board = (way.panel_area + way.block_volume / thickness) * (1 + AMOUNTS["waste"].value)
    rubber = _times(prices.rubber, way.mixed)
    wood = _times(prices.sheet, board / AMOUNTS["sheet"].value)
    shell = _times(prices.shell, way.shell_volume * shell_density)
    work = _times(prices.hour, way.work[1] / HOUR)
    parts = (rubber, wood, shell, work)
    if any(part is None for part in parts):
        return Cost(rubber, wood, shell, work, None, None)
    total = sum(part for part in parts if part is not None)
    opening = _times(prices.hour, way.work_each[1] / HOUR) or 0.0
    return Cost(rubber, wood, shell, work, total, total * molds_per_cast(way, casts) + opening)


def molds_per_cast(way: Way, casts: int | None) -> float:
    """Molds that one cast takes: whole molds, shared among the casts that are wanted."""
    return 1 / way.life[1] if casts is None else math.ceil(casts / way.life[1]) / casts


def weight_of(way: Way, casts: int | None = None) -> float:
    """Rank a way without prices: rubber and work for one cast, both as a mass of rubber.

    Parameters
    ----------
    way : Way
        With its amounts.
    casts : int, optional
        Wanted; as many as the mold gives where left out.

    Returns
    -------
    float
        [kg] of rubber.
    """
    rate = AMOUNTS["hour_in_rubber"].value
    made = way.mixed + rate * way.work[1] / HOUR
    return made * molds_per_cast(way, casts) + rate * way.work_each[1] / HOUR


def _times(price: float | None, amount: float) -> float | None:
    """Money for an amount; nothing costs nothing, whatever its price."""
    if amount == 0:
        return 0.0
    return None if price is None else price * amount
