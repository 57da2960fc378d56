"""What a month may bring in, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.cost_tables import Money
from pourwright.cli.tables import remark_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]
WIDTH = 40
SHORT = 0.004


def risk_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out bars of months, what matters most, what would help.

    Parameters
    ----------
    report : mapping
        The answer as JSON, risk in it.

    Yields
    ------
    RenderableType
    """
    risk, money = report["risk"], Money(report["currency"], Words.of(report["job"]))
    yield Text()
    yield Text.assemble(("A month", "bold"), f"  {' '.join(risk['words'])}")
    yield _bars(risk, money)
    yield Text(
        f"planned {money.coded(risk['planned'])}, on average {money.coded(risk['mean'])}, give or take "
        f"{money(risk['mean_error'])}; {risk['months']} months drawn",
        style="dim",
    )
    yield Text()
    yield Text("What matters most", "bold")
    yield _matters(risk)
    yield Text()
    yield Text("What would help, the very same months", "bold")
    yield _what_ifs(risk, money)
    yield Text()
    yield from remark_lines("How far each may be off", list(_inputs(risk)), "")


def _table() -> Table:
    return Table(box=None, pad_edge=False, header_style="dim", show_header=False)


def _bars(risk: Part, money: Money) -> Table:
    table = _table()
    for justify in ("right", "left", "right"):
        table.add_column(justify=justify, no_wrap=True)
    highest = max(bar["share"] for bar in risk["bars"])
    for bar in risk["bars"]:
        length = round(WIDTH * bar["share"] / highest)
        style = "red" if Decimal(bar["high"]) <= 0 else "green"
        place = f"{_whole(bar['low'], money)} to {_whole(bar['high'], money)}"
        share = f"{100 * bar['share']:.0f} %" if bar["share"] > SHORT else ""
        table.add_row(place, Text("█" * length, style=style), share)
    return table


def _whole(text: str, money: Money) -> str:
    """Round numbers lose their coins."""
    amount = Decimal(text)
    return f"{amount:,.0f}".replace(",", " ") if amount == amount.to_integral_value() else money(text)


def _matters(risk: Part) -> Table:
    table = _table()
    table.add_column()
    table.add_column(justify="right")
    for one in risk["matters"]:
        table.add_row(one["words"], f"{100 * one['total']:.0f} %")
    return table


def _what_ifs(risk: Part, money: Money) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    table.add_column("")
    for title in ("a month more or less", "months that lose"):
        table.add_column(title, justify="right")
    for one in risk["what_ifs"]:
        table.add_row(one["words"], money.signed(one["change"]), f"{100 * one['loses']:.0f} in 100")
    return table


def _inputs(risk: Part) -> Iterator[str]:
    for one in risk["inputs"]:
        if one["key"] == "leaks":
            yield f"{one['words']}: {100 * one['likely']:g} % of all begun"
        elif one["key"] == "scrap":
            band = f"{100 * one['low']:.3g} to {100 * one['high']:.3g} %, likely {100 * one['likely']:.3g} %"
            yield f"{one['words']}: {band}; {one['where']}"
        elif one["low"] < one["high"]:
            less, more = 100 * (1 - one["low"]), 100 * (one["high"] - 1)
            yield f"{one['words']}: {less:.0f} % less to {more:.0f} % more; {one['where']}"
