"""Dates and purchases of a list, kept between two looks under the name of all they were made from."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from pydantic import BaseModel

from pourwright.app.ordering.buying import buying_sheet
from pourwright.app.ordering.look import OrderLook
from pourwright.app.ordering.orders import inputs_of, orders_sheet
from pourwright.app.ordering.shelf import shelf_of
from pourwright.app.working.answers import answer_key
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import canonical_json
from pourwright.runs import Cache, fingerprint

Row = dict[str, Any]
DATES, BUYING = "dates", "buying"
SHEETS: dict[str, Callable[[OrderLook], BaseModel]] = {DATES: orders_sheet, BUYING: buying_sheet}


def order_key(what: str, look: OrderLook) -> str:
    """Name an answer.

    Parameters
    ----------
    what : str
        "dates" or "buying".
    look : OrderLook
        The list.

    Returns
    -------
    str
        Another one after any change of the list, its jobs, plans, prices and hours, on another day, and
        for purchases after any change of the stock.
    """
    jobs = [answer_key("orders", made.look.job) for made in look.made]
    days = [look.now.astimezone(look.hours.zone).date().isoformat(), look.start.date().isoformat()]
    told = [inputs_of(look), jobs, days, [made.old for made in look.made], repr(look.routes)]
    shelf = repr(shelf_of(look)) if what == BUYING else ""
    return fingerprint(("orders", what, told, shelf))


def kept_answer(what: str, look: OrderLook) -> Row | None:
    """Find an answer that was worked out before.

    Parameters
    ----------
    what : str
        "dates" or "buying".
    look : OrderLook
        The list.

    Returns
    -------
    dict or None
        ``document``, or what is ``wrong`` with its file and line.
    """
    match Cache().get(order_key(what, look)):
        case (str(text),):
            found: Row = json.loads(text)
            return found
    return None


def work_out(what: str, look: OrderLook) -> None:
    """Work an answer out and keep it, unless it is there.

    Parameters
    ----------
    what : str
        "dates" or "buying".
    look : OrderLook
        The list.
    """
    if kept_answer(what, look) is not None:
        return
    answer: Row = {"document": None, "wrong": []}
    try:
        answer["document"] = SHEETS[what](look).model_dump(mode="json", by_alias=True)
    except UserError as error:
        answer["wrong"] = told_errors(error)
    Cache().put(order_key(what, look), (canonical_json(answer).decode(),))


def told_errors(error: UserError) -> list[Row]:
    """Tell what is wrong, each with file and line."""
    every = getattr(error, "every", (error,))
    return [{"where": one.where, "what": one.what, "allowed": one.allowed, "todo": one.todo} for one in every]
