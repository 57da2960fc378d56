"""The page of gypsum or concrete: what is weighed, when it comes out of the mold, how long it dries."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_mineral import Mineral
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

BY = {
    "pail": "three quarters of the pail",
    "scale": "what the scale carries",
    "time": "its working time, one person",
}


def mineral_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With its casting material mixed with water, or a resin.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.mineral
    if part is None:
        return
    yield {
        "title": f"{part.name} and water",
        "lead": "Weights are to the scale's step; the clock starts when powder meets water.",
        "facts": list(_facts(part, words)),
        "blocks": [
            *([{"table": _batches(part, words), "ticks": True}] if part.batches else []),
            {"sub": "In this order"},
            *({"text": f"{number}. {step}"} for number, step in enumerate(part.steps, 1)),
            {"sub": "Out of the mold, and dry"},
            {"table": table(["", ""], _after(part, words), "ll")},
            {"small": f"How long it dries is reckoned so: {part.drying.how}."},
        ],
    }


def _facts(part: Mineral, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("powder", words.mass(part.powder_kg), _powder(part, words))
    yield fact("water", words.mass(part.water_kg), f"{100 * part.water_ratio:.0f} to 100 of powder by weight")
    if part.aggregate_kg:
        note = f"{part.aggregate_grade}, {words.share(part.aggregate_share)} of the volume"
        yield fact("glass", words.mass(part.aggregate_kg), note)
    yield fact("the piece, dry", words.mass(part.dry_kg), f"{words.mass(part.wet_kg)} out of the mold")
    if part.most_kg is not None and part.most_by is not None:
        yield fact("one batch at most", words.mass(part.most_kg), BY[part.most_by])


def _powder(part: Mineral, words: Wording) -> str:
    if part.cement_kg is None or part.sand_kg is None:
        return f"{words.share(part.allowance)} on top in it"
    return f"or {words.mass(part.cement_kg)} cement, {words.mass(part.sand_kg)} fine sand"


def _batches(part: Mineral, words: Wording) -> Page:
    glass = part.aggregate_kg > 0.0
    rows = [
        [
            "",
            f"{step.number} of {len(part.batches)}",
            words.weighed(step.water_kg),
            words.weighed(step.powder_kg),
            *([words.weighed(step.aggregate_kg)] if glass else []),
            words.duration(step.in_after_h),
        ]
        for step in part.batches
    ]
    heads = ["", "batch", "water", "powder", *(["glass"] if glass else []), "in after"]
    return table(heads, rows, "ll" + "r" * (len(heads) - 2))


def _after(part: Mineral, words: Wording) -> Iterator[list[str]]:
    at = f"at {words.temperature(part.times_at_degC)}"
    for name, hours in (("pours for", part.working_h), ("hard after", part.setting_h)):
        if hours is not None:
            yield [name, f"{words.duration(hours)}, {at}"]
    if part.demold_h is not None:
        yield ["out of the mold after", f"{words.duration(part.demold_h)}, {at}; still wet and weak"]
    yield ["presses on the box", f"{words.pressure(1e3 * part.pressure_kPa)} at the mold's floor"]
    if part.change_mm:
        does = "grows as it sets" if part.change_mm > 0 else "shrinks as it dries"
        yield [does, f"{words.bend(abs(part.change_mm) / 1e3)} over its longest side"]
    water = part.drying
    yield ["water to dry out", f"{words.mass(water.water_kg)}, {words.volume(water.water_m3)}"]
    yield ["dry after", f"{water.text}; {water.know}"]
    if part.adiabatic_rise_K is not None:
        yield ["warmer, if no heat were lost", words.difference(part.adiabatic_rise_K)]
