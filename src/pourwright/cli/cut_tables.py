"""Everything wooden as the maker reads it in the terminal."""

from collections.abc import Callable, Iterator, Mapping
from itertools import groupby
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.told_lines import told_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]
TITLES = ("pencil on it", "length x width", "thick", "sawn to", "grain along", "mass")
GRAIN = {"length": "its length", "width": "its width", "any": "any way"}


def cut_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out master, list, sheets and steps.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Returns
    -------
    iterator of RenderableType
    """
    return told_lines(report, LOOKS)


def _master_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    yield Text()
    yield Text.assemble(("Master", "bold"), f" from {words.length(part['board_m'])} {part['board']}")
    rows = [
        ("Weighs", words.mass(part["mass_kg"])),
        ("Seal", f"{words.area(part['seal_m2'])}, {part['sealed']}"),
    ]
    if part["kind"] == "sliced":
        rows.append(("Left to sand", f"{words.length(part['sand_m'])} at most, on {part['sand_layer']}"))
    yield facts(rows)
    yield from (Text(text) for text in part["words"])


def _list_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    yield Text()
    yield Text.assemble(
        ("Cut list", "bold"), f": {len(part['parts'])} parts, {words.mass(part['mass_kg'])} of wood"
    )
    for board, group in groupby(part["parts"], key=lambda one: one["board"]):
        table = columns((board, *TITLES[1:]))
        for one in group:
            table.add_row(*_row(one, words))
        yield table
    faces = {one["face"]: one["belongs"] for one in part["parts"] if one["face"]}
    yield facts([(f"Face up, {of}", face) for face, of in faces.items()])
    yield from (Text(text) for text in part["words"])


def _row(one: Part, words: Words) -> tuple[str, ...]:
    sawn = words.size(one["sawn_m"]) if one["oversize_m"] else "to size"
    size = words.length(one["length_m"]) if one["bar"] else words.size((one["length_m"], one["width_m"]))
    thick = (
        words.size((one["width_m"], one["thickness_m"])) if one["bar"] else words.length(one["thickness_m"])
    )
    return one["mark"], size, thick, sawn, GRAIN[one["grain"]], words.mass(one["mass_kg"])


def _plan_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    for sheet in part["sheets"]:
        yield Text()
        size = words.size((sheet["length_m"], sheet["width_m"]))
        used = f"{100 * sheet['used_share']:.0f} % of it becomes parts"
        yield Text.assemble((sheet["name"], "bold"), f" {size}, {words.length(sheet['thickness_m'])}: {used}")
        for cut in sheet["cuts"]:
            edge = "left" if cut["axis"] == "x" else "lower"
            yield Text(
                f"  {cut['number']:2d}  {words.length(cut['at_m'])} from the {edge} edge, {cut['words']}"
            )
        if sheet["left"]:
            rest = ", ".join(words.size((one["length_m"], one["width_m"])) for one in sheet["left"])
            yield Text(f"  left over: {rest}")
    for bar in part["bars"]:
        cuts = ", ".join(f"{one['mark']} {words.length(one['length_m'])}" for one in bar["parts"])
        yield Text.assemble((bar["name"], "bold"), f" {words.length(bar['length_m'])}: {cuts}; ")
        yield Text(f"  left over: {words.length(bar['left_m'])}")
    yield from (Text(text) for text in part["words"])


def _assembly_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    del words
    yield Text()
    yield Text("Putting it together", "bold")
    for step in part["steps"]:
        marks = f" ({', '.join(step['marks'])})" if step["marks"] else ""
        yield Text(f"  {step['number']}. {step['title']}{marks}: {step['text']}")
    yield Text("Before rubber is mixed", "bold")
    yield from (Text(f"  [ ] {text}") for text in part["checks"])


LOOKS: Mapping[str, Callable[[Any, Words], Iterator[RenderableType]]] = {
    "master": _master_lines,
    "list": _list_lines,
    "plan": _plan_lines,
    "assembly": _assembly_lines,
}
"""How each part is told, by its field in the answer, in the order of the work."""
