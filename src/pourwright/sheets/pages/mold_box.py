"""The page of the box: bulge of each kind of panel, battens, what holds it together, who lifts it."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.mold_box import Box, BoxPanel
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = [
    "panel",
    "between supports",
    "bulges bare",
    "battens on each",
    "bulges as built",
    "in time",
    "in time, damp",
    "strength used",
    "or board of",
]
CREEP = (
    "Bulges are those of the first hours, three edges held and the rim free. Board that stays loaded for "
    "months bends on, in a damp shop still more: the two columns in time are upper ends. Seal the "
    "box and take the load off between casts."
)
NONE = "–"


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
    yield {
        "title": "The box holds" if _holds(box) else "The box does not hold",
        "lead": f"{_capital(box.joint_words)}. No panel bulges more than {words.bend(box.limit_m)}."
        if _holds(box)
        else f"{_capital(box.joint_words)}. See below what it lacks.",
        "facts": list(_facts(box, words)),
        "blocks": [
            {
                "drawing": "drawings/box-panels.svg",
                "alt": "Panels with their bulge, battens and fastenings",
                "height": 360,
            },
            {"table": table(HEADS, [_row(panel, words) for panel in box.panels], "llrlrrrrr"), "size": 8.0},
            *({"small": text} for text in _texts(box, words)),
        ],
    }


def _holds(box: Box) -> bool:
    return all(panel.battens is not None for panel in box.panels) and any(
        found.recommended for found in box.fastenings
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _facts(box: Box, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("board", words.length(box.thickness_m), box.board)
    if any(panel.battens for panel in box.panels):
        yield fact("battens", words.size(box.batten_section_m), f"{box.batten}, on edge")
    thick = words.bend(box.rubber_with_bulge_m)
    yield fact("rubber", thick, f"least {words.length(box.least_rubber_m)} and the bulge")
    yield fact("filled mold", words.mass(box.filled_kg), box.lifting)


def _texts(box: Box, words: Wording) -> Iterator[str]:
    first, *others = box.fastenings
    yield f"Corners: {'take ' if first.recommended else ''}{first.text}."
    yield f"Or: {'; or '.join(found.text for found in others)}."
    if box.often:
        yield box.often
    yield f"Base board, from below: {'; '.join(each.text for each in box.base)}."
    for panel in box.panels:
        if panel.batten_lie == "level":
            force = words.force(panel.batten_end_N)
            yield (
                f"The battens on each {panel.name} are screwed to those beside them at the corners, or tied: "
                f"each end pulls with up to {force}."
            )
    yield box.head
    yield f"Least rubber: {box.wall_text}."
    yield CREEP


def _row(panel: BoxPanel, words: Wording) -> list[str]:
    def bend(metres: float | None) -> str:
        return NONE if metres is None else words.bend(metres)

    return [
        f"{panel.count} × {panel.name}",
        words.size((panel.width_m, panel.height_m)),
        "far too thin" if panel.bulge_m is None else words.bend(panel.bulge_m),
        _battens(panel),
        bend(panel.held_m),
        bend(panel.bulge_in_time_m),
        bend(panel.bulge_in_damp_m),
        words.share(panel.stress_share) if panel.battens is not None else NONE,
        NONE if panel.board_instead_m is None else words.length(panel.board_instead_m),
    ]


def _battens(panel: BoxPanel) -> str:
    if panel.battens is None:
        return "too few"
    if panel.battens == 0:
        return "none"
    return f"{panel.battens} level" if panel.batten_lie == "level" else f"{panel.battens - 1} upright, 1 rim"
