"""The pages of the seams and of the water test."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.jobs.mold_seams import LiquidLeaks, SeamLeak, Seams, WaterMark, WaterTest
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = ("seam", "length", "head", "way out", "gap", "loses", "if paper fits", "no wider than")
SEAMS = "drawings/seams.svg"


def seams_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page of the seams.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told of the mold.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.seams
    if part is None:
        return
    yield {
        "title": "Where it may leak",
        "note": "before it gels",
        "lead": part.words[0] if part.words else "",
        "facts": list(_facts(part, words)),
        "blocks": [{"drawing": SEAMS, "alt": "Seams ranked by what they lose"}, *_blocks(part, words)],
    }


def _facts(part: Seams, words: Wording) -> Iterator[dict[str, str]]:
    for leaks in part.liquids:
        note = f"of {words.mass(leaks.may_lose_kg)} that may be lost"
        yield fact(f"{leaks.liquid} lost", words.mass(leaks.lost_kg), note)
        if leaks.widest_gap_m is not None:
            yield fact(f"{leaks.liquid}: no gap over", words.gap(leaks.widest_gap_m), "in all its seams")


def _blocks(part: Seams, words: Wording) -> Iterator[Page]:
    for leaks in part.liquids:
        yield {"sub": leaks.liquid.capitalize()}
        yield {"text": leaks.words}
        if leaks.seams:
            rows = [_row(seam, words) for seam in leaks.seams]
            yield {"table": table(HEADS, rows, "lrrrrrrr"), "size": 8.5}
            yield {"small": " ".join(_closed(leaks))}
    yield from _texts(part.words[1:])


def _texts(texts: Sequence[str]) -> Iterator[Page]:
    for text in texts:
        yield {"text": text}


def _closed(leaks: LiquidLeaks) -> Iterator[str]:
    by: dict[str, list[str]] = {}
    for seam in leaks.seams:
        by.setdefault(seam.closed_by, []).append(str(seam.number))
    yield from (f"{' and '.join(numbers)}: {how}." for how, numbers in by.items())


def _row(seam: SeamLeak, words: Wording) -> list[str]:
    return [
        f"{seam.number}  {seam.name}",
        words.length(seam.length_m),
        words.length(seam.head_m),
        words.length(seam.way_out_m),
        words.gap(seam.gap_m),
        words.mass(seam.lost_kg),
        words.mass(seam.lost_paper_kg),
        "any" if seam.widest_gap_m is None else words.gap(seam.widest_gap_m),
    ]


def water_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page of the water test, to be written on.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told of the mold.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    test = sheet.water_test
    if test is None:
        return
    yield {
        "title": "Water test",
        "note": "before the first casting",
        "lead": "Leaks, the true volume and caught air, in one hour and with nothing but water.",
        "facts": list(_water_facts(test, words)),
        "blocks": list(_water_blocks(test, words)),
    }


def _water_facts(test: WaterTest, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("water", words.volume(test.water_m3), words.mass(test.water_kg))
    if test.mold_kg is not None:
        yield fact("mold and water", words.mass(test.mold_kg), _lift(test.people))
    for each in test.falls:
        yield fact(
            f"may fall in {words.duration(each.after_h)}",
            words.length(each.drop_m),
            words.volume(each.lost_m3),
        )


def _lift(people: int) -> str:
    return "one person lifts it" if people == 1 else "not to be lifted while it is full"


def _water_blocks(test: WaterTest, words: Wording) -> Iterator[Page]:
    yield from _texts([f"{number}. {step}" for number, step in enumerate(test.steps, 1)])
    both = any(abs(mark.height_m - (mark.height_standing_m or mark.height_m)) > 1e-6 for mark in test.marks)
    heads = ["", "water in", "on the scale", "dip from the rim", "up from the floor"]
    heads += ["as it stands"] * both + ["1 mm is" if words.job.units == "metric" else "1/16 in is"]
    heads += ["dip I read", "after 1 h"]
    rows = [_mark(mark, words, both=both) for mark in test.marks]
    align = "l" + "r" * (5 + both) + "ll"
    yield {"table": table(heads, rows, align), "size": 8.5, "ticks": True}
    yield {"sub": "What the readings mean"}
    yield from _texts(test.reading)
    yield {"sub": "Drying"}
    yield from _texts(test.drying)


def _mark(mark: WaterMark, words: Wording, *, both: bool) -> list[str]:
    standing = mark.height_m if mark.height_standing_m is None else mark.height_standing_m
    # a sixteenth of an inch is what an American ruler shows
    least = mark.millimetre_m3 * (1.0 if words.job.units == "metric" else 1.5875)
    return [
        "",
        words.volume(mark.water_m3),
        words.mass(mark.water_kg),
        words.length(mark.dip_m),
        words.length(mark.height_m),
        *([words.length(standing)] if both else []),
        words.volume(least),
        "",
        "",
    ]
