"""Say how many pieces a month, and by when the orders of a list are ready."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright import __version__
from pourwright.app.document.credits import listed
from pourwright.app.document.moments import iso
from pourwright.app.ordering.capacity import products_part
from pourwright.app.ordering.dating import dates_part, orders_part, shown
from pourwright.app.ordering.look import OrderLook, look_at_orders
from pourwright.app.setup import working_hours
from pourwright.foundation.notation import format_share
from pourwright.foundation.progress import SILENT, Progress
from pourwright.foundation.sources import Sourced
from pourwright.jobs.orders_sheet import OrdersSheet
from pourwright.line.defaults import LINE


@dataclass(frozen=True)
class OrdersReport:
    """Dates of a list of orders.

    Parameters
    ----------
    sheet : OrdersSheet
        All that is told.
    """

    sheet: OrdersSheet

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        return self.sheet.model_dump(mode="json", by_alias=True)


def date_orders(path: Path, *, progress: Progress = SILENT, now: datetime | None = None) -> OrdersReport:
    """Say how many pieces a month, and by when each order is ready.

    Parameters
    ----------
    path : Path
        The order list, `orders.toml`.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    OrdersReport
        Nothing is written.

    Raises
    ------
    UserError
        For a list, a job or a plan that will not do, with its line.
    """
    return OrdersReport(orders_sheet(look_at_orders(path, now or datetime.now(UTC)), progress))


def orders_sheet(look: OrderLook, progress: Progress = SILENT) -> OrdersSheet:
    """Tell months and dates of a list that was looked at, as `date_orders` does."""
    progress.step("molds and people", 0, 3)
    products = list(products_part(look))
    progress.step("dates", 1, 3)
    dates = dates_part(look)
    progress.step("many months", 2, 3)
    orders = list(orders_part(look))
    return OrdersSheet(
        version=__version__,
        computed_for=iso(look.now),
        inputs=inputs_of(look),
        job=look.info(),
        products=products,
        orders=orders,
        dates=dates,
        notes=list(_notes(look)),
        warnings=list(warnings_of(look)),
        sources=listed(_practice(look), {}),
    )


def inputs_of(look: OrderLook) -> dict[str, str]:
    """The sha256 of the list, of each plan and of each price list."""
    found = {look.orders.path.name: look.orders.digest}
    for made in look.made:
        found[f"{made.row.job}/plan.json"] = made.hash
        prices = made.look.quotes.listed
        if prices.digest:
            found[f"{made.row.job}: {prices.path.name}"] = prices.digest
    return found


def _notes(look: OrderLook) -> Iterator[str]:
    pace, kept = LINE["pace"], look.kept
    yield (
        "Ready: if every casting comes out good and work takes as long as planned. Promised: many months "
        "were worked through with castings that fail, cure longer or shorter, and work that takes "
        f"{format_share(pace.value)} more or less; the day holds in {format_share(kept)} of them or more."
    )
    yield (
        "Pours follow the plan's own distances, in working hours and while they bond; a casting that would "
        "need a pour at night or on a day off is begun on another day."
    )
    yield "A half day is the grid: who does what first within it is up to you."


def warnings_of(look: OrderLook) -> Iterator[str]:
    """What is to be minded of the plans."""
    if look.start < look.now:
        yield f"The list begins on {shown(look.start.date().isoformat())}, which has passed: mend start."
    if look.orders.shop.working_hours is None and look.orders.shop.working_days is None:
        yield from _other_hours(look)
    for made in look.made:
        if made.old:
            job = made.look.job.path
            yield f"The plan of {made.row.name} is old ({made.old}); do: pourwright plan {job}"
        if made.row.new_molds:
            some = "a mold is" if made.row.new_molds == 1 else f"{made.row.new_molds} molds are"
            yield f"{some.capitalize()} still to be made for {made.row.name}: dates count from then on."


def _other_hours(look: OrderLook) -> Iterator[str]:
    """Jobs that were planned for other hours than the first one's."""
    first = working_hours(look.made[0].look.job)
    for made in look.made[1:]:
        own = working_hours(made.look.job)
        if (own.opens, own.closes, own.weekdays, own.days_off) != (
            first.opens, first.closes, first.weekdays, first.days_off,
        ):  # fmt: skip
            yield (
                f"The job of {made.row.name} has other working hours than that of {look.made[0].row.name}, "
                "which count here: write yours under [shop]."
            )


def _practice(look: OrderLook) -> Iterator[tuple[str, Sourced]]:
    yield "pace of work", LINE["pace"]
    if any(made.row.rest is None for made in look.made):
        yield "rest of a mold", LINE["rest"]
    if any(route.demold_spread == LINE["curing"].value for route in look.routes):
        yield "time to cure", LINE["curing"]
    if look.orders.kept is None:
        yield "promised dates", LINE["kept"]
