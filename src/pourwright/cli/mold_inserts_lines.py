"""What is set into a casting, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns
from pourwright.cli.words import Words

HEADS = ("insert", "wide", "deep", "from", "at", "edge", "least", "hold")
AXES = {"top": "xy", "bottom": "xy", "left": "yz", "right": "yz", "front": "xz", "back": "xz"}


def inserts_lines(part: Mapping[str, Any], words: Words) -> Iterator[RenderableType]:
    """Tell where inserts sit, how they are held and sealed.

    Parameters
    ----------
    part : mapping
        The part `inserts` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    table = columns(HEADS)
    for insert in part["inserts"]:
        table.add_row(
            insert["name"],
            words.length(insert["diameter_m"]),
            words.length(insert["depth_m"]),
            insert["face"],
            _place(insert, words),
            words.length(insert["edge_m"]),
            words.length(insert["edge_needed_m"]),
            words.mass(insert["weight_needed_kg"]) if insert["weight_needed_kg"] > 0 else "it sinks",
        )
    yield table
    for kind in dict.fromkeys(insert["kind"] for insert in part["inserts"]):
        first = next(insert for insert in part["inserts"] if insert["kind"] == kind)
        yield Text(f"{kind.capitalize()}: {first['sealed']}.")
    for insert in part["inserts"]:
        ends = _ENDS[insert["ends"]].format(words.length(insert["beyond_m"]))
        heat = "" if insert["most_heat_W"] is None else f"; at most {insert['most_heat_W']:.2g} W of heat"
        yield Text(f"{insert['name']} {insert['held']}; {ends}{heat}.")
    yield from (Text(text) for text in part["words"])


_ENDS = {"core": "it goes to the core", "face": "it goes right through", "casting": "{} of casting behind it"}


def _place(insert: Mapping[str, Any], words: Words) -> str:
    named = dict(zip("xyz", insert["from_m"], strict=True))
    return ", ".join(f"{axis} {words.coordinate(named[axis])}" for axis in AXES[insert["face"]])
