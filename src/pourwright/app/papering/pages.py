"""The pages of a printed sheet as pictures, made from the very file that is printed."""

from __future__ import annotations

import re
import tempfile
from functools import lru_cache
from pathlib import Path
from typing import Literal

import typst

from pourwright.foundation.errors import NotThereError, UserError

Size = Literal["small", "large"]
PIXELS_PER_INCH: dict[Size, float] = {"small": 48.0, "large": 150.0}
COUNT = re.compile(rb"/Type\s*/Pages\b[^>]*?/Count\s+(\d+)")
KEPT = 128
"""Pictures kept ready: some plans' worth of small ones."""


def page_count(pdf: bytes) -> int:
    """Count the pages of a sheet of ours.

    Parameters
    ----------
    pdf : bytes
        As the sheets are set: its tree of pages lies open.

    Returns
    -------
    int

    Raises
    ------
    UserError
        For a file that is no such sheet.
    """
    found = [int(match) for match in COUNT.findall(pdf)]
    if not pdf.startswith(b"%PDF-") or not found:
        raise UserError("the sheet on disk is no PDF of ours", todo="make it again")
    return max(found)


def page_png(pdf: bytes, page: int, size: Size = "large") -> bytes:
    """Show one page.

    Parameters
    ----------
    pdf : bytes
        A sheet of ours.
    page : int
        From 1 on.
    size : {"small", "large"}
        For a list, or to be read.

    Returns
    -------
    bytes
        A PNG file; the same page gives the same bytes.

    Raises
    ------
    UserError
        For a page that the sheet does not have.
    """
    pages = page_count(pdf)
    if not 1 <= page <= pages:
        raise NotThereError(f"there is no page {page}", allowed=f"1 to {pages}", todo="name one of these")
    return _png(pdf, page, PIXELS_PER_INCH[size])


@lru_cache(maxsize=KEPT)
def _png(pdf: bytes, page: int, pixels_per_inch: float) -> bytes:
    text = f'#set page(width: auto, height: auto, margin: 0pt)\n#image("sheet.pdf", page: {page})\n'
    # the library reads a PDF from a folder only, not from memory
    with tempfile.TemporaryDirectory(prefix="pourwright-page-") as name:
        Path(name, "sheet.pdf").write_bytes(pdf)
        source = Path(name, "page.typ")
        source.write_text(text, "utf8")
        picture: bytes = typst.compile(
            str(source), root=name, format="png", ppi=pixels_per_inch, ignore_system_fonts=True
        )
    return picture
