"""The commands about many pieces: dates of an order list, and what is bought for it."""

from __future__ import annotations

from pathlib import Path

import click

from pourwright.cli.options import AS_JSON, print_json

ORDERS = click.argument("orders", type=click.Path(path_type=Path), metavar="ORDERS")


@click.command()
@ORDERS
@AS_JSON
def orders(orders: Path, *, as_json: bool) -> None:
    """Say how many pieces a month, and by when each order is ready.

    ORDERS is a file orders.toml: products with their jobs, molds, people, and who wants what by when.
    Every job in it needs its plan. An order that comes too late is told with what would do.

    \b
    Examples:
      pourwright orders shop/orders.toml
      pourwright orders shop/orders.toml --json
    """
    from pourwright import app
    from pourwright.cli.meter import meter
    from pourwright.cli.orders_tables import order_lines
    from pourwright.cli.tables import show

    with meter() as progress:
        report = app.date_orders(orders, progress=progress).to_json()
    if as_json:
        print_json(report)
        return
    show(order_lines(report))


@click.command()
@ORDERS
@AS_JSON
def buy(orders: Path, *, as_json: bool) -> None:
    """Say what is bought for an order list, and by when it is ordered.

    Stock of the shop's book first, the first to expire first; then the cheapest whole kits of the
    offers in ORDERS that are there in time and keep long enough. Nothing is booked.

    \b
    Examples:
      pourwright buy shop/orders.toml
      pourwright buy shop/orders.toml --json
    """
    from pourwright import app
    from pourwright.cli.buying_tables import buying_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import show

    with meter() as progress:
        report = app.buy_for_orders(orders, progress=progress).to_json()
    if as_json:
        print_json(report)
        return
    show(buying_lines(report))
