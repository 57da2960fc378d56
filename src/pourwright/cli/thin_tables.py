"""Thin parts, corners and edges, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.words import Words

Part = Mapping[str, Any]
STYLES = {"ok": "", "mind": "yellow", "stop": "red"}


def thin_lines(thin: Part, _: Words) -> Iterator[RenderableType]:
    """Lay out what is thin or sharp, numbered as in the picture.

    Parameters
    ----------
    thin : mapping
        Of the shape's answer.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Thin and sharp", style="bold")
    for place in thin["places"]:
        yield Text(f"{place['number']}  {place['text']}", style=STYLES[place["level"]])
    if thin["square"]:
        yield Text(f"   {thin['square']}")
    if any(place["kind"] in ("inner corner", "outer edge") for place in thin["places"]):
        yield Text("   for roundings: round and round_inner in [shape], or the program the file comes from")
