"""Will it stick, and how the rubber is poured, as the maker reads it in the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.words import Words

Part = Mapping[str, Any]
_STYLES = {"fine": "green", "test first": "yellow", "no": "bold red"}


def contact_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Lay out the verdict, what it hangs on, and the coats.

    Parameters
    ----------
    part : mapping
        The part as JSON.
    words : Words
        Of the job.

    Yields
    ------
    RenderableType
    """
    yield Text()
    style, patch = _STYLES[part["verdict"]], part["patch"]
    yield Text.assemble(("Will it stick  ", "bold"), (part["verdict"], style), f": {patch['layers']}")
    if part["cells"]:
        yield _cells(part["cells"])
    yield _rows(
        [
            ("Sealer", _coat(part["sealer"], words)),
            ("Release", _coat(part["release"], words)),
            ("Test patch", _patch(part, words)),
            *([("Better", part["better"])] if part["better"] else []),
            *(("Not known", text) for text in part["unknown"]),
            ("Cast", f"{part['cast']} in the cured mold: {part['cast_verdict']}; {part['cast_why']}"),
        ]
    )


def _cells(cells: list[Part]) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    for title in ("face", "what the rubber minds", "bare", "with the coats", "known"):
        table.add_column(title)
    for cell in cells:
        by = f", by {cell['coat']}" if cell["coat"] else ""
        table.add_row(
            cell["face"],
            cell["what"],
            Text(cell["bare"], style=_STYLES[cell["bare"]]),
            Text.assemble((cell["left"], _STYLES[cell["left"]]), by),
            cell["known"].partition(":")[0],
        )
    return table


def _rows(rows: list[tuple[str, str]]) -> Table:
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column(style="dim", no_wrap=True)
    table.add_column()
    for row in rows:
        table.add_row(*row)
    return table


def _coat(coat: Part, words: Words) -> str:
    if not coat["coats"]:
        return "none" + (f": {coat['none_on']}" if coat["none_on"] else "")
    count = "1 coat" if coat["coats"] == 1 else f"{coat['coats']} coats"
    return f"{count} of {coat['name']}, {words.duration(coat['dries_h'])} to dry; {coat['how']}"


def _patch(part: Part, words: Words) -> str:
    patch = part["patch"]
    if patch["passed"]:
        return f"passed on {patch['passed']}, as the job says"
    if not patch["blocked"]:
        return "not needed; a spoonful on an offcut costs nothing"
    cures = words.duration(patch["cures_h"])
    return f"first of all: {cures} to cure; until it has come off clean no rubber is mixed"


def rubber_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Lay out batches, time and hands.

    Parameters
    ----------
    part : mapping
        The part as JSON.
    words : Words
        Of the job.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Pouring the rubber", style="bold")
    count = "1 batch" if part["batches"] == 1 else f"{part['batches']} batches"
    yield _rows(
        [
            (
                "Batches",
                f"{count} of {words.weighed(part['batch_kg'])}; {words.mass(part['spare_kg'])} spare",
            ),
            ("First coat", f"{words.mass(part['first_coat_kg'])} brushed on, out of the first batch"),
            *([("Skin", part["skin_wall"])] if part["skin_wall"] else []),
            ("Time", _time(part, words)),
            ("Marks", _marks(part, words)),
            ("Vacuum", part["pot"]),
            ("By volume", part["by_volume"]),
        ]
    )


def _time(part: Part, words: Words) -> str:
    works, alone, two = (words.duration(part[key]) for key in ("works_for_h", "alone_h", "in_two_h"))
    at = words.temperature(part["shop_degC"])
    return f"alone {alone}, in two {two}; it works for {works} at {at}"


def _marks(part: Part, words: Words) -> str:
    end = f"end mark {words.length(part['end_mark_m'])} up from the box's floor"
    if part["fill_mark_m"] is None:
        return end
    return f"fill to {words.length(part['fill_mark_m'])} before the master goes in, {end}"
