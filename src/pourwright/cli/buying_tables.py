"""What is bought for an order list, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from itertools import groupby
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.orders_tables import dated, day
from pourwright.cli.tables import columns, headline, remark_lines
from pourwright.cli.words import Words
from pourwright.foundation.notation import format_amount

Part = Mapping[str, Any]
GOODS = ("needed for it", "in all", "on stock", "missing", "bought", "left over")


def buying_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out what is ordered when, then every thing with its stock.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    words = Words.of(report["job"])
    yield headline(report["job"])
    yield Text()
    yield from _orders(report, words)
    yield Text(report["totals"]["words"], style="bold")
    yield Text()
    table = columns(GOODS)
    for each in report["goods"]:
        table.add_row(*_row(each, words))
    yield table
    yield from _from_stock(report["goods"], words)
    yield from _often(report["goods"], words)
    yield Text()
    yield from remark_lines("How it is reckoned", report["notes"], "")
    yield from remark_lines("Mind this", report["warnings"], "yellow")


def _orders(report: Part, words: Words) -> Iterator[RenderableType]:
    """Supplier by supplier, in the order of days."""
    currency = report["totals"]["currency"]
    fees = {(one["supplier"], one["comes"]): one["fee"] for one in report["sent"]}
    ordered = sorted(report["kits"], key=lambda one: (one["order_by"], one["supplier"], one["comes"]))
    for (_, supplier, comes), group in groupby(
        ordered, key=lambda one: (one["order_by"], one["supplier"], one["comes"])
    ):
        kits = list(group)
        money = sum((Decimal(one["money"]) for one in kits), Decimal(0))
        fee = fees.get((supplier, comes))
        sent = f", sending {format_amount(Decimal(fee), currency, words.system)} more" if fee else ""
        yield Text.assemble(
            (f"[ ] {supplier}", "bold"),
            f": order by {dated(kits[0]['order_by'])}, there on {day(comes)}, "
            f"{format_amount(money, currency, words.system)}{sent}",
        )
        for one in kits:
            yield Text(f"      {_kit(one, words, currency)}")


def _kit(one: Part, words: Words, currency: str) -> str:
    price = format_amount(Decimal(one["price"]), currency, words.system)
    until = "" if one["goes_off"] is None else f", keeps until {dated(one['goes_off'])}"
    over = f", {_amount(one['over'], one['unit'], words)} left over{until}" if one["over"] > 1e-6 else ""
    if one["kit"] == 1.0 and one["unit"] == "pieces":
        return f"{one['kits']} x {one['words']} at {price}{over}"
    if one["kit"] == 1.0:
        money = format_amount(Decimal(one["money"]), currency, words.system)
        return f"{words.mass(one['kits'])} of {one['words']}, {money}{over}"
    return f"{one['kits']} x {_amount(one['kit'], one['unit'], words)} of {one['words']} at {price}{over}"


def _row(each: Part, words: Words) -> tuple[Text, ...]:
    unit = each["unit"]
    stock = each["needed"] - each["missing"]
    bought = "gap" if each["gap"] else _maybe(each["bought"], unit, words)
    cells = (
        _amount(each["needed"], unit, words),
        _maybe(stock, unit, words),
        _maybe(each["missing"], unit, words),
    )
    return tuple(
        Text(cell) for cell in (each["words"], *cells, bought, _maybe(each["left_over"], unit, words))
    )


def _maybe(amount: float, unit: str, words: Words) -> str:
    return "" if amount < 1e-6 else _amount(amount, unit, words)


def _amount(amount: float, unit: str, words: Words) -> str:
    return words.mass(amount) if unit == "kg" else f"{amount:g}"


def _from_stock(goods: list[Part], words: Words) -> Iterator[RenderableType]:
    lots = [(each, one) for each in goods for one in each["from_stock"]]
    if lots:
        yield Text()
        yield Text("From stock, in this order", style="bold")
    for each, one in lots:
        part = f", part {one['part']}" if one["part"] else ""
        until = f", expires {dated(one['expires'])}" if one["expires"] else ""
        yield Text(
            f"  lot {one['lot']}, {one['name']}{part}: {_amount(one['amount'], each['unit'], words)}{until}"
        )


def _often(goods: list[Part], words: Words) -> Iterator[RenderableType]:
    told = [each for each in goods if each["often"] is not None]
    for number, each in enumerate(told):
        if not number:
            yield Text()
        amount = _amount(round(each["often"], 1), each["unit"], words)
        yield Text(
            f"If it goes on like this, {amount} of {each['words']} at a time cost least, sending and keeping "
            "added up."
        )
