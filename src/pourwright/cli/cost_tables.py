"""What a piece costs and is sold for, as the maker reads it in the terminal."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from rich.console import RenderableType
from rich.markup import escape
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import facts, headline, remark_lines
from pourwright.cli.words import Words
from pourwright.foundation.notation import format_amount

Part = Mapping[str, Any]
STAGES = {
    "casting": "into one casting",
    "mold": "the mold, shared by {casts:g} castings",
    "piece": "once it is good",
}
GAP = "?"
WHERE = {
    "plan": "plan",
    "fill": "fill.json",
    "mold": "mold.json",
    "prices": "",
    "material": "material",
    "practice": "common practice, no source:",
    "cost": "this cost",
}


def cost_lines(report: Part, *, trace: bool = False) -> Iterator[RenderableType]:
    """Lay out lines, totals, prices and what moves them.

    Parameters
    ----------
    report : mapping
        The answer as JSON.
    trace : bool
        Whether each line is opened down to where its amount and its price stand.

    Yields
    ------
    RenderableType
    """
    words = Words.of(report["job"])
    money = Money(report["currency"], words)
    yield headline(report["job"])
    yield Text(f"{report['plan']['words'].capitalize()}; {prices_words(report['prices'])}", style="dim")
    yield Text()
    yield _table(report, words, money, trace=trace)
    yield Text()
    yield from _made_lines(report)
    if report["price"]:
        yield from _price_lines(report["price"], money)
    if report["moves"]:
        yield from _move_lines(report["moves"], money)
    yield Text()
    yield from remark_lines("How it is reckoned", [report["rule"], *report["notes"]], "")
    yield from remark_lines("Mind this", report["warnings"], "yellow")


class Money:
    """Says money of one currency."""

    def __init__(self, currency: str, words: Words) -> None:
        self.currency, self._system = currency, words.system

    def __call__(self, text: str) -> str:
        """An amount as it is printed in a column of its currency."""
        return format_amount(Decimal(text), self.currency, self._system, code=False)

    def coded(self, text: str) -> str:
        """An amount with its code."""
        return format_amount(Decimal(text), self.currency, self._system)

    def signed(self, text: str) -> str:
        """A change, with its sign."""
        return f"+{self(text)}" if Decimal(text) > 0 else self(text)


def prices_words(prices: Part) -> str:
    """Where the prices are from."""
    if not prices["file"]:
        return "prices from the job file"
    made_up = ", all invented" if prices["invented"] else ""
    return f"prices from {prices['file']}{made_up}"


def _table(report: Part, words: Words, money: Money, *, trace: bool) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    table.add_column("", overflow="fold")
    table.add_column("amount", justify="right", no_wrap=True)
    table.add_column("price", no_wrap=True)
    table.add_column(money.currency, justify="right", no_wrap=True)
    cast, done = _parted(report["lines"])
    for stage, lines in cast:
        title = STAGES[stage].format(casts=round(report["made"]["casts"], 1))
        _rows(table, title, lines, (words, money), trace=trace)
    _sum(table, "one casting begun", _total(report, "casting", money), _without(report))
    _rows(table, STAGES["piece"], done, (words, money), trace=trace)
    _sum(table, "one good piece", _total(report, "full", money), _without(report))
    return table


def _parted(lines: Iterable[Part]) -> tuple[list[tuple[str, list[Part]]], list[Part]]:
    """What makes up a casting, by stage; and what comes once it is good, lost castings first."""
    cast: dict[str, list[Part]] = {"casting": [], "mold": []}
    done: list[Part] = []
    for line in lines:
        late = line["stage"] == "piece" or line["key"] == "scrap"
        (done if late else cast[line["stage"]]).append(line)
    return list(cast.items()), done


def _rows(table: Table, title: str, lines: Iterable[Part], said: tuple[Words, Money], *, trace: bool) -> None:
    table.add_row(Text(title, style="bold"))
    for line in lines:
        table.add_row(Text(f"  {line['words']}"), *_row(line, *said))
        for text in _traced(line) if trace else ():
            table.add_row(Text(f"      {text}", style="dim"))


def _traced(line: Part) -> Iterator[str]:
    """Where an amount and its price stand."""
    for one in line["made_of"]:
        place = f"{WHERE[one['where']]} {one['path']}".strip()
        yield f"{one['words']}: {one['value']:.6g} {one['unit']}, {place}"
    if line["price"]:
        price = line["price"]
        more = ", ".join(filter(None, (price["date"] or "no date", price["note"])))
        yield f"{price['text']}: {price['file']}:{price['line']}, {more}"


def _row(line: Part, words: Words, money: Money) -> tuple[RenderableType, ...]:
    if line["money"] is None:
        return (_amount(line, words), Text("no price", style="yellow"), Text(GAP, style="bold yellow"))
    if line["price"] is None:
        return ("", "", money(line["money"]))
    old = Text("  old", style="yellow") if line["price"]["old"] else Text()
    return (_amount(line, words), Text.assemble(line["price"]["text"], old), money(line["money"]))


def _amount(line: Part, words: Words) -> str:
    amount, unit = line["amount"], line["unit"]
    if amount is None:
        return ""
    said = {"kg": words.mass, "h": words.duration, "m2": words.area}
    return said[unit](amount) if unit in said else f"{amount:g}{' kWh' if unit == 'kWh' else ''}"


def _sum(table: Table, title: str, total: str, more: RenderableType = "") -> None:
    table.add_row(Text(title, style="bold"), "", more, Text(total, style="bold"))


def _total(report: Part, name: str, money: Money) -> str:
    """A sum; none of nothing."""
    known = any(line["money"] is not None for line in report["lines"])
    return money(report["totals"][name]) if known else GAP


def _without(report: Part) -> RenderableType:
    return Text(f"without what has a {GAP}", style="yellow") if report["totals"]["without"] else ""


def _made_lines(report: Part) -> Iterator[RenderableType]:
    made, names = report["made"], report["totals"]["without"]
    if names:
        yield Text(f"Not in it: {'; '.join(names)}.", style="bold yellow")
    own = (
        f"{made['hours']:.1f} h of work for one good piece, its share of the mold and of lost castings in it"
    )
    yield facts([("Hours", own), *_run_rows(made)])


def _run_rows(made: Part) -> Iterator[tuple[str, str]]:
    if made["pieces"]:
        molds = f"{made['molds']} mold{'' if made['molds'] == 1 else 's'}"
        castings = (
            f"{made['starts_mean']:.1f} castings on average, {made['starts_p95']} to be sure 95 times in 100"
        )
        yield (
            "The run",
            f"{made['pieces']} good piece{'' if made['pieces'] == 1 else 's'}: {castings}, {molds}",
        )


def _price_lines(price: Part, money: Money) -> Iterator[RenderableType]:
    yield Text()
    yield Text.assemble(("Price", "bold"), f"  {' '.join(price['words'])}")
    yield _ways(price, money)
    even = price["even"]
    rows = [
        ("The mold", even["words"]),
        ("Months", even["month_words"]),
        ("At least", price["least"]["words"]),
    ]
    # brackets are names of tables here, no style
    yield facts([(name, escape(text)) for name, text in rows])


def _ways(price: Part, money: Money) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    for title in ("", "net", "tax", "shown", "you get", "profit", "margin", "mark-up"):
        table.add_column(title, justify="left" if not title else "right", no_wrap=bool(title))
    for way in price["ways"]:
        numbers = (money(way[name]) for name in ("net", "tax", "shown", "got", "profit"))
        table.add_row(Text(way["words"]), *numbers, _percent(way["margin"]), _percent(way["markup"]))
    for point in price["points"]:
        row = ("", money(point["shown"]), "", money(point["profit"]), _percent(point["margin"]), "")
        table.add_row(point["words"], money(point["net"]), *row)
    return table


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"


def _move_lines(moves: Iterable[Part], money: Money) -> Iterator[RenderableType]:
    yield Text()
    yield Text("What moves it", "bold")
    table = Table(box=None, pad_edge=False, header_style="dim")
    table.add_column("")
    table.add_column("cost", justify="right")
    table.add_column("price shown", justify="right")
    for move in moves:
        price = "" if move["price"] is None else money.signed(move["price"])
        table.add_row(move["words"], money.signed(move["cost"]), price)
    yield table
