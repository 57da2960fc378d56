"""Seams and water test as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]
SHOWN = 5
"""Marks of the water test that are told here; all of them are on paper."""


def seams_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Rank the seams of each liquid.

    Parameters
    ----------
    part : mapping
        The part `seams` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Where it may leak", style="bold")
    table = columns(
        ("", "liquid", "seam", "length", "head", "way out", "gap", "loses", "if paper fits", "no wider than")
    )
    # words break before a number is cut off
    for column in table.columns[1:3]:
        column.no_wrap = False
        column.min_width = 8
    table.columns[-1].no_wrap = table.columns[-2].no_wrap = False
    for leaks in part["liquids"]:
        for seam in leaks["seams"]:
            table.add_row(*_row(leaks, seam, words))
    yield table
    yield from (Text(leaks["words"]) for leaks in part["liquids"])
    yield from (Text(text) for text in part["words"])


def _row(leaks: Part, seam: Part, words: Words) -> tuple[str, ...]:
    widest = seam["widest_gap_m"]
    return (
        str(seam["number"]),
        leaks["liquid"],
        seam["name"].partition(",")[0],
        words.length(seam["length_m"]),
        words.length(seam["head_m"]),
        words.length(seam["way_out_m"]),
        words.cut(seam["gap_m"]),
        words.mass(seam["lost_kg"]),
        words.mass(seam["lost_paper_kg"]),
        "any" if widest is None else words.cut(widest),
    )


def water_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell the water test.

    Parameters
    ----------
    part : mapping
        The part `water_test` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Water test", style="bold")
    step = max(round(len(part["marks"]) / SHOWN), 1)
    shown = [*part["marks"][step - 1 : -1 : step], part["marks"][-1]]
    told = ", ".join(f"{words.volume(mark['water_m3'])} at {words.length(mark['dip_m'])}" for mark in shown)
    mold = "" if part["mold_kg"] is None else f"; mold and water {words.mass(part['mold_kg'])}"
    lifted = "one person lifts it" if part["people"] == 1 else "not to be lifted while it is full"
    yield facts(
        [
            (
                "Water",
                f"{words.volume(part['water_m3'])}{mold}: {lifted}",
            ),
            ("Dips from the rim", f"{told}; the others are in mold.pdf"),
            ("Readings", part["reading"][-1]),
            ("Drying", part["drying"][0]),
        ]
    )
