"""Pieces a month and dates of an order list, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns, facts, headline, remark_lines
from pourwright.cli.words import Words
from pourwright.foundation.notation import format_day

Part = Mapping[str, Any]


def order_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out orders, pieces, products.

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
    yield from _orders(report["orders"], words)
    yield Text()
    yield from _pieces(report["dates"], several=len(report["products"]) > 1)
    for product in report["products"]:
        yield Text()
        yield from _product(product, words)
    yield Text()
    yield from remark_lines("How it is reckoned", report["notes"], "")
    yield from remark_lines("Mind this", report["warnings"], "yellow")


def day(iso: str) -> str:
    """A day with the day of its week."""
    return format_day(datetime.combine(date.fromisoformat(iso[:10]), datetime.min.time()))


def dated(iso: str) -> str:
    """The same with its year."""
    return f"{day(iso)} {iso[:4]}"


def _half(iso: str, noon: bool) -> str:
    return f"{day(iso)}, {'afternoon' if noon else 'morning'}"


def _orders(orders: list[Part], words: Words) -> Iterator[RenderableType]:
    table = columns(("order", "product", "pieces", "wanted by", "ready", "promised", "holds in"))
    for each in orders:
        table.add_row(
            Text(each["name"]),
            Text(each["product"]),
            str(each["count"]),
            dated(each["by"]),
            dated(each["ready"]),
            "none in sight" if each["promised"] is None else dated(each["promised"]),
            "" if each["promised"] is None else f"{words.share(each['holds'])} of the months",
        )
    yield table
    for each in orders:
        yield Text.assemble((each["name"], "bold yellow" if each["late"] else "bold"), f": {each['words']}")


def _pieces(dates: Part, *, several: bool) -> Iterator[RenderableType]:
    yield Text.assemble(("Piece by piece", "bold"), ", if every casting comes out good")
    titles = (
        "first pour",
        "out of the mold",
        "finished",
        *(("product",) if several else ()),
        "order",
        "piece",
    )
    table = columns(titles)
    halves = sorted({each[name][11:16] for each in dates["pieces"] for name in ("poured", "out")})
    for each in dates["pieces"]:
        poured, out = (_half(each[name], each[name][11:16] != halves[0]) for name in ("poured", "out"))
        product = (Text(each["product"]),) if several else ()
        table.add_row(poured, out, day(each["ready"]), *product, Text(each["order"]), str(each["number"]))
    yield table
    yield from (Text(text) for text in dates["words"])


def _product(product: Part, words: Words) -> Iterator[RenderableType]:
    yield Text.assemble((product["name"], "bold"), " alone, good pieces a month")
    people = sorted({one["people"] for one in product["rates"]})
    table = columns(("molds", *(f"{one} {'person' if one == 1 else 'people'}" for one in people)))
    for molds in sorted({one["molds"] for one in product["rates"]}):
        row = [one for one in product["rates"] if one["molds"] == molds]
        table.add_row(str(molds), *(f"{one['pieces']:.1f}, held up by {_by(one)}" for one in row))
    yield table
    yield from (Text(text) for text in product["words"])
    if product["more_mold"] is not None:
        yield Text(product["more_mold"]["words"])
    yield facts(
        [
            ("Work on a casting", _steps(product["hours"], "casting", words)),
            ("Work on a good piece", _steps(product["hours"], "piece", words)),
            ("In all for a good one", words.duration(product["hours_per_good_h"])),
            ("One person works", f"{product['month_hours_h']:.0f} h a month"),
            ("Castings that fail", f"{words.share(product['scrap'])}: {product['scrap_from']}"),
        ]
    )


def _steps(hours: list[Part], each: str, words: Words) -> str:
    """Steps with their hours; grit by grit is one of them."""
    summed: dict[str, float] = {}
    for one in hours:
        if one["each"] == each and one["hours_h"]:
            name = "sanding" if one["key"].startswith("sanding-") else one["words"]
            summed[name] = summed.get(name, 0.0) + one["hours_h"]
    return ", ".join(f"{name} {words.duration(length)}" for name, length in summed.items())


def _by(rate: Part) -> str:
    return "molds" if rate["bottleneck"] == "mold" else "people"
