"""How a mold can be made, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from math import ceil
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns
from pourwright.cli.words import Words

Part = Mapping[str, Any]
LINES = ("none", "one", "all", "two")
HELD = {"bed": "in clay"}


def ways_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Lay out the ways of making a mold, and the one to take.

    Parameters
    ----------
    part : mapping
        Of the mold's answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    money = part["currency"]
    bought = any(_bought(way["money"]) for way in part["ways"])
    cost = [money] if money is not None and bought else []
    cost += ["a cast"] if cost and any(way["money"]["per_cast"] is not None for way in part["ways"]) else []
    yield Text()
    yield Text("How it is made", style="bold")
    heads = ["", "", "master", "rubber", "mix", "pails", "work", "days", "lines", "casts", *cost]
    table = columns(heads)
    for number, way in enumerate(part["ways"], 1):
        style = "bold" if way["recommended"] else "" if way["possible"] else "dim"
        table.add_row(*_row(number, way, words, priced=len(cost)), style=style)
    yield table
    taken = part["recommended"] is not None
    yield Text.assemble(("Take " if taken else "", "bold"), part["why"])
    if part["change"]:
        yield Text(part["change"])
    for number, way in enumerate(part["ways"], 1):
        for reason in way["no"]:
            yield Text(f"{number}  cannot be: {reason}", style="dim")
    chosen = next((way for way in part["ways"] if way["in_job"]), None)
    if chosen is not None:
        yield Text(f"The job has {chosen['words']}; the master floats: {chosen['floats']}.")


def _row(number: int, way: Part, words: Words, priced: int) -> list[str]:
    mark = "*" if way["recommended"] else "job" if way["in_job"] else ""
    told = [
        f"{number} {mark}".strip(),
        way["words"].removeprefix("one block, ") if way["space_blocks"] else way["words"],
        HELD.get(way["held"], way["held"]),
        words.volume(way["rubber_volume_m3"]),
        words.mass(way["mixed_kg"]),
        str(way["batches"]),
        f"{way['work_h']:.0f} h",
        str(ceil(way["elapsed_h"] / 24)),
        LINES[way["parting_lines"]],
        f"{way['casts_low']:.0f}-{way['casts_high']:.0f}",
    ]
    told += [_money(_bought(way["money"])), _money(way["money"]["per_cast"])][:priced]
    return told if way["possible"] else [*told[:8], "no", *[""] * (len(told) - 9)]


def _bought(money: Part) -> float | None:
    """Rubber, wood and shell together; None where one has no price."""
    parts = [money[name] for name in ("rubber", "wood", "shell")]
    return None if None in parts else sum(parts)


def _money(amount: float | None) -> str:
    return "" if amount is None else f"{amount:.0f}"
