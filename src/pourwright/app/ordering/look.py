"""All that dates and purchases of an order list are told from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cached_property
from pathlib import Path
from zoneinfo import ZoneInfo

from pourwright.app.ordering.product import Made, products_of
from pourwright.app.ordering.route import entries_of, route_of
from pourwright.app.pricing.look import Entry
from pourwright.app.setup import working_hours
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.orders import OrderList
from pourwright.jobs.orders_loading import load_orders
from pourwright.jobs.plan import JobInfo
from pourwright.line.dates.asked import Line
from pourwright.line.dates.best import Dates, best_dates
from pourwright.line.dates.room import line_of
from pourwright.line.dates.route import Route
from pourwright.line.defaults import LINE
from pourwright.planner.hours import WorkingHours

DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
HOUR = timedelta(hours=1)


@dataclass(frozen=True)
class OrderLook:
    """An order list with its products.

    Parameters
    ----------
    orders : OrderList
        As it was read.
    made : tuple of Made
        Products, in their order.
    now : datetime
        Aware.
    """

    orders: OrderList
    made: tuple[Made, ...]
    now: datetime

    @property
    def first(self) -> JobInfo:
        """What the first product's plan says of the shop."""
        return self.made[0].plan.job

    @property
    def system(self) -> UnitSystem:
        """Units of everything printed."""
        return UnitSystem(self.first.units)

    @cached_property
    def hours(self) -> WorkingHours:
        """When somebody is there: as the list says, else as the first product's job does."""
        shop, usual = self.orders.shop, working_hours(self.made[0].look.job)
        own = shop.working_hours
        return WorkingHours(
            zone=usual.zone if shop.time_zone is None else ZoneInfo(shop.time_zone),
            opens=usual.opens if own is None else own.start,
            closes=usual.closes if own is None else own.end,
            weekdays=usual.weekdays
            if shop.working_days is None
            else frozenset(DAYS.index(day) for day in shop.working_days),
            days_off=usual.days_off if shop.days_off is None else frozenset(shop.days_off),
        )

    @cached_property
    def start(self) -> datetime:
        """Nothing is done before."""
        stated = self.orders.start
        if stated is not None:
            return stated.replace(tzinfo=self.hours.zone)
        full = self.now.astimezone(UTC).replace(minute=0, second=0, microsecond=0) + HOUR
        return self.hours.next_open(full)

    @property
    def kept(self) -> float:
        """How often a promised date has to hold."""
        return LINE["kept"].value if self.orders.kept is None else self.orders.kept

    @cached_property
    def entries(self) -> tuple[tuple[Entry, ...], ...]:
        """Hours by step of every product."""
        return tuple(tuple(entries_of(made)) for made in self.made)

    @cached_property
    def routes(self) -> tuple[Route, ...]:
        """The way of every product through the shop."""
        return tuple(route_of(made, of) for made, of in zip(self.made, self.entries, strict=True))

    @cached_property
    def line(self) -> Line:
        """Orders on working time."""
        asked = [
            (order.name, self.orders.product_at(order.product), order.count, order.by)
            for order in self.orders.order
        ]
        try:
            return line_of(self.hours, self.start, self.orders.shop.people, self.routes, asked)
        except UserError as error:
            raise UserError(error.what, where=str(self.orders.path), todo=error.todo) from error
        except ValueError as error:
            raise UserError(str(error), where=str(self.orders.path)) from error

    @cached_property
    def dates(self) -> Dates:
        """Dates as thought."""
        return best_dates(self.line)

    def info(self) -> JobInfo:
        """Title, units and clock, as every document has them."""
        return self.first.model_copy(
            update={
                "title": self.orders.title,
                "variant": "",
                "time_zone": self.hours.zone.key,
                "currency": self.orders.currency or self.first.currency,
                "invented": self.orders.invented,
            }
        )


def look_at_orders(path: Path, now: datetime) -> OrderLook:
    """Read an order list and the plans it needs.

    Parameters
    ----------
    path : Path
        The file.
    now : datetime
        Aware.

    Returns
    -------
    OrderLook

    Raises
    ------
    UserError
        With the line of what will not do: an order wanted before anything can begin, a job without a plan.
    """
    orders = load_orders(path)
    look = OrderLook(orders, tuple(products_of(orders, now.date())), now)
    for at, order in enumerate(orders.order):
        if order.by < look.start.date():
            raise UserError(
                f"{order.name} is wanted by {order.by}, before anything begins",
                where=orders.where(("order", at, "by")),
                allowed=f"{look.start.date()} or later",
                todo="mend the date, or start",
            )
    for at, made in enumerate(look.made):
        if made.plan.demold.kept_after_h is None and made.plan.demold.after_h is None:
            raise UserError(
                f"the plan of {made.row.name} has no casting that gets hard in this shop",
                where=orders.where(("product", at, "job")),
                todo="plan it warmer, or with another resin",
            )
    return look
