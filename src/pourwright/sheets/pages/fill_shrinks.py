"""The page of shrinking: what each band loses, how far the top sinks, what is planed and sanded."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.fill_shrinks import BandShrinks, Shrinks
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = ["band", "as poured", "by volume", "stirred in", "sinks at the top", "by length, gel to cold", "gaps"]
POURED = {"neat": "neat", "bed": "touching bed", "stirred": "glass stirred in"}


def shrinks_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With what shrinks, or nothing.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.shrinks
    if part is None:
        return
    rows = [_row(band) for band in reversed(part.bands)]
    yield {
        "title": "What shrinks, what is planed and sanded",
        "lead": "Liquid resin sinks at the open face; gelled resin shrinks, and glass that touches holds it.",
        "facts": list(_facts(part, words)),
        "blocks": [
            {"table": table(HEADS, rows, "llrrrrr"), "size": 9},
            *({"text": text} for text in part.notes),
            *_sanding(part, words),
        ],
    }


def _facts(part: Shrinks, words: Wording) -> Iterator[dict[str, str]]:
    sinks, most = words.bend(max(part.sink_m, 0.0)), words.bend(max(part.sink_most_m, 0.0))
    yield fact("the open face sinks", sinks, f"until it gels; at most {most}")
    yield fact("pour it over by", words.bend(part.wanted_m), f"{words.mass(part.wanted_kg)} of resin")
    mixed = words.mass(part.overfill_kg) if part.overfill_m else "none"
    yield fact("of that mixed", mixed, "fill.overfill in the job")
    off = f"{words.bend(part.planed_least_m)} to {words.bend(part.planed_most_m)}"
    yield fact("to plane off", off, "once it is hard")


def _row(band: BandShrinks) -> list[str]:
    bed = band.poured == "bed"
    return [
        band.band,
        POURED[band.poured],
        "not by the rule" if bed else _share(band.by_volume),
        _share(band.by_volume) if bed else "–",
        _share(band.before_gel),
        f"{_share(band.by_length)} ({100 * band.by_length_low:.2f} to {100 * band.by_length_high:.2f})",
        f"up to {_share(band.gaps_high)}" if bed else "–",
    ]


def _share(share: float) -> str:
    return f"{100 * share:.2f} %"


def _sanding(part: Shrinks, words: Wording) -> Iterator[dict[str, object]]:
    if not part.sanded:
        return
    heads = ["sanded off a side", "skin", *(words.bend(depth) for depth in part.sand_depths_m)]
    rows = [
        [each.grade, words.bend(each.skin_m), *(words.share(share) for share in each.glass_shares)]
        for each in part.sanded
    ]
    yield {"sub": "Share of the face that is then glass"}
    yield {"table": table(heads, rows, "l" + "r" * (len(heads) - 1))}
