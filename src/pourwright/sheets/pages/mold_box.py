"""The page of the box: bulge of each kind of panel, battens, who lifts it."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import format_length
from pourwright.jobs.mold_box import Box, BoxPanel
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = [
    "panel",
    "between supports",
    "pressed by",
    "bulges bare",
    "battens on each",
    "bulges with them",
    "or board of",
]
CREEP = (
    "Bulges are those of the first hours, three edges held and the rim free. Board that stays loaded for "
    "months bends on: up to {crept} here, more in a damp shop. Seal the "
    "box and take the load off between casts."
)


def box_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : MoldSheet
        With its box, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    box = sheet.box
    if box is None:
        return
    crept = _fine(words, max(panel.bulge_in_time_m for panel in box.panels))
    yield {
        "title": "The box holds",
        "lead": f"The limit is {words.length(box.limit_m)}, under the densest liquid ever poured.",
        "facts": list(_facts(box, words)),
        "blocks": [
            {"table": table(HEADS, [_row(panel, words) for panel in box.panels], "lllrrrr"), "size": 8.5},
            {"small": CREEP.format(crept=crept)},
        ],
    }


def _facts(box: Box, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("board", words.length(box.thickness_m), box.board)
    yield fact("battens", words.size(box.batten_section_m), f"{box.batten}, on edge, one along the rim")
    yield fact("filled mold", words.mass(box.filled_kg), _help(box.people))


def _help(people: int) -> str:
    if people == 1:
        return "one person"
    return "lift it with two" if people == 2 else "a hoist, or a trolley at table height"


def _row(panel: BoxPanel, words: Wording) -> list[str]:
    return [
        f"{panel.count} × {panel.name}",
        words.size((panel.width_m, panel.height_m)),
        panel.liquid,
        _fine(words, panel.bulge_m),
        "too few" if panel.battens is None else str(panel.battens),
        _fine(words, panel.held_m),
        words.length(panel.board_instead_m),
    ]


def _fine(words: Wording, metres: float) -> str:
    return format_length(metres, words.system, digits=1)
