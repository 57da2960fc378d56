"""The page of everything wooden: what is pencilled on each part, and how large it is sawn."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from pourwright.jobs.cut_part import CutPart
from pourwright.jobs.cut_sheet import CutSheet
from pourwright.sheets.pages.common import Page, fact, plural, table
from pourwright.sheets.wording import Wording

HEADS = ["", "pencil on it", "length × width", "thick", "sawn to", "grain along", "mass"]
GRAIN = {"length": "length", "width": "width", "any": "any"}


def list_pages(sheet: CutSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : CutSheet
        All that is told.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.list
    tables = [
        {
            "table": table([*HEADS[:1], board, *HEADS[2:]], [_row(one, words) for one in group], "llrrrlr"),
            "size": 8.5,
            "ticks": True,
        }
        for board, group in groupby(part.parts, key=lambda one: one.board)
    ]
    yield {
        "title": "Cut list",
        "note": "everything wooden",
        "lead": part.words[0],
        "facts": [
            fact("Parts", plural(len(part.parts), "part")),
            fact("Wood", words.mass(part.mass_kg), "finished, without the screws"),
        ],
        "blocks": [*tables, *({"text": text} for text in part.words[1:])],
    }


def _row(one: CutPart, words: Wording) -> list[str]:
    thick = words.length(one.thickness_m)
    return [
        "",
        one.mark,
        words.length(one.length_m)
        if one.bar
        else f"{words.length(one.length_m)} × {words.length(one.width_m)}",
        f"{words.length(one.width_m)} × {thick}" if one.bar else thick,
        " × ".join(words.length(side) for side in one.sawn_m) if one.oversize_m else "to size",
        GRAIN[one.grain],
        words.mass(one.mass_kg),
    ]
