"""As many half days as the orders of a list need."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.line.dates.asked import Line, Order
from pourwright.line.dates.dispatch import dispatch
from pourwright.line.dates.halves import halves_of
from pourwright.line.dates.route import Route
from pourwright.planner.hours import WorkingHours

FEWEST, MOST = 120, 960
SLACK = 2.5
"""Many months are worked through: the slowest take this many times the planned one."""
Asked = tuple[str, int, int, date]
"""Name, product, count and wanted day of an order."""


def line_of(
    hours: WorkingHours, first: datetime, people: int, routes: Sequence[Route], asked: Sequence[Asked]
) -> Line:
    """Set up a line that is long enough for all its orders.

    Parameters
    ----------
    hours : WorkingHours
        Of the shop.
    first : datetime
        Nothing is done before.
    people : int
        That work at once.
    routes : sequence of Route
        Products.
    asked : sequence of (str, int, int, date)
        Name, product, count and wanted day.

    Returns
    -------
    Line

    Raises
    ------
    UserError
        For a product whose pours never fall into working hours, and for orders that take years.
    """
    count = FEWEST
    while count <= MOST:
        halves = halves_of(hours, first, count)
        orders = tuple(
            Order(name, product, number, halves.after_day(by)) for name, product, number, by in asked
        )
        line = Line(halves, people, routes, orders)
        _refuse_impossible(line)
        last = max(int(np.max(each.last)) for each in dispatch(line))
        if SLACK * last < count:
            return line
        count *= 2
    raise UserError(
        f"these orders take longer than {MOST / SLACK / 2:.0f} working days",
        todo="take fewer pieces, more molds or more people",
    )


def _refuse_impossible(line: Line) -> None:
    for castings in line.castings:
        if not castings.possible.any():
            raise UserError(
                f"no casting of {castings.route.name} has all its pours in working hours",
                todo="plan the job with the working hours of this list, or mend hours and working_days",
            )
