"""A test cube, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def cube_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell the recipe of a test cube and where its numbers go.

    Parameters
    ----------
    part : mapping
        The part `cube` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text(f"Pour a test cube first, {words.length(part['edge_m'])} each way", style="bold")
    yield _layers(part, words)
    cube = f"{words.mass(part['mass_kg'])}; {_warmth(part, words)}"
    yield facts([*_mixes(part, words), ("The cube", cube), *_measures(part)])


def _layers(part: Part, words: Words) -> Table:
    table = columns(["layer", "up from its floor", "glass", "grade", "colour", "resin in it"])
    for layer in reversed(part["layers"]):
        table.add_row(
            layer["band"],
            f"{words.length(layer['from_m'])} up to {words.length(layer['to_m'])}",
            words.weighed(layer["glass_kg"]) if layer["grade"] else "neat",
            layer["grade"] or "",
            layer["colour"] or "",
            words.weighed(layer["resin_kg"]),
        )
    return table


def _mixes(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    for number, mix in enumerate(part["mixes"]):
        times = f", {mix['batches']} times" if mix["batches"] > 1 else ""
        a, b = words.weighed(mix["part_a_kg"]), words.weighed(mix["part_b_kg"])
        yield "then" if number else "Mix", f"{a} of A, {b} of B{times}, for {' and '.join(mix['layers'])}"


def _warmth(part: Part, words: Words) -> str:
    if part["peak_degC"] is None:
        return "poured at once it runs away"
    return f"poured at once about {words.temperature(part['peak_degC'])} in the middle; the piece gets hotter"


def _measures(part: Part) -> Iterator[tuple[str, str]]:
    name = "Measure"
    for each in part["measures"]:
        if each["goes_to"]:
            told = f", reckoned with {each['expected']}" if each["expected"] else ""
            yield name, f"{each['what']}{told}: {', '.join(each['goes_to'])}"
            name = ""
