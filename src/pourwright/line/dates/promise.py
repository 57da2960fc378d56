"""Dates that hold so often: many months with failed castings, slower curing and slower work."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from pourwright.line.dates.asked import Line
from pourwright.line.dates.best import best_dates
from pourwright.line.dates.dispatch import Dated, Luck, dispatch
from pourwright.line.defaults import LINE

MONTHS = 2000
FEW_SECONDS = 5.0


@dataclass(frozen=True, slots=True)
class Promise:
    """What can be promised for an order.

    Parameters
    ----------
    slot : int or None
        Half day by whose evening all is ready, often enough; None where that is later than all half days.
    holds : float
        Share of the months in which it is [-].
    in_time : float
        Share of the months in which it is ready by the wanted day [-].
    """

    slot: int | None
    holds: float
    in_time: float


@dataclass(frozen=True, slots=True)
class Remedy:
    """What would make an order ready in time.

    Parameters
    ----------
    molds, people : int
        More than there are.
    slot : int or None
        Half day that could then be promised.
    in_time : float
        Share of the months in which the wanted day holds then [-].
    """

    molds: int
    people: int
    slot: int | None
    in_time: float


def months_of(
    line: Line,
    turns: Sequence[int],
    *,
    months: int = MONTHS,
    seed: int = 0,
    pace: float = LINE["pace"].value,
) -> list[Dated]:
    """Work many months through.

    Parameters
    ----------
    line : Line
        What is asked.
    turns : sequence of int
        Order of every casting.
    months : int
        How many.
    seed : int
        Of the random numbers.
    pace : float
        Relative deviation of a month's hours of work [-].

    Returns
    -------
    list of Dated
        By order.

    Notes
    -----
    In each month all hours are longer or shorter by one factor; each casting fails, or cures longer or
    shorter, on its own. A casting that fails is begun again once it is out of its mold.
    """
    lots = np.random.default_rng([seed, 1])
    paces = np.exp(lots.normal(0.0, pace, months))
    return dispatch(line, turns, Luck(paces, seed=int(lots.integers(2**31))))


def promises(line: Line, lived: Sequence[Dated], kept: float) -> list[Promise]:
    """Say by when each order is ready in a share of the months.

    Parameters
    ----------
    line : Line
        What is asked.
    lived : sequence of Dated
        From `months_of`.
    kept : float
        That share [-].

    Returns
    -------
    list of Promise
        The first evening by which it is; whole days: a date holds a little more often than was asked.
    """
    return [
        _promise(line, each.last, order.due, kept) for each, order in zip(lived, line.orders, strict=True)
    ]


def _promise(line: Line, last: npt.NDArray[np.int64], due: int, kept: float) -> Promise:
    count = len(line.halves)
    slot = int(np.quantile(last, kept, method="inverted_cdf"))
    in_time = float(np.mean(last < due)) if due <= count else 1.0
    if slot >= count:
        return Promise(None, 0.0, in_time)
    evening = line.halves.after_day(line.halves.day(slot)) - 1
    return Promise(evening, float(np.mean(last <= evening)), in_time)


def remedies(line: Line, late: Sequence[int], kept: float) -> dict[int, list[Remedy]]:
    """Try what would make orders ready in time: one mold more, one person more, both.

    Parameters
    ----------
    line : Line
        What is asked.
    late : sequence of int
        Positions of the orders that are late.
    kept : float
        Share of the months in which a date is to hold [-].

    Returns
    -------
    dict
        All three for each of them.
    """
    found: dict[int, list[Remedy]] = {order: [] for order in late}
    for molds, people in ((1, 0), (0, 1), (1, 1)):
        # one person more is the same for every product
        for product in sorted(
            {line.orders[order].product for order in late} if molds else {-1} if late else ()
        ):
            promised = _with_more(line, product, people, kept)
            for order in late:
                if product in (-1, line.orders[order].product):
                    one = promised[order]
                    found[order].append(Remedy(molds, people, one.slot, one.in_time))
    return found


def _with_more(line: Line, product: int, people: int, kept: float) -> list[Promise]:
    routes = [replace(route, molds=route.molds + (at == product)) for at, route in enumerate(line.routes)]
    other = Line(line.halves, line.people + people, routes, line.orders)
    return promises(other, months_of(other, best_dates(other, seconds=FEW_SECONDS).turns), kept)
