"""Bands beside their weights, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def bands_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell where the bands are, what is missing, what moves, borders and shells.

    Parameters
    ----------
    part : mapping
        The part `bands` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("The bands", style="bold")
    for text in part["standing"]:
        yield Text(text, style="yellow")
    for one in [*part["shells"], *part["soft"], *part["moves"]]:
        yield Text(one["text"])
    if part["missing"]:
        yield _missing(part["missing"], words)
    if part["stock"]:
        yield Text(f"Left over, before anything is mixed in: {_left(part, words)}")
    for text in part["notes"]:
        yield Text(text, style="dim")


def _missing(missing: list[Part], words: Words) -> Table:
    table = columns(
        ["missing for", "glass", "wanted", "there", "the band ends at", "as it stands", "or mix in"]
    )
    for one in missing:
        ends, standing = one["ends_at_m"], one["ends_at_standing_m"]
        table.add_row(
            one["band"],
            f"{one['colour']} {one['grade']}",
            words.mass(one["wanted_kg"]),
            words.mass(one["there_kg"]),
            "" if ends is None else words.length(ends),
            "" if standing is None else words.length(standing),
            "" if one["mix_in"] is None else f"{words.share(one['mix_in_share'])} {one['mix_in']}",
        )
    return table


def _left(part: Part, words: Words) -> str:
    lots = [f"{words.mass(each['mass_kg'])} {each['colour']} {each['grade']}" for each in part["left"]]
    return ", ".join(lots) or "nothing"
