"""All variants of a job side by side, as the maker reads them in the terminal."""

from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.cost_tables import GAP, WHERE, Money, prices_words
from pourwright.cli.tables import headline, remark_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]
TITLES = {
    "cost": "cost", "shown": "price", "margin": "margin", "days": "days in mold", "hours": "work",
    "weight": "weight", "over_limit": "too hot", "per_month": "a month",
}  # fmt: skip
DAY = 24.0


def cost_variants_lines(report: Part, *, trace: bool = False) -> Iterator[RenderableType]:
    """Lay out a row for each variant, what is not known under the table.

    Parameters
    ----------
    report : mapping
        The answer as JSON.
    trace : bool
        Whether each number is opened down to where it stands.

    Yields
    ------
    RenderableType
    """
    words = Words.of(report["job"])
    money = Money(report["currency"], words)
    yield headline(report["job"])
    yield Text(f"All variants side by side; {prices_words(report['prices'])}", style="dim")
    yield Text()
    yield _table(report, words, money)
    yield Text()
    yield from remark_lines("Not known", list(_gaps(report)), "yellow")
    if trace:
        yield from remark_lines("Where each number stands", list(_traced(report)), "")
    yield from remark_lines("How it is reckoned", [*_told(report), *report["notes"]], "")
    yield from remark_lines("Mind this", report["warnings"], "yellow")


def _table(report: Part, words: Words, money: Money) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    table.add_column("", overflow="fold")
    for column in report["columns"]:
        name = TITLES[column["key"]]
        code = f" {money.currency}" if column["key"] in ("cost", "shown") else ""
        table.add_column(f"{name}{code}", justify="right", no_wrap=True)
    best = _best(report)
    for row in report["variants"]:
        cells = {cell["key"]: cell for cell in row["cells"]}
        shown = [
            _cell(cells.get(column["key"]), words, money, best=(row["name"], column["key"]) in best)
            for column in report["columns"]
        ]
        title = Text.assemble((row["name"], "bold"), (f"\n{row['material']}, {row['surface']}", "dim"))
        table.add_row(title, *shown)
    return table


def _cell(cell: Part | None, words: Words, money: Money, *, best: bool) -> Text:
    if cell is None or cell["gap"]:
        return Text(GAP, style="bold yellow")
    return Text(_number(cell, words, money), style="bold green" if best else "")


def _number(cell: Part, words: Words, money: Money) -> str:
    if cell["money"] is not None:
        more = f" {GAP}" if cell["key"] == "cost" and cell["words"] else ""
        return f"{money(cell['money'])}{more}"
    say: Mapping[str, Callable[[float], str]] = {
        "weight": words.mass,
        "days": lambda days: words.duration(DAY * days),
        "hours": "{:.1f} h".format,
        "per_month": "{:.1f}".format,
    }
    if cell["key"] in say:
        return say[cell["key"]](cell["value"])
    return str(cell["words"]).partition(" too hot")[0].removeprefix("about ")


def _best(report: Part) -> set[tuple[str, str]]:
    """The best of each column, where two or more are known and they differ; no cost with a gap in it."""
    found = set()
    for column in report["columns"]:
        known = {
            row["name"]: value
            for row in report["variants"]
            for cell in row["cells"]
            if cell["key"] == column["key"] and (value := _value(cell, row)) is not None
        }
        if len(set(known.values())) > 1:
            of = min if column["less_is_better"] else max
            wanted = of(known.values())
            found |= {(name, column["key"]) for name, value in known.items() if value == wanted}
    return found


def _value(cell: Part, row: Part) -> float | Decimal | None:
    if cell["key"] in ("cost", "shown") and row["cost"]["totals"]["without"]:
        return None
    return cell["value"] if cell["money"] is None else Decimal(cell["money"])


def _gaps(report: Part) -> Iterator[str]:
    """What is missing, said once for all the variants that it is missing for."""
    found: dict[str, list[str]] = {}
    for row in report["variants"]:
        if row["gap"]:
            yield f"{row['name']}: {row['gap']}"
        for cell in row["cells"]:
            if cell["gap"]:
                name = f"{row['name']}: {TITLES[cell['key']]}"
                found.setdefault(cell["gap"], []).append(name)
            elif cell["key"] == "cost" and cell["words"]:
                yield f"{row['name']}: the cost is {cell['words']}"
    yield from (f"{'; '.join(names)}: {gap}" for gap, names in found.items())


def _told(report: Part) -> Iterator[str]:
    """What the short titles mean, and what a chance holds besides."""
    yield (
        "Days in the mold: first pour until it may leave, and the mold's rest; a month: good pieces of one "
        "mold and one person at most. Green is the best of its column."
    )
    for row in report["variants"]:
        for cell in row["cells"]:
            if cell["key"] == "over_limit" and "," in cell["words"]:
                yield f"{row['name']}: {cell['words']}."


def _traced(report: Part) -> Iterator[str]:
    for row in report["variants"]:
        for cell in row["cells"]:
            for one in cell["made_of"]:
                place = f"{WHERE[one['where']]} {one['path']}".strip()
                value = f"{one['value']:.6g} {one['unit']}".strip()
                yield f"{row['name']}, {TITLES[cell['key']]}: {one['words']}, {value}, {place}"
