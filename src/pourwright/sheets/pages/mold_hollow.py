"""The page about a piece cast hollow."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.mold_hollow import HollowOffer, MoldHollow
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = (
    "hollow to",
    "core",
    "piece",
    "lighter by",
    "resin saved",
    "money saved",
    "weight on foam",
    "on wood",
)


def hollow_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : MoldSheet
        With what a core saves, or without.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.hollow
    if part is None:
        return
    offers = [offer for offer in part.offers if offer.core_m3]
    blocks: list[Page] = [{"text": text} for text in part.words]
    if offers:
        rows = [_row(offer, part, words) for offer in offers]
        blocks.insert(0, {"table": table(HEADS, rows, "lrrrrrrr"), "size": 8.5})
    yield {
        "title": "Cast hollow",
        "note": "instead of solid",
        "lead": "A core takes the middle of the piece; the mold stays the same.",
        "facts": list(_facts(part, words)),
        "blocks": blocks,
    }


def _row(offer: HollowOffer, part: MoldHollow, words: Wording) -> list[str]:
    money = "-" if offer.money_saved is None else f"{offer.money_saved:.0f} {part.currency}"
    return [
        words.length(offer.wall_m),
        words.volume(offer.core_m3),
        words.mass(offer.piece_kg),
        words.mass(offer.saved_kg),
        words.mass(offer.resin_saved_kg) if offer.resin_saved_kg else "-",
        money,
        words.mass(offer.foam_weight_kg),
        words.mass(offer.wood_weight_kg),
    ]


def _facts(part: MoldHollow, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("cast solid", words.mass(part.piece_kg))
    if part.most_kg is not None:
        yield fact("may weigh", words.mass(part.most_kg))
    if part.wall_for_most_m is not None:
        yield fact("wall that meets it", words.length(part.wall_for_most_m))
    if part.offers:
        yield fact("safety factor", f"{part.safety_factor:g}", "on the core's lift")
