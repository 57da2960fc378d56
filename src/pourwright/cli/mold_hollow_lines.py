"""A hollow piece as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.hollow_rows import hollow_rows
from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

HEADS = ("cast hollow to", "core", "weighs", "lighter by", "less resin", "saves", "weight on a foam core")


def hollow_lines(part: Mapping[str, Any], words: Words) -> Iterator[RenderableType]:
    """Tell what a core saves, or would save.

    Parameters
    ----------
    part : mapping
        The part `hollow` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    chosen = part["chosen"]
    if chosen is not None:
        yield facts(hollow_rows(chosen, words))
        yield from (Text(text) for text in (*chosen["words"], *part["words"]))
        return
    offers = [offer for offer in part["offers"] if offer["core_m3"]]
    if not offers:
        yield from (Text(text) for text in part["words"])
        return
    yield from (Text(f"{line[:1].upper()}{line[1:]}") for line in part["lines"])
    yield _table(offers, part["currency"], words)


def _table(offers: list[Mapping[str, Any]], currency: str | None, words: Words) -> Table:
    table = columns(HEADS)
    for offer in offers:
        money = offer["money_saved"]
        table.add_row(
            words.length(offer["wall_m"]),
            words.volume(offer["core_m3"]),
            words.mass(offer["piece_kg"]),
            words.mass(offer["saved_kg"]),
            words.mass(offer["resin_saved_kg"]) if offer["resin_saved_kg"] else "-",
            "-" if money is None else f"{money:.0f} {currency}",
            words.mass(offer["foam_weight_kg"]),
        )
    return table
