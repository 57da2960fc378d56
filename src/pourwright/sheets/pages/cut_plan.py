"""The pages of the sheets and bars: where each part lies, and in which order the saw goes."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.cut_nested import NestedSheet
from pourwright.jobs.cut_sheet import CutSheet
from pourwright.sheets.cut_sheet_drawing import cut_words
from pourwright.sheets.pages.common import Page, table
from pourwright.sheets.wording import Wording

HEADS = ["", "", "set the saw", "what is cut: what it gives"]


def plan_pages(sheet: CutSheet, words: Wording) -> Iterator[Page]:
    """Fill a page for each sheet, and one for all bars.

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
    plan = sheet.plan
    for number, one in enumerate(plan.sheets, start=1):
        yield _sheet_page(number, one, words, plan.words if number == 1 else [])
    if plan.bars:
        drawn = {"drawing": "drawings/bars.svg", "alt": "Bars with the parts that are cut from them"}
        yield {"title": "Bars", "note": "cut to length", "blocks": [drawn]}


def _sheet_page(number: int, one: NestedSheet, words: Wording, told: list[str]) -> Page:
    size = f"{words.length(one.length_m)} × {words.length(one.width_m)}"
    cuts = [["", str(cut.number), cut_words(cut, words), cut.words] for cut in one.cuts]
    return {
        "title": f"Sheet {number}",
        "note": f"{one.name}, {size}, {words.length(one.thickness_m)}",
        "blocks": [
            {"drawing": f"drawings/sheet-{number}.svg", "alt": f"Cuts of {one.name}"},
            {
                "table": table(["", "", "set the saw", "what is cut: what it gives"], cuts, "lrll"),
                "size": 8,
                "ticks": True,
            },
            *({"small": text} for text in told),
        ],
    }
