"""What the page asks of the orders of a shop: looking at it works nothing out; ticks book the stock."""

from __future__ import annotations

import threading
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path

from pourwright.app.booking.places import plan_on_disk
from pourwright.app.ordering.look import OrderLook, look_at_orders
from pourwright.app.shelf.places import job_places
from pourwright.app.shopping.answers import BUYING, DATES, Row, kept_answer, told_errors, work_out
from pourwright.app.shopping.booked import lots_of_tick, put_on_stock, take_off_stock
from pourwright.app.shopping.kept import Got, bought_of, change_bought
from pourwright.app.shopping.lines import got_of, lines_of
from pourwright.app.shopping.lists import ListPlace, list_place, list_places
from pourwright.app.shopping.shown import shown_dates, shown_got, shown_line, shown_totals
from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.orders_loading import load_orders

_ONE_AT_A_TIME = threading.Lock()
"""One server has a shop to itself; two devices may tick at once."""


@dataclass(frozen=True)
class OrdersPage:
    """One order list of a shop.

    Parameters
    ----------
    shop : Path
        Its folder.
    name : str, optional
        Of the list, as ``table-lamp/orders.toml``; else the first.
    """

    shop: Path
    name: str | None = None

    @cached_property
    def place(self) -> ListPlace | None:
        """Where the list lies; None where the shop has none."""
        return list_place(self.shop, self.name)

    def standing(self) -> Row:
        """All lists, and of one the documents of both commands, what is wrong, what is ticked."""
        told: Row = {
            "lists": [{"list": one.name, "title": one.title} for one in list_places(self.shop)],
            "list": None if self.place is None else self.place.name,
            DATES: None,
            BUYING: None,
            "wrong": [],
            "no_plan": [],
            "ticked": {},
            "book": False,
        }
        if self.place is None:
            return told
        try:
            self._look_up(told, self._look(self.place))
        except UserError as error:
            told["wrong"] = told_errors(error)
            told["no_plan"] = self._without_plan(self.place)
        for each in told["wrong"]:
            each |= {key: text.replace(f"{self.shop}/", "") for key, text in each.items()}
        return told

    def told(self) -> Row:
        """Everything on the page, in words."""
        told = self.standing()
        dates, buying = told[DATES], told[BUYING]
        shown: Row = {"lines": [], "here": [], "totals": None, "dates": None}
        if dates is not None:
            shown["dates"] = shown_dates(dates)
        if self.place is not None and (dates or buying):
            shown |= self._shopping(self.place, told)
        mind = [each for part in (shown["dates"], shown["totals"]) if part for each in part["warnings"]]
        shown["mind"] = [each.replace(f"{self.shop}/", "") for each in dict.fromkeys(mind)]
        return told | {"shown": shown}

    def work(self) -> Row:
        """Work out dates and purchases; how it stands then."""
        look = self._look(self._there())
        for what in (DATES, BUYING):
            work_out(what, look)
        return self.standing()

    def tick(self, line: str, *, bought: bool) -> Row:
        """Tick a purchase as bought and here, or no longer; how it stands then.

        Raises
        ------
        ConflictError
            For a line that is not in the list of now, and for a lot of which something was used.
        """
        place = self._there()
        with _ONE_AT_A_TIME:
            (self._tick if bought else self._untick)(place, line)
        # the stock has changed, so the list is another one
        try:
            return self.work()
        except UserError:
            return self.standing()

    def _tick(self, place: ListPlace, line: str) -> None:
        look, folder = self._look(place), place.file.parent
        got = bought_of(folder).get(line)
        if got is None:
            got = self._bought(look, place, line)
            change_bought(folder, lambda every: every | {line: got})
        put_on_stock(folder, look.orders.title, got)

    def _untick(self, place: ListPlace, line: str) -> None:
        folder = place.file.parent
        got = bought_of(folder).get(line)
        if got is not None:
            take_off_stock(folder, got)
            change_bought(folder, lambda every: {name: one for name, one in every.items() if name != line})

    def _bought(self, look: OrderLook, place: ListPlace, line: str) -> Got:
        document = (kept_answer(BUYING, look) or {}).get("document")
        rows = dict(_lines(place, document)) if document else {}
        if document is None or line not in rows:
            raise ConflictError(
                "the shopping list is another one by now", where="line", todo="load the page again"
            )
        return got_of(look, rows[line], document["totals"]["currency"])

    def _look_up(self, told: Row, look: OrderLook) -> None:
        for what in (DATES, BUYING):
            found = kept_answer(what, look)
            if found is not None:
                told[what] = found["document"]
                told["wrong"] += [one for one in found["wrong"] if one not in told["wrong"]]
        folder = look.orders.path.parent
        every = bought_of(folder)
        told["book"], lots = lots_of_tick(folder, every)
        told["ticked"] = {
            line: got.model_dump(mode="json") | {"lots": lots[line]} for line, got in every.items()
        }

    def _shopping(self, place: ListPlace, told: Row) -> Row:
        document = told[BUYING]
        job = (document or told[DATES])["job"]
        rows = dict(_lines(place, document)) if document else {}
        here = [
            shown_got(line, got, told["ticked"][line]["lots"], UnitSystem(job["units"]), book=told["book"])
            for line, got in bought_of(place.file.parent).items()
        ]
        lines = [
            shown_line(line, row, job, document["totals"]["currency"], line in told["ticked"])
            | {"said": next((one["said"] for one in here if one["line"] == line), "")}
            for line, row in rows.items()
        ]
        return {
            "lines": lines,
            "here": [one for one in here if one["line"] not in rows],
            "totals": None if document is None else shown_totals(document),
        }

    def _there(self) -> ListPlace:
        if self.place is None:
            raise NotThereError("this shop has no order list", todo="write an orders.toml: docs/orders.md")
        return self.place

    def _look(self, place: ListPlace) -> OrderLook:
        return look_at_orders(place.file, datetime.now(UTC))

    def _without_plan(self, place: ListPlace) -> list[Row]:
        """Jobs of the list that have no plan yet, as the shelf knows them."""
        try:
            rows = load_orders(place.file).product
        except UserError:
            return []
        wanted = {(place.file.parent / row.job).resolve(): row for row in rows}
        found = [
            (job, wanted[job.folder.resolve()])
            for job in job_places(self.shop)
            if job.folder.resolve() in wanted
        ]
        return [
            {"job": job.name, "product": row.name}
            for job, row in found
            if not _planned(job.folder, row.variant)
        ]


def _planned(folder: Path, variant: str | None) -> bool:
    try:
        plan_on_disk(folder, variant)
    except UserError:
        return False
    return True


def _lines(place: ListPlace, document: Row) -> list[tuple[str, Row]]:
    """Purchases that are still to be made, and those that are ticked without being on stock."""
    folder = place.file.parent
    _, lots = lots_of_tick(folder, bought_of(folder))
    return list(lines_of(document, {line for line, each in lots.items() if each}))
