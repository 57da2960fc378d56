"""Trapped air as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def air_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Lay out caught air.

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
    liquids = [each for each in (part["rubber"], part["casting"]) if each]
    yield Text()
    yield Text("Trapped air", style="bold")
    yield facts([(each["liquid"], f"{each['held']}: {each['words']}") for each in liquids])
    rows = [row for each in liquids for place in each["places"] for row in _rows(place, words)]
    if rows:
        yield facts(rows)


def _rows(place: Part, words: Words) -> Iterator[tuple[str, str]]:
    yield place["letter"], place_words(place, words)
    yield "", place["todo"]


def place_words(place: Part, words: Words) -> str:
    """What is caught at one place."""
    area = words.patch(place["area_m2"])
    if place["kind"] == "ceiling":
        return f"a level ceiling of {area} keeps bubbles, its middle {place['where']}"
    return (
        f"{words.volume(place['volume_m3'])} of air, {words.length(place['depth_m'])} deep over {area} of "
        f"surface, highest {place['where']}"
    )
