"""Marks that a camera reads: plain words of ours, no address and no secret."""

from __future__ import annotations

import io
from functools import cache

import segno


@cache
def qr_picture(text: str) -> bytes:
    """Draw words as a QR code (ISO/IEC 18004).

    Parameters
    ----------
    text : str
        What is read, as ``pourwright lot 12``.

    Returns
    -------
    bytes
        SVG.
    """
    # medium correction: a splash of resin may cover a part of it
    code = segno.make(text, error="m", micro=False)
    picture = io.BytesIO()
    code.save(picture, kind="svg", scale=4, border=1)
    return picture.getvalue()
