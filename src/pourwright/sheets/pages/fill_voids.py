"""The page of grades and voids."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.fill_voids import BandVoids
from pourwright.sheets.pages.common import Page, table
from pourwright.sheets.wording import Wording

HEADS = [
    "band",
    "glass",
    "sieved between",
    "in the bucket",
    "in the mold",
    "between",
    "if the finer sifts in",
    "known from",
]


def voids_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With its voids, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.voids
    if part is None:
        return
    yield {
        "title": "Grades and voids",
        "lead": "Resin fills the room that the grains leave; shares of the band's volume.",
        "blocks": [
            {"table": table(HEADS, [_row(band, words) for band in part.bands], "lllrrlll"), "size": 8.5},
            *({"text": closer.words} for closer in part.closer),
            *({"small": text} for text in part.words),
        ],
    }


def _row(band: BandVoids, words: Wording) -> list[str]:
    sifts = "–"
    if band.sifts_low is not None and band.sifts_high is not None:
        sifts = f"{words.share(band.sifts_low)} to {words.share(band.sifts_high)}"
    return [
        band.band,
        band.grade,
        words.sieve(band.sieve_from_m, band.sieve_to_m),
        f"{100 * band.bucket:.1f} %",
        f"{100 * band.mold:.1f} %",
        f"{words.share(band.mold_low)} to {words.share(band.mold_high)}",
        sifts,
        band.source,
    ]
