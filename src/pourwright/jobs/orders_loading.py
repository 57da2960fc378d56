"""From the text of an order list to checked orders."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from pourwright.jobs.errors import Finding
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.orders import OrderList
from pourwright.jobs.texts import read_written
from pourwright.jobs.toml_checked import checked_model, one_currency, parsed_toml


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
    raw, lines = parsed_toml(text, file)
    orders = checked_model(raw, lines, file, OrderList, _further)
    orders._path, orders._lines = file, lines  # noqa: SLF001 - as above
    return orders


def _further(orders: OrderList) -> Iterator[tuple[KeyPath, Finding]]:
    yield from one_currency(orders.currency, orders.moneys())
    yield from _names(orders)
    yield from _unknown(orders)


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
