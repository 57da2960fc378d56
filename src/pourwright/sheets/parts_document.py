"""What a document that is told part by part, as mold and fill are, looks like on paper."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from importlib.resources import files
from typing import TypeVar, cast

import typst

from pourwright.foundation.files import canonical_json
from pourwright.jobs.plan_part import Part
from pourwright.jobs.told import Told
from pourwright.sheets.document import PAPERS
from pourwright.sheets.pages.common import Page, breakable
from pourwright.sheets.pages.sources import sources_page
from pourwright.sheets.sharing import shared
from pourwright.sheets.wording import Wording, utc

S = TypeVar("S", bound=Told)
Makers = Sequence[Callable[[S, Wording], Iterator[Page]]]


def set_pages(content: Page, computed_for: str, drawings: Mapping[str, str]) -> bytes:
    """Set the pages; the same content gives the same bytes.

    Parameters
    ----------
    content : dict
        As `parts_content` makes it.
    computed_for : str
        Time stamp of the document.
    drawings : mapping
        SVG document by path, as in ``drawings/section.svg``.

    Returns
    -------
    bytes
        A PDF file.
    """
    templates = files("pourwright.sheets").joinpath("templates")
    project = {"main": templates.joinpath("parts.typ").read_bytes()}
    project["look.typ"] = templates.joinpath("look.typ").read_bytes()
    project["data.json"] = canonical_json(breakable(content))
    project |= {name: text.encode() for name, text in drawings.items()}
    # the library takes a folder of files in memory, its type hints do not know it yet
    return typst.compile(
        cast("bytes", project),
        format="pdf",
        timestamp=int(utc(computed_for).timestamp()),
        ignore_system_fonts=True,
    )


def parts_content(sheet: S, what: str, makers: Makers[S]) -> Page:
    """Fill every page.

    Parameters
    ----------
    sheet : Told
        All that is told.
    what : str
        What it is, as in "mold".
    makers : sequence of callable
        Of its pages, in the order of the work.

    Returns
    -------
    dict
        What the template reads.
    """
    words, mark = Wording(sheet.job), mark_of(sheet)
    pages = [*(page for make in makers for page in make(sheet, words)), sources_page(sheet, words)]
    return {
        "paper": PAPERS[sheet.job.paper],
        "title": sheet.job.title,
        "variant": "" if sheet.job.variant == "main" else sheet.job.variant,
        "invented": sheet.job.invented,
        "made": f"{what.capitalize()} {mark}, made {words.dated(sheet.computed_for)}",
        "footer": f"{sheet.job.title[:60]} · {what} {mark}",
        "warnings": sheet.warnings,
        "cautions": sheet.cautions,
        "pages": shared(pages),
    }


def mark_of(sheet: Part) -> str:
    """Fingerprint of a document, short enough to be read aloud.

    Parameters
    ----------
    sheet : Part
        All that is told, with ``computed_for``.

    Returns
    -------
    str
        12 hexadecimal digits; the moment it was made counts for nothing.
    """
    content = sheet.model_dump(mode="json", by_alias=True, exclude={"computed_for"})
    return hashlib.sha256(canonical_json(content)).hexdigest()[:12]
