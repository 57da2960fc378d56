"""The printed mold: pages of plain words set by typst."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page
from pourwright.sheets.pages.mold_air import air_pages
from pourwright.sheets.pages.mold_blocks import blocks_pages
from pourwright.sheets.pages.mold_bodies import bodies_pages
from pourwright.sheets.pages.mold_box import box_pages
from pourwright.sheets.pages.mold_contact import contact_pages, rubber_pages
from pourwright.sheets.pages.mold_floats import floats_pages
from pourwright.sheets.pages.mold_hollow import hollow_pages
from pourwright.sheets.pages.mold_inserts import inserts_pages
from pourwright.sheets.pages.mold_seams import seams_pages, water_pages
from pourwright.sheets.pages.mold_way_out import way_out_pages
from pourwright.sheets.pages.mold_ways import ways_pages
from pourwright.sheets.parts_document import parts_content, set_pages
from pourwright.sheets.wording import Wording

PAGES: tuple[Callable[[MoldSheet, Wording], Iterator[Page]], ...] = (
    ways_pages,
    bodies_pages,
    blocks_pages,
    box_pages,
    contact_pages,
    rubber_pages,
    air_pages,
    floats_pages,
    way_out_pages,
    seams_pages,
    water_pages,
    hollow_pages,
    inserts_pages,
)
"""Makers of pages, in the order of the work; see `templates/parts.typ` for what a page may hold."""


def mold_pdf(sheet: MoldSheet, drawings: Mapping[str, str]) -> bytes:
    """Set the printed mold; the same mold gives the same bytes.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.
    drawings : mapping
        SVG document by path, as in ``drawings/section.svg``.

    Returns
    -------
    bytes
        A PDF file.
    """
    return set_pages(page_content(sheet), sheet.computed_for, drawings)


def page_content(sheet: MoldSheet) -> Page:
    """Fill every page.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.

    Returns
    -------
    dict
        What the template reads.
    """
    return parts_content(sheet, "mold", PAGES)
