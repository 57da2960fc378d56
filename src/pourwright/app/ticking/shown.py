"""The list as the page shows it: every sheet with its cuts and parts, in words."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pourwright.app.papering.paper import papers_of
from pourwright.app.ticking.listed import CUT, Listed, Wood
from pourwright.app.working.answers import kept_paper
from pourwright.app.working.works import Works
from pourwright.foundation.errors import NotThereError
from pourwright.jobs.cut_nested import NestedBar, NestedSheet
from pourwright.jobs.cut_part import CutPart
from pourwright.sheets.cut_bars_drawing import cuts_of, draw_cut_bars
from pourwright.sheets.cut_sheet_drawing import cut_words, draw_cut_sheet

GRAIN = {"length": "along its length", "width": "along its width", "any": "either way"}
Row = dict[str, Any]


def shown_list(listed: Listed) -> Row:
    """Tell the list.

    Parameters
    ----------
    listed : Listed
        The list.

    Returns
    -------
    dict
        ``sheets`` and ``bars``, each with ``name``, ``title``, ``about``, ``cuts`` and ``parts``; ``words``,
        ``warnings`` and ``cautions`` to mind.
    """
    told = [_wood(listed, wood) for wood in listed.wood]
    plan, parts = listed.sheet.plan, listed.sheet.list
    return {
        "made": listed.words.dated(listed.sheet.computed_for),
        "sheets": [one for one in told if one["name"].startswith("sheet-")],
        "bars": [one for one in told if one["name"].startswith("bar-")],
        "words": [*parts.words, *plan.words],
        "warnings": list(listed.sheet.warnings),
        "cautions": list(listed.sheet.cautions),
    }


def sheet_drawing(listed: Listed, number: int) -> str:
    """Draw a sheet by its number, from 1 on, as SVG."""
    return draw_cut_sheet(listed.nested(number), listed.words)


def bars_drawing(listed: Listed) -> str:
    """Draw all bars, as SVG."""
    if not listed.sheet.plan.bars:
        raise NotThereError("no bars are in this list", todo="load the page again")
    return draw_cut_bars(listed.sheet.plan.bars, listed.words)


def paper_of(works: Works, file: Path, listed: Listed) -> bytes:
    """Give the list on paper: that of the list which is shown, also where the job has changed since.

    Parameters
    ----------
    works : Works
        Knows where it is kept.
    file : Path
        The job file.
    listed : Listed
        The list.

    Returns
    -------
    bytes
        A PDF file.

    Raises
    ------
    NotThereError
        For the paper of an old list that is no longer kept.
    """
    if not listed.old:
        return papers_of(file, listed.variant).pdf(CUT)
    found = kept_paper(works.answers(file.parent).get(f"{CUT} on paper", {}).get(listed.variant))
    if found is None:
        raise NotThereError("the paper of this older list is no longer kept", todo="work the list out anew")
    return found


def _wood(listed: Listed, wood: Wood) -> Row:
    of, words = wood.of, listed.words
    number = wood.name.partition("-")[2]
    if isinstance(of, NestedSheet):
        title, size = f"Sheet {number}", (of.length_m, of.width_m, of.thickness_m)
        cuts, turned = list(_sheet_cuts(listed, of)), {part.mark for part in of.parts if part.turned}
    else:
        title, size = f"Bar {number}", (of.length_m, of.width_m, of.thickness_m)
        cuts, turned = list(_bar_cuts(listed, of)), set()
    return {
        "name": wood.name,
        "number": int(number),
        "title": title,
        "about": f"{of.name}, {words.size(size)}",
        "cuts": cuts,
        "parts": [
            _part(listed, listed.parts[mark], turned=mark in turned)
            for mark in listed.parts
            if mark in wood.marks
        ],
    }


def _sheet_cuts(listed: Listed, sheet: NestedSheet) -> Iterator[Row]:
    for cut in sheet.cuts:
        yield {"number": cut.number, "at": cut_words(cut, listed.words), "what": cut.words}


def _bar_cuts(listed: Listed, bar: NestedBar) -> Iterator[Row]:
    """As they are numbered in the drawing: the trim first, then behind each part."""
    told = [(bar.trim_m, "trim the left end")] if bar.trim_m else []
    told += [(part.length_m, part.mark) for part in bar.parts]
    for number, ((length, what), _) in enumerate(zip(told, cuts_of(bar), strict=False), start=1):
        at = f"{listed.words.length(length)} from the end that was cut last"
        yield {"number": number, "at": at, "what": what}


def _part(listed: Listed, part: CutPart, *, turned: bool) -> Row:
    words = listed.words
    size, sawn = (one[:1] if part.bar else one for one in ((part.length_m, part.width_m), part.sawn_m))
    return {
        "mark": part.mark,
        "size": words.size(size),
        "sawn": words.size(sawn),
        "grain": GRAIN[part.grain] + (", lies turned" if turned else ""),
        "face": part.face,
    }
