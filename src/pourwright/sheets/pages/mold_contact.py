"""Pages of the mold's sheet: will it stick, and the rubber pour to be ticked off."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.mold_contact import Coating, Contact, RubberBatches
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, plural, ratio, table
from pourwright.sheets.wording import Wording

LEADS = {
    "fine": "The rubber sets on this master and lets go of it, as far as is known.",
    "test first": "Mix no rubber before a test patch has come off cured and clean.",
    "no": "Do not pour: the rubber would stay sticky here, or never let go.",
}


def contact_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page on sticking.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
        One page, where it was looked at.
    """
    part = sheet.contact
    if part is None:
        return
    yield {
        "title": "Will it stick",
        "note": part.verdict,
        "lead": LEADS[part.verdict],
        "facts": [
            fact("master, sealer, release", part.verdict, part.patch.layers),
            fact("sealer dries", _dries(part.sealer, words), _coats(part.sealer)),
            fact("release dries", _dries(part.release, words), _coats(part.release)),
            fact("cast in the cured mold", part.cast_verdict, part.cast),
        ],
        "blocks": list(_blocks(part, words)),
    }


def _blocks(part: Contact, words: Wording) -> Iterator[Page]:
    for text in part.unknown:
        yield {"warning": text}
    if part.better:
        yield {"text": f"Better: {part.better}."}
    if part.cells:
        yield {"sub": "What the rubber minds"}
        heads = ["", "bare", "with the coats", "why"]
        rows = [
            [
                f"{cell.what} ({cell.face})",
                cell.bare,
                f"{cell.left}: {cell.coat}" if cell.coat else cell.left,
                f"{cell.why} ({cell.known.partition(':')[0]})",
            ]
            for cell in part.cells
        ]
        yield {"table": table(heads, rows, "llll"), "size": 9}
    yield {"sub": "Coats"}
    for coat in (part.sealer, part.release):
        if coat.coats:
            yield {
                "text": f"{_coats(coat)}: {coat.how}; {words.duration(coat.dries_h)} to dry ({coat.known})."
            }
        if coat.none_on:
            yield {"text": f"Where none: {coat.none_on}."}
    yield {"sub": "Test patch"}
    yield {"table": table(["", "", "written by hand"], _patch_rows(part, words), "lll"), "ticks": True}
    yield {"sub": "The cast in the cured mold"}
    release = "" if part.cast_release in {"", "no release"} else f" Release: {part.cast_release}."
    yield {"text": f"{part.cast}, {part.cast_verdict}: {part.cast_why}.{release}"}


def _patch_rows(part: Contact, words: Wording) -> list[list[str]]:
    if part.patch.passed:
        return [["", f"passed on {part.patch.passed}, as the job says", ""]]
    return [
        ["", f"An offcut like the master: {part.patch.layers}", "sealed on"],
        ["", "A spoonful of this rubber, weighed like the pour, half of it over an edge", "laid on"],
        ["", f"Looked at after {words.duration(part.patch.cures_h)}: cured through, face dry", "yes / no"],
        ["", "Comes off clean and leaves nothing behind", "yes / no"],
    ]


def _dries(coat: Coating, words: Wording) -> str:
    return words.duration(coat.dries_h) if coat.coats else "none"


def _coats(coat: Coating) -> str:
    return f"{plural(coat.coats, 'coat')} of {coat.name}" if coat.coats else coat.name


def rubber_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page of the rubber pour.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
        One page, where it was looked at.
    """
    part = sheet.rubber
    if part is None:
        return
    yield {
        "title": "Pouring the rubber",
        "note": "",
        "lead": _hands(part, words),
        "facts": list(_facts(part, words)),
        "blocks": [
            {"sub": "In this order"},
            {"table": table(["", ""], [["", step] for step in part.steps], "ll"), "ticks": True},
            {"sub": "Bubbles"},
            {"text": f"{part.pot[:1].upper()}{part.pot[1:]}."},
            {"sub": "Weighed or measured"},
            {"text": f"{part.by_volume[:1].upper()}{part.by_volume[1:]}."},
            {"sub": "What is left over"},
            *({"text": text} for text in part.left_overs),
        ],
    }


def _hands(part: RubberBatches, words: Wording) -> str:
    works, alone, two = (words.duration(hours) for hours in (part.works_for_h, part.alone_h, part.in_two_h))
    at = words.temperature(part.shop_degC)
    return f"Alone {alone}, in two {two}. Once mixed, a batch works for {works} at {at}."


def _facts(part: RubberBatches, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("mix in all", words.mass(part.mixed_kg), f"{words.mass(part.spare_kg)} of it spare")
    yield fact(
        plural(part.batches, "batch", "batches"), words.weighed(part.batch_kg), "each, A and B together"
    )
    yield fact("first coat, brushed", words.mass(part.first_coat_kg), "out of the first batch")
    yield fact("A : B by weight", ratio(part.parts_by_weight))
    if part.fill_mark_m is not None:
        yield fact("fill mark", words.length(part.fill_mark_m), "before the master goes in")
    yield fact("end mark", words.length(part.end_mark_m), "up from the box's floor, as the rubber is poured")
