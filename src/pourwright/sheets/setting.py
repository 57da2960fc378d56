"""Small sheets of the book, set by typst from a template and plain content."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path

import typst

from pourwright.foundation.files import canonical_json

LAST_BUNDLED_LETTER = 0x52F
_ALSO_BUNDLED = range(0x2000, 0x2300)


def set_sheet(
    template: str, content: Mapping[str, object], pictures: Mapping[str, bytes], timestamp: int = 0
) -> bytes:
    """Set a sheet; the same content gives the same bytes.

    Parameters
    ----------
    template : str
        File in ``templates``.
    content : mapping
        What it reads.
    pictures : mapping
        Files by their plain names, as the content calls them.
    timestamp : int
        Of the PDF file [s since 1970].

    Returns
    -------
    bytes
        A PDF file.
    """
    templates = files("pourwright.sheets").joinpath("templates")
    there = {name: templates.joinpath(name).read_bytes() for name in (template, "look.typ")}
    there |= {"data.json": canonical_json(content), **pictures}
    # scripts beyond Cyrillic need the fonts of the machine; all else prints the same everywhere
    bundled = all(ord(c) <= LAST_BUNDLED_LETTER or ord(c) in _ALSO_BUNDLED for c in str(content))
    # the library reads a photo from a folder only, not from memory
    with tempfile.TemporaryDirectory(prefix="pourwright-sheet-") as folder:
        for name, held in there.items():
            Path(folder, name).write_bytes(held)
        pdf: bytes = typst.compile(
            str(Path(folder, template)),
            root=folder,
            format="pdf",
            timestamp=timestamp,
            ignore_system_fonts=bundled,
        )
    return pdf
