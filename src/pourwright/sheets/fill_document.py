"""The printed fill: pages of plain words set by typst."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.pages.common import Page
from pourwright.sheets.pages.fill_bands import bands_pages
from pourwright.sheets.pages.fill_batches import batches_pages
from pourwright.sheets.pages.fill_bottles import bottles_pages
from pourwright.sheets.pages.fill_cube import cube_pages
from pourwright.sheets.pages.fill_laid import laid_pages
from pourwright.sheets.pages.fill_mineral import mineral_pages
from pourwright.sheets.pages.fill_setting_heat import setting_heat_pages
from pourwright.sheets.pages.fill_shrinks import shrinks_pages
from pourwright.sheets.pages.fill_voids import voids_pages
from pourwright.sheets.pages.fill_ways import ways_pages
from pourwright.sheets.parts_document import parts_content, set_pages
from pourwright.sheets.wording import Wording

PAGES: tuple[Callable[[FillSheet, Wording], Iterator[Page]], ...] = (
    bands_pages,
    laid_pages,
    voids_pages,
    bottles_pages,
    ways_pages,
    batches_pages,
    mineral_pages,
    setting_heat_pages,
    shrinks_pages,
    cube_pages,
)
"""Makers of pages, in the order of the work; see `templates/parts.typ` for what a page may hold."""


def fill_pdf(sheet: FillSheet, drawings: Mapping[str, str]) -> bytes:
    """Set the printed fill; the same fill gives the same bytes.

    Parameters
    ----------
    sheet : FillSheet
        All that is told.
    drawings : mapping
        SVG document by path.

    Returns
    -------
    bytes
        A PDF file.
    """
    return set_pages(parts_content(sheet, "fill", PAGES), sheet.computed_for, drawings)
