"""A picture of what was mended in a shape file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.app.shaping.looked import Looked
from pourwright.sheets.fault_drawing import Marked, fault_drawing
from pourwright.sheets.picture_files import png_of


def mended_files(looked: Looked, _told: Mapping[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Draw where a file was mended; nothing where it was sound.

    Parameters
    ----------
    looked : Looked
        The shape.

    Yields
    ------
    tuple of str and bytes
        ``mended.svg`` and ``mended.png``.
    """
    shaped = looked.shaped
    if not shaped.mended:
        return
    items = [Marked(mended.words, mended.places) for mended in shaped.mended]
    svg = fault_drawing(shaped.mesh, f"What was mended in {shaped.name}, and where", items)
    yield "mended.svg", svg.encode()
    yield "mended.png", png_of(svg)
