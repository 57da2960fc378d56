"""A hollow piece as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns
from pourwright.cli.words import Words


def hollow_lines(part: Mapping[str, Any], words: Words) -> Iterator[RenderableType]:
    """Tell what a core saves.

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
    offers = [offer for offer in part["offers"] if offer["core_m3"]]
    if not offers:
        yield from (Text(text) for text in part["words"])
        return
    table = columns(("hollow to", "core", "piece", "saves", "of it resin", "money", "hold a foam core down"))
    for offer in offers:
        money = offer["money_saved"]
        table.add_row(
            words.length(offer["wall_m"]),
            words.volume(offer["core_m3"]),
            words.mass(offer["piece_kg"]),
            words.mass(offer["saved_kg"]),
            words.mass(offer["resin_saved_kg"]) if offer["resin_saved_kg"] else "-",
            "-" if money is None else f"{money:.0f} {part['currency']}",
            words.mass(offer["foam_weight_kg"]),
        )
    yield table
