"""A picture of dots, written into a drawing."""

from __future__ import annotations

import base64
import struct
import zlib

import numpy as np
import numpy.typing as npt


def png_link(dots: npt.NDArray[np.uint8]) -> str:
    """Write dots as a PNG that stands inside an SVG document.

    Parameters
    ----------
    dots : array (rows, columns, 3)
        Red, green and blue, 0 to 255.

    Returns
    -------
    str
        A data address for ``href``; the same dots give the same text.

    Notes
    -----
    Source: PNG, ISO/IEC 15948:2004, chunks IHDR, IDAT and IEND; from memory.

    Examples
    --------
    >>> png_link(np.zeros((1, 1, 3), dtype=np.uint8))[:30]
    'data:image/png;base64,iVBORw0K'
    """
    rows, columns, _ = dots.shape
    # every row opens with the number of its filter: none
    lines = np.concatenate([np.zeros((rows, 1), np.uint8), dots.reshape(rows, -1)], axis=1)
    head = struct.pack(">IIBBBBB", columns, rows, 8, 2, 0, 0, 0)
    body = zlib.compress(lines.tobytes(), 9)
    png = b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", body) + _chunk(b"IEND", b"")
    return "data:image/png;base64," + base64.b64encode(png).decode()


def _chunk(kind: bytes, content: bytes) -> bytes:
    check = zlib.crc32(kind + content)
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", check)
