"""The shopping list, line by line, each under a name by which it is ticked."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import date
from itertools import count

from pourwright.app.document.moments import iso
from pourwright.app.ordering.look import OrderLook
from pourwright.app.ordering.needs import Thing
from pourwright.app.ordering.shelf import shares_of
from pourwright.app.shopping.answers import Row
from pourwright.app.shopping.kept import Got
from pourwright.foundation.files import canonical_json

NAMED = ("of", "id", "grade", "colour", "supplier", "kits", "kit")


def lines_of(document: Row, booked: set[str]) -> Iterator[tuple[str, Row]]:
    """Name every purchase.

    Parameters
    ----------
    document : dict
        The answer of `buy`.
    booked : set of str
        Lines that are on stock already: what is still to be bought is not among them.

    Yields
    ------
    tuple of (str, dict)
        The same name for the same purchase, whenever it is worked out anew; by the day of ordering.
    """
    given = set(booked)
    rows = sorted(document["kits"], key=lambda one: (one["order_by"], one["supplier"], one["comes"]))
    for row in rows:
        base = hashlib.sha256(canonical_json([row[name] for name in NAMED])).hexdigest()[:16]
        name = next(each for number in count(1) if (each := f"{base}-{number}") not in given)
        given.add(name)
        yield name, row


def got_of(look: OrderLook, row: Row, currency: str) -> Got:
    """Write down a purchase that has come.

    Parameters
    ----------
    look : OrderLook
        The list.
    row : dict
        The purchase.
    currency : str
        Of its money.

    Returns
    -------
    Got
    """
    thing = Thing(*(row[name] for name in Thing._fields))
    keeps = None
    if row["goes_off"] is not None:
        keeps = (date.fromisoformat(row["goes_off"]) - date.fromisoformat(row["comes"])).days
    return Got(
        **{name: row[name] for name in (*NAMED, "words", "unit", "money")},
        currency=currency,
        keeps_d=keeps,
        shares=shares_of(look, {thing: []}).get(thing, (1.0, 0.0)),
        came=iso(look.now.astimezone(look.hours.zone)),
    )
