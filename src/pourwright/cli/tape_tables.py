"""How sure the size of a measured body is, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns
from pourwright.cli.words import Words


def tape_lines(told: Mapping[str, Any], words: Words) -> Iterator[RenderableType]:
    """Lay out the causes of doubt, the largest first.

    Parameters
    ----------
    told : mapping
        The ``tape`` part of the answer.
    words : Words
        In the maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("How sure its size is", style="bold")
    table = columns(["give or take", "because of"])
    for cause in told["causes"]:
        table.add_row(words.volume(cause["give_or_take_m3"]), cause["text"])
    table.add_row(words.volume(told["give_or_take_m3"]), "all of the tape together, which is not their sum")
    if told["by_water_m3"] is not None:
        table.add_row(words.volume(told["water_give_or_take_m3"]), "the water: caught, weighed or read")
        table.add_row(words.volume(told["give_or_take_of_both_m3"]), "tape and water together")
    yield table
