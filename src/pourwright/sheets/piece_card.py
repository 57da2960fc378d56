"""The card that goes with a finished piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

import typst

from pourwright.sheets.codes import qr_picture
from pourwright.sheets.pages.common import fact, table
from pourwright.sheets.setting import set_sheet

PAPERS = {"A4": "a5", "letter": "us-statement"}
PRINTED = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}
"""Photos that go on paper, by what their files end in."""
LARGEST_PRINTED = 6_000_000
"""A larger photo stays in the book alone [bytes]."""


@dataclass(frozen=True, kw_only=True)
class PieceCard:
    """What stands on the card of a piece.

    Parameters
    ----------
    paper : str
        Of the shop: the card is half of it.
    number : int
        Of the piece, lasting.
    title, variant : str
        What it is.
    invented : bool
        Whether it is an example.
    size : str
        As planned.
    facts : sequence of (str, str, str)
        Label, value and note of each.
    lots : sequence of (str, str, str)
        Number, name and amount of what it was cast from.
    care : sequence of (str, str)
        A word, as Heat, and what to mind.
    note : str
        The maker's.
    plan, version : str
        sha256 of its plan, and what made it.
    finished : datetime
        When.
    photo : tuple of (str, bytes), optional
        Media type and content.
    """

    paper: Literal["A4", "letter"]
    number: int
    title: str
    variant: str
    invented: bool
    size: str
    facts: Sequence[tuple[str, str, str]]
    lots: Sequence[tuple[str, str, str]]
    care: Sequence[tuple[str, str]]
    note: str
    plan: str
    version: str
    finished: datetime
    photo: tuple[str, bytes] | None = None


def card_pdf(card: PieceCard) -> bytes:
    """Set the card; the same piece gives the same bytes.

    Parameters
    ----------
    card : PieceCard
        What stands on it.

    Returns
    -------
    bytes
        A PDF file of half a sheet; a photo that cannot be printed is left out.
    """
    photo = _printed(card)
    try:
        return _set(card, photo)
    except typst.TypstError:
        if not photo:
            raise
        # a photo may begin as one and be none
        return _set(card, {})


def _printed(card: PieceCard) -> dict[str, bytes]:
    kind, content = card.photo or ("", b"")
    if kind not in PRINTED or len(content) > LARGEST_PRINTED:
        return {}
    return {f"photo.{PRINTED[kind]}": content}


def _set(card: PieceCard, photo: dict[str, bytes]) -> bytes:
    code = qr_picture(f"pourwright piece {card.number}")
    content = _content(card, next(iter(photo), ""))
    return set_sheet("piece_card.typ", content, {"code.svg": code, **photo}, int(card.finished.timestamp()))


def _content(card: PieceCard, photo: str) -> dict[str, object]:
    return {
        "paper": PAPERS[card.paper],
        "number": card.number,
        "title": card.title,
        "variant": "" if card.variant == "main" else card.variant,
        "invented": card.invented,
        "size": card.size,
        "facts": [fact(*each) for each in card.facts],
        "lots": table(("lot", "cast from", "amount"), card.lots, "llr"),
        "care": [{"word": word, "text": text} for word, text in card.care],
        "note": card.note,
        "photo": photo,
        "plan": card.plan,
        "version": card.version,
    }
