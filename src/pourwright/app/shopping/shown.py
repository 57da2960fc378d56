"""Dates and the shopping list as the page shows them, in words and in the maker's units."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from pourwright.app.ordering.buying_words import SMALL
from pourwright.app.ordering.dating import shown
from pourwright.app.ordering.shelf import KINDS
from pourwright.app.shopping.answers import Row
from pourwright.app.shopping.kept import Got
from pourwright.foundation.notation import UnitSystem, format_amount, format_mass, format_share


def shown_dates(document: Row) -> Row:
    """Tell the dates: orders, piece by piece, pieces a month."""
    pieces = document["dates"]["pieces"]
    mornings = min((each[name][11:16] for each in pieces for name in ("poured", "out")), default="")
    return {
        "made": shown(_day_of(document)),
        "orders": [_order(each) for each in document["orders"]],
        "pieces": [
            each
            | {name: _half(each[name], mornings) for name in ("poured", "out")}
            | {"ready": shown(each["ready"])}
            for each in pieces
        ],
        "words": document["dates"]["words"],
        "products": [_product(each) for each in document["products"]],
        "notes": document["notes"],
        "warnings": document["warnings"],
    }


def _day_of(document: Row) -> str:
    moment = datetime.fromisoformat(document["computed_for"])
    return moment.astimezone(ZoneInfo(document["job"]["time_zone"])).date().isoformat()


def _order(each: Row) -> Row:
    promised = each["promised"]
    return {
        "name": each["name"],
        "product": each["product"],
        "count": each["count"],
        "by": shown(each["by"]),
        "ready": shown(each["ready"]),
        "promised": "none in sight" if promised is None else shown(promised),
        "holds": "" if promised is None else f"{format_share(each['holds'])} of the months",
        "late": each["late"],
        "if_all_goes_well": each["ready"] <= each["by"],
        "words": each["words"],
        "remedies": [
            f"{one['words']}{'; that would do' if one['does'] else '; that is not enough'}"
            for one in each["remedies"]
        ],
    }


def _half(moment: str, mornings: str) -> str:
    return f"{shown(moment[:10])}, {'morning' if moment[11:16] == mornings else 'afternoon'}"


def _product(each: Row) -> Row:
    people = sorted({one["people"] for one in each["rates"]})
    rows = []
    for molds in sorted({one["molds"] for one in each["rates"]}):
        cells = [one for one in each["rates"] if one["molds"] == molds]
        rows.append({"molds": molds, "cells": [_rate(one) for one in cells]})
    more = [] if each["more_mold"] is None else [each["more_mold"]["words"]]
    heads = [f"{one} {'person' if one == 1 else 'people'}" for one in people]
    return {"name": each["name"], "people": heads, "rows": rows, "words": [*each["words"], *more]}


def _rate(one: Row) -> str:
    by = "molds" if one["bottleneck"] == "mold" else "people"
    return f"{one['pieces']:.1f}, held up by {by}"


def shown_line(name: str, row: Row, job: Row, currency: str, ticked: bool) -> Row:
    """Tell a purchase that is to be made."""
    system = UnitSystem(job["units"])
    left = ""
    if row["over"] > SMALL:
        until = "" if row["goes_off"] is None else f", keeps until {shown(row['goes_off'])}"
        left = f"{_amount(row['over'], row['unit'], system)} left over{until}"
    return {
        "line": name,
        "words": row["words"],
        "amount": _kits(row["kits"], row["kit"], row["unit"], system),
        "supplier": row["supplier"],
        "order_by": shown(row["order_by"]),
        "comes": shown(row["comes"]),
        "money": format_amount(Decimal(row["money"]), currency, system),
        "left": left,
        "ticked": ticked,
    }


def shown_got(name: str, got: Got, lots: list[int], system: UnitSystem, *, book: bool) -> Row:
    """Tell a purchase that is here, and where it lies."""
    return {
        "line": name,
        "words": got.words,
        "amount": _kits(got.kits, got.kit, got.unit, system),
        "supplier": got.supplier,
        "came": shown(datetime.fromisoformat(got.came).date().isoformat()),
        "lots": lots,
        "said": "" if lots else _why_not(got, book=book),
    }


def _why_not(got: Got, *, book: bool) -> str:
    if not book:
        return "not booked: this shop has no book yet"
    if got.of not in KINDS:
        return "not booked: the book keeps no stock of this"
    return "not booked: untick it and tick it again to put it on stock"


def shown_totals(document: Row) -> Row:
    """Tell what it all costs, with what is sent, missing and to be minded."""
    currency, system = document["totals"]["currency"], UnitSystem(document["job"]["units"])
    return {
        "words": document["totals"]["words"],
        "sent": [
            f"{one['supplier']} takes {format_amount(Decimal(one['fee']), currency, system)} for sending "
            f"what comes on {shown(one['comes'])}"
            for one in document["sent"]
        ],
        "stock": list(_from_stock(document["goods"], system)),
        "notes": document["notes"],
        "warnings": document["warnings"],
    }


def _from_stock(goods: list[Row], system: UnitSystem) -> Iterator[Row]:
    for each in goods:
        for lot in each["from_stock"]:
            part = f", part {lot['part']}" if lot["part"] else ""
            until = f", expires {shown(lot['expires'])}" if lot["expires"] else ""
            amount = _amount(lot["amount"], each["unit"], system)
            yield {"lot": lot["lot"], "words": f"{lot['name']}{part}: {amount}{until}"}


def _kits(kits: int, kit: float, unit: str, system: UnitSystem) -> str:
    if kit == 1.0:
        return _amount(float(kits), unit, system)
    return f"{kits} × {_amount(kit, unit, system)}"


def _amount(amount: float, unit: str, system: UnitSystem) -> str:
    if unit == "kg":
        return format_mass(amount, system)
    return f"{amount:g} {'piece' if amount == 1 else 'pieces'}"
