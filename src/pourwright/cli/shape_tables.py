"""A shape as the maker reads it in the terminal."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.size_tables import ledger_lines
from pourwright.cli.tables import facts, remark_lines
from pourwright.cli.tape_tables import tape_lines
from pourwright.cli.thin_tables import thin_lines
from pourwright.cli.way_tables import way_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]

LOOKS: Mapping[str, Callable[[Any, Words], Iterator[RenderableType]]] = {
    "tape": tape_lines,
    "ways": way_lines,
    "thin": thin_lines,
    "ledger": ledger_lines,
}
"""How each further look at a shape is told, by its key in the answer."""


def shape_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out what a shape is.

    Parameters
    ----------
    report : mapping
        The shape's answer as JSON.

    Yields
    ------
    RenderableType
    """
    words, piece = Words(report["units"]), report["piece"]
    weights = [("as " + name, words.mass(mass)) for name, mass in piece["mass_by_material_kg"].items()]
    yield Text(piece["name"], style="bold")
    yield facts(
        [
            ("Size", words.size(piece["size_m"])),
            ("Volume", words.doubted_volume(piece)),
            ("Surface", words.area(piece["area_m2"])),
            *weights,
            *_mixes_with_water(report.get("mixes", []), words),
        ]
    )
    yield from remark_lines("Mended or taken for granted", report.get("told", []), "yellow")
    for name, tell in LOOKS.items():
        if report.get(name):
            yield from tell(report[name], words)
    yield from remark_lines("Faults", [fault["message"] for fault in report.get("faults", [])], "red")


def _mixes_with_water(mixes: list[Part], words: Words) -> Iterator[tuple[str, str]]:
    for mix in mixes:
        parts = f"{words.mass(mix['powder_kg'])} powder + {words.mass(mix['water_kg'])} water"
        yield f"to mix, {mix['name'].lower()}", f"{parts}, allowance in it"
