"""Drawings as pictures that any program shows."""

from __future__ import annotations

from typing import cast

import typst

PIXELS_PER_INCH = 200.0
PAGE = '#set page(width: auto, height: auto, margin: 0pt)\n#image("drawing.svg")\n'


def png_of(svg: str) -> bytes:
    """Turn a drawing into a PNG picture; the same drawing gives the same bytes.

    Parameters
    ----------
    svg : str
        SVG document.

    Returns
    -------
    bytes
        A PNG file at 200 pixels per inch.
    """
    project = {"main": PAGE.encode(), "drawing.svg": svg.encode()}
    # the library takes a folder of files in memory, its type hints do not know it yet
    return typst.compile(cast("bytes", project), format="png", ppi=PIXELS_PER_INCH, ignore_system_fonts=True)
