"""Short sections share a sheet of paper."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import ceil
from typing import Any

from pourwright.sheets.pages.common import Page

SHEET, SHORT = 58.0, 30.0
"""Lines of text on a sheet, and what a section may take to share one: a guess, a long one just runs on."""
LINE = 105
HEADING, FACTS, SUB, ROW, DRAWING, POINTS = 3.0, 4.5, 2.2, 1.5, 26.0, 16.0


def shared(pages: Iterable[Page]) -> list[Page]:
    """Mark the sections that go on below the one before.

    Parameters
    ----------
    pages : iterable of dict
        Sections in their order; see `templates/parts.typ`.

    Returns
    -------
    list of dict
        The same; those that share a sheet carry ``flows``.
    """
    found: list[Page] = []
    used = SHEET
    for page in pages:
        lines = lines_of(page)
        flows = bool(found) and lines <= SHORT and used + lines <= SHEET
        used = used + lines if flows else lines
        found.append({**page, "flows": True} if flows else page)
    return found


def lines_of(page: Mapping[str, Any]) -> float:
    """Guess how many lines of text a section is as high as.

    Parameters
    ----------
    page : mapping
        A section.

    Returns
    -------
    float
    """
    facts = FACTS * ceil(len(page.get("facts", [])) / 4)
    return HEADING + _text(page.get("lead", "")) + facts + sum(map(_block, page.get("blocks", [])))


def _block(block: Mapping[str, Any]) -> float:
    words = sum(_text(str(block[name])) for name in ("text", "small", "warning", "caution") if name in block)
    table = block.get("table", {})
    rows = sum(max(ROW, _text(" ".join(row)) * ROW) for row in table.get("rows", [])) + (
        ROW if table else 0.0
    )
    drawing = block.get("height", DRAWING * POINTS) / POINTS if "drawing" in block else 0.0
    facts = FACTS * ceil(len(block.get("facts", [])) / 4)
    return words + (SUB if "sub" in block else 0.0) + rows + drawing + facts


def _text(words: str) -> float:
    return float(ceil(len(words) / LINE))
