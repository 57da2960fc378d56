"""The page on which the box comes together: picture, steps, what is checked before rubber is mixed."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.cut_sheet import CutSheet, CutStep
from pourwright.sheets.pages.common import Page, table
from pourwright.sheets.wording import Wording


def assembly_pages(sheet: CutSheet, words: Wording) -> Iterator[Page]:
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
    del words
    part = sheet.assembly
    steps = table(["", "", "step, parts", "how"], [_row(step) for step in part.steps], "lrll")
    checks = table(["", "before rubber is mixed"], [["", text] for text in part.checks], "ll")
    yield {
        "title": "Putting it together",
        "note": "as the box stands while the rubber is poured",
        "blocks": [
            {"drawing": "drawings/assembly.svg", "alt": "Panels, space blocks and master, moved apart"},
            {"table": steps, "size": 9, "ticks": True},
            {"table": checks, "ticks": True},
        ],
    }
    placed = [{"drawing": f"drawings/{name}.svg", "alt": alt} for name, alt in part.pictures.items()]
    if placed:
        yield {"title": "Screws, battens and blocks in their places", "blocks": placed}


def _row(step: CutStep) -> list[str]:
    marks = f": {', '.join(step.marks)}" if step.marks else ""
    return ["", str(step.number), f"{step.title}{marks}", step.text]
