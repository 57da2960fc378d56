"""The printed cut list: pages of plain words set by typst."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from pourwright.jobs.cut_sheet import CutSheet
from pourwright.sheets.pages.common import Page
from pourwright.sheets.pages.cut_assembly import assembly_pages
from pourwright.sheets.pages.cut_list import list_pages
from pourwright.sheets.pages.cut_plan import plan_pages
from pourwright.sheets.parts_document import parts_content, set_pages
from pourwright.sheets.wording import Wording

PAGES: tuple[Callable[[CutSheet, Wording], Iterator[Page]], ...] = (list_pages, plan_pages, assembly_pages)
"""Makers of pages, in the order of the work; see `templates/parts.typ` for what a page may hold."""


def cut_pdf(sheet: CutSheet, drawings: Mapping[str, str]) -> bytes:
    """Set the printed cut list; the same list gives the same bytes.

    Parameters
    ----------
    sheet : CutSheet
        All that is told.
    drawings : mapping
        SVG document by path, as in ``drawings/assembly.svg``.

    Returns
    -------
    bytes
        A PDF file.
    """
    return set_pages(parts_content(sheet, "cut list", PAGES), sheet.computed_for, drawings)
