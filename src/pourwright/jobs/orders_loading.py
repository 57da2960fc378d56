"""From the text of an order list to checked orders."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from pourwright.foundation.quantities import CURRENCIES
from pourwright.jobs.errors import Finding, JobError, findings, located, not_toml
from pourwright.jobs.job import nearest_line, place_of
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.lines import key_lines
from pourwright.jobs.orders import OrderList
from pourwright.jobs.texts import read_written


def load_orders(path: Path | str) -> OrderList:
    """Read and check an order list.

    Parameters
    ----------
    path : Path or str
        The file.

    Returns
    -------
    OrderList
        With the lines of its keys.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    file = Path(path)
    text, digest = read_written(
        file, "order list", missing="mend its name", instead="give the orders.toml, saved as UTF-8 text"
    )
    orders = read_orders(text, file)
    orders._digest = digest  # noqa: SLF001 - orders are finished here and nowhere else
    return orders


def read_orders(text: str, file: Path | str = "orders.toml") -> OrderList:
    """Check the text of an order list.

    Parameters
    ----------
    text : str
        TOML.
    file : Path or str
        What messages call it; jobs are looked for beside it.

    Returns
    -------
    OrderList
        With the lines of its keys.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    file = Path(file)
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise not_toml(file, str(error)) from None
    except RecursionError:
        raise JobError("lists or tables nested too deep", where=str(file), todo="mend the file") from None
    lines = key_lines(text)
    orders = _validated(raw, file, lines)
    orders._path, orders._lines = file, lines  # noqa: SLF001 - as above
    return orders


def _validated(raw: dict[str, Any], file: Path, lines: Mapping[KeyPath, int]) -> OrderList:
    try:
        orders = OrderList.model_validate(raw)
    except ValidationError as error:
        raise _error(findings(error, OrderList), file, lines) from None
    if found := [*_currencies(orders), *_names(orders), *_unknown(orders)]:
        raise _error(iter(found), file, lines)
    return orders


def _error(found: Iterator[tuple[KeyPath, Finding]], file: Path, lines: Mapping[KeyPath, int]) -> JobError:
    return JobError.of(
        located(found, lambda path: place_of(file, lines, path), lambda path: nearest_line(lines, path) or 0)
    )


def _currencies(orders: OrderList) -> Iterator[tuple[KeyPath, Finding]]:
    """One currency throughout: nothing is converted, since nobody said at which rate and day."""
    if orders.currency is not None and orders.currency not in CURRENCIES:
        known = ", ".join(sorted(CURRENCIES))
        came = f"no currency {orders.currency!r} is known"
        yield ("currency",), (came, known, 'write for example currency = "EUR"')
        return
    for path, money in orders.moneys():
        if orders.currency is None:
            came = f"{money.text!r} without the currency of the file"
            yield path, (came, f'currency = "{money.currency}"', "write it at the top of the file")
            return
        if money.currency != orders.currency:
            came = f"{money.text!r} is in {money.currency}, the file in {orders.currency}"
            yield path, (came, orders.currency, "convert it, and note rate and day")


def _names(orders: OrderList) -> Iterator[tuple[KeyPath, Finding]]:
    for table in ("product", "supplier"):
        seen: set[str] = set()
        for at, row in enumerate(getattr(orders, table)):
            if row.name in seen:
                yield (table, at, "name"), (f"a second {table} {row.name!r}", "", "give it another name")
            seen.add(row.name)


def _unknown(orders: OrderList) -> Iterator[tuple[KeyPath, Finding]]:
    products = [one.name for one in orders.product]
    for at, order in enumerate(orders.order):
        yield from _missing(("order", at, "product"), order.product, products)
    sellers = [one.supplier for one in orders.offer]
    for at, supplier in enumerate(orders.supplier):
        yield from _missing(("supplier", at, "name"), supplier.name, sellers)


def _missing(path: KeyPath, name: str, known: Sequence[str]) -> Iterator[tuple[KeyPath, Finding]]:
    if name not in known:
        allowed = ", ".join(dict.fromkeys(known)) or f"none: there is no [[{path[0]}]] for it"
        yield (
            path,
            (f"no {str(path[-1]) if path[-1] != 'name' else 'offer of'} {name!r}", allowed, "mend the name"),
        )
