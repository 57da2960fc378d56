"""The offer sheet: what a buyer is told of a piece, and nothing of what it costs the shop."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from pourwright.sheets.document import PAPERS
from pourwright.sheets.pages.common import breakable, fact
from pourwright.sheets.setting import set_sheet


@dataclass(frozen=True, kw_only=True)
class Offer:
    """What stands on the sheet.

    Parameters
    ----------
    paper : str
        Of the shop.
    title, variant : str
        What it is.
    invented : bool
        Whether it is an example.
    seller : sequence of str
        Name, then address and contact; empty: lines to fill in.
    size, mass : str
        As planned.
    picture : str
        SVG document.
    materials : sequence of (str, str)
        A word, as Glass, and what it is.
    prices : sequence of (str, str)
        Net, tax, shown; their money empty where it is left open.
    terms : sequence of str
        What belongs to the price.
    care : sequence of (str, str)
        A word, as Heat, and what to mind.
    made : datetime
        When; the sheet's own date is left to fill in.
    """

    paper: Literal["A4", "letter"]
    title: str
    variant: str
    invented: bool
    seller: Sequence[str]
    size: str
    mass: str
    picture: str
    materials: Sequence[tuple[str, str]]
    prices: Sequence[tuple[str, str]]
    terms: Sequence[str]
    care: Sequence[tuple[str, str]]
    made: datetime


def offer_pdf(offer: Offer) -> bytes:
    """Set the sheet; the same offer gives the same bytes.

    Parameters
    ----------
    offer : Offer
        What stands on it.

    Returns
    -------
    bytes
        A PDF file.
    """
    content = {
        "paper": PAPERS[offer.paper],
        "title": offer.title,
        "variant": "" if offer.variant == "main" else offer.variant,
        "invented": offer.invented,
        "seller": list(offer.seller),
        "facts": [fact("Size", offer.size, "about, without feet"), fact("Weight", offer.mass, "about")],
        "materials": _pairs(offer.materials),
        "prices": _pairs(offer.prices),
        "terms": list(offer.terms),
        "care": _pairs(offer.care),
    }
    pictures = {"piece.svg": offer.picture.encode()}
    told = breakable(content)
    assert isinstance(told, dict)
    return set_sheet("offer.typ", told, pictures, int(offer.made.timestamp()))


def _pairs(pairs: Sequence[tuple[str, str]]) -> list[dict[str, str]]:
    return [{"word": word, "text": text} for word, text in pairs]
