"""A fit as it is read in the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts, remark_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]
COMPARED = "depth"
"""Answer that is told again without each fact."""


def fit_lines(answer: Part) -> Iterator[RenderableType]:
    """Lay out a fit: facts, answers, contradictions, what stays uncertain.

    Parameters
    ----------
    answer : mapping
        The fit document as JSON.

    Yields
    ------
    RenderableType
    """
    words = Words(answer["units"])
    invented = "  (an example: its data are invented)" if answer["invented"] else ""
    yield Text.assemble((answer["name"], "bold"), f", cured by {answer['hardener']}", (invented, "dim"))
    yield Text()
    yield _facts(answer, words)
    yield Text()
    yield facts(
        [(each["words"], f"{_value(each, words)}  ({_band(each, words)})") for each in answer["answers"]]
    )
    yield Text("Each band holds 8 of 10 such resins.", style="dim")
    yield Text()
    yield from remark_lines("Contradictions", [each["text"] for each in answer["contradictions"]], "red")
    yield from remark_lines("Unusual for this family", answer["unusual"], "yellow")
    yield from remark_lines("Well known now", answer["narrowed"], "")
    yield from remark_lines("Stays uncertain", answer["uncertain"], "")
    yield from remark_lines("Notes", answer["notes"], "")


def _facts(answer: Part, words: Words) -> Table:
    table = columns(["fact", "stated", "fitted", "the others tell", "greatest depth without it"])
    for fact in answer["facts"]:
        without = next((each for each in fact["without"] if each["key"] == COMPARED), None)
        depth = "" if without is None else _band(without, words)
        if fact["unit"] is None:
            table.add_row(fact["label"], f"{_rows(answer, fact['label'])} rows", "", "", depth)
            continue
        others = fact["others"]
        table.add_row(
            fact["label"],
            _shown(fact["stated"], fact["unit"], words),
            Text(_shown(fact["fitted"], fact["unit"], words), style="bold red" * (abs(fact["missed"]) > 2)),
            _band(others, words),
            depth,
        )
    return table


def _rows(answer: Part, label: str) -> int:
    return next((int(cup["rows"]) for cup in answer["cups"] if cup["label"] == label), 0)


def _shown(value: float, unit: str, words: Words) -> str:
    tellers = {"h": words.duration, "degC": words.temperature, "m": words.length}
    return tellers[unit](value)


def _value(told: Part, words: Words) -> str:
    return _shown(told["value"], told["unit"], words)


def _band(told: Part, words: Words) -> str:
    low, high = (_shown(told[key], told["unit"], words) for key in ("value_p10", "value_p90"))
    return f"{low} to {high}"
