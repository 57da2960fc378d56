"""The printed mold: pages of plain words set by typst."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from importlib.resources import files
from typing import cast

import typst

from pourwright.foundation.files import canonical_json
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.document import PAPERS
from pourwright.sheets.pages.common import Page, breakable
from pourwright.sheets.pages.mold_bodies import bodies_pages
from pourwright.sheets.pages.mold_box import box_pages
from pourwright.sheets.pages.mold_contact import contact_pages, rubber_pages
from pourwright.sheets.pages.mold_hollow import hollow_pages
from pourwright.sheets.pages.mold_sources import mold_sources_page
from pourwright.sheets.pages.mold_way_out import way_out_pages
from pourwright.sheets.pages.mold_ways import ways_pages
from pourwright.sheets.wording import Wording, utc

PAGES: tuple[Callable[[MoldSheet, Wording], Iterator[Page]], ...] = (
    ways_pages,
    bodies_pages,
    box_pages,
    contact_pages,
    rubber_pages,
    way_out_pages,
    hollow_pages,
)
"""Makers of pages, in the order of the work; see `templates/mold.typ` for what a page may hold."""


def mold_pdf(sheet: MoldSheet, drawings: dict[str, str]) -> bytes:
    """Set the printed mold; the same mold gives the same bytes.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.
    drawings : dict
        SVG document by path, as in ``drawings/section.svg``.

    Returns
    -------
    bytes
        A PDF file.
    """
    content = breakable(page_content(sheet))
    templates = files("pourwright.sheets").joinpath("templates")
    project = {"main": templates.joinpath("mold.typ").read_bytes()}
    project["look.typ"] = templates.joinpath("look.typ").read_bytes()
    project["data.json"] = canonical_json(content)
    project |= {name: text.encode() for name, text in drawings.items()}
    # the library takes a folder of files in memory, its type hints do not know it yet
    return typst.compile(
        cast("bytes", project),
        format="pdf",
        timestamp=int(utc(sheet.computed_for).timestamp()),
        ignore_system_fonts=True,
    )


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
    words, mark = Wording(sheet.job), mold_mark(sheet)
    return {
        "paper": PAPERS[sheet.job.paper],
        "title": sheet.job.title,
        "variant": "" if sheet.job.variant == "main" else sheet.job.variant,
        "invented": sheet.job.invented,
        "made": f"Mold {mark}, made {words.dated(sheet.computed_for)}",
        "footer": f"{sheet.job.title[:60]} · mold {mark}",
        "warnings": sheet.warnings,
        "cautions": sheet.cautions,
        "pages": [*(page for make in PAGES for page in make(sheet, words)), mold_sources_page(sheet, words)],
    }


def mold_mark(sheet: MoldSheet) -> str:
    """Fingerprint of a mold, short enough to be read aloud.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.

    Returns
    -------
    str
        12 hexadecimal digits; the moment it was made counts for nothing.
    """
    content = sheet.model_dump(mode="json", by_alias=True, exclude={"computed_for"})
    return hashlib.sha256(canonical_json(content)).hexdigest()[:12]
