"""The page of batches: what is weighed, when it is in, how far it comes up."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_batches import BandBatches, Batches, BatchStep
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.pages.common import Page, fact, ratio, table
from pourwright.sheets.wording import Wording

HEADS = ["", "band", "batch", "A", "B", "in after", "level up", "as it stands", "dip from the rim"]
BY = {
    "pail": "three quarters of the pail",
    "scale": "what the scale carries",
    "heat": "its own heat in the pail",
}
LEVEL = (
    "The level by weight counts first: what has gone in, and the voids. Inside the glass a dip cannot be "
    "read; stand a clear tube, open below, in the bed before the glass goes in, and read the resin in it."
)
ORDER = (
    "Weigh A, then B into it; stir for as long as its data sheet says, scrape side and floor, empty into a "
    "second pail, stir again; pour slowly into one low place and let it rise."
)


def batches_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With its batches, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.batches
    if part is None:
        return
    rows = [_row(band, step, words) for band in part.bands for step in band.batches]
    yield {
        "title": "Mixing, band by band",
        "lead": "As if each band were one pour; the plan says which pours they become, and when.",
        "facts": list(_facts(part, words)),
        "blocks": [
            {"table": table(HEADS, rows, "lllrrrrrr"), "ticks": True, "size": 9},
            {"small": LEVEL},
            {"sub": "Each batch"},
            {"text": ORDER},
            {"text": _colour(part, words)},
        ],
    }


def _facts(part: Batches, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("one batch at most", words.mass(part.most_kg), BY[part.most_by])
    yield fact("in the mold within", words.duration(part.in_mold_within_h), "of mixing, the largest batch")
    yield fact("A : B by weight", ratio(part.parts_by_weight), f"by volume 100 : {part.b_by_volume:.1f}")
    off = f"{100 * abs(part.worst_ratio_error):.2f} %"
    yield fact("B off by, at most", off, f"it bears {words.share(part.ratio_bears)}")


def _row(band: BandBatches, step: BatchStep, words: Wording) -> list[str]:
    return [
        "",
        band.band,
        f"{step.number} of {len(band.batches)}",
        words.mass(step.part_a_kg),
        words.mass(step.part_b_kg),
        words.duration(step.in_after_h),
        words.length(step.level_m),
        words.length(step.level_standing_m),
        "in the bed" if band.glass else words.length(step.dip_m),
    ]


def _colour(part: Batches, words: Wording) -> str:
    most = words.mass(part.tint_batch_kg)
    return (
        f"Colour: {words.share(part.tint_share)} of the mix at most, {most} in the largest batch, the same "
        "share in every batch, stirred into A before B; only colour made for epoxy."
    )
