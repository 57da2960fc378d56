"""The page of bands as they lie: both readings, what is missing, what moves, borders and shells."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_bands import BandsTold, MissingGlass
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.pages.common import Page, table
from pourwright.sheets.wording import Wording

HEADS = ["missing for", "glass", "wanted", "there", "the band ends at", "as it stands", "or mix in"]
ALT = "Section through the piece with its bands, and a tape with both readings"


def bands_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With bands, or without.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.bands
    if part is None:
        return
    yield {
        "title": "The bands",
        "lead": "Before anything is weighed: where each band lies, and whether the glass for it is there.",
        "facts": [],
        "blocks": [
            *({"text": text} for text in part.standing),
            {"drawing": "drawings/bands.svg", "alt": ALT, "height": 240},
            *_stock(part, words),
            *_told("Shells of colour", [one.text for one in part.shells]),
            *_told("Soft borders", [one.text for one in part.soft]),
            *_told("What settles, and what tapping moves", [one.text for one in part.moves]),
            *({"small": text} for text in part.notes),
        ],
    }


def _told(title: str, texts: list[str]) -> Iterator[Page]:
    if texts:
        yield {"sub": title}
        for text in texts:
            yield {"text": text}


def _stock(part: BandsTold, words: Wording) -> Iterator[Page]:
    if part.missing:
        yield {"sub": "Glass that is missing"}
        yield {"table": table(HEADS, [_row(one, words) for one in part.missing], "llrrrrl"), "size": 9}
    if part.stock:
        lots = [f"{words.mass(each.mass_kg)} {each.colour} {each.grade}" for each in part.left]
        left = ", ".join(lots) or "nothing"
        yield {"small": f"Left over of the stock, before anything is mixed in: {left}."}


def _row(one: MissingGlass, words: Wording) -> list[str]:
    return [
        one.band,
        f"{one.colour} {one.grade}",
        words.mass(one.wanted_kg),
        words.mass(one.there_kg),
        "–" if one.ends_at_m is None else words.length(one.ends_at_m),
        "–" if one.ends_at_standing_m is None else words.length(one.ends_at_standing_m),
        "–" if one.mix_in is None else f"{words.share(one.mix_in_share)} {one.mix_in}",
    ]
