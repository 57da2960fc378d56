"""The page about a piece cast hollow."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.mold_hollow import HollowOffer, MoldHollow
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.plan_hollow import CoreLevel, Hollow
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = (
    "cast hollow to", "core", "weighs", "lighter by", "less resin", "saves", "weight on a foam core",
    "on one of wood",
)  # fmt: skip


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
    if part.chosen is not None:
        yield _chosen(part, part.chosen, words)
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


def _chosen(part: MoldHollow, core: Hollow, words: Wording) -> Page:
    held = core.hold_down
    levels = table(
        ("poured up to", "the core is lifted with", "weight on its bar"),
        [[words.length(level.level_m), *_lift(level, words)] for level in held.levels],
        "lrr",
    )
    lead = f"{words.volume(core.core_m3)} of {core.material_name} in its middle; the mold stays the same."
    return {
        "title": "Cast hollow",
        "note": f"to {words.length(core.wall_m)}",
        "lead": lead,
        "facts": list(_core_facts(part, core, words)),
        "blocks": [
            {"drawing": "drawings/hollow.svg", "alt": "Section with core, walls and what is set in"},
            {"table": levels, "size": 9},
            *({"text": text} for text in (*core.words, *part.words)),
        ],
    }


def _lift(level: CoreLevel, words: Wording) -> tuple[str, str]:
    if level.force_N <= 0.0:
        return "it still rests", "-"
    return words.force(level.force_N), words.load(level.weight_needed_kg)


def _core_facts(part: MoldHollow, core: Hollow, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("the piece weighs", words.mass(core.hollow_kg), f"cast solid {words.mass(core.solid_kg)}")
    if part.most_kg is not None:
        yield fact("may weigh", words.mass(part.most_kg))
    if core.resin_saved_kg:
        yield fact("less resin", words.mass(core.resin_saved_kg))
    if core.money_saved is not None:
        yield fact("saves", f"{core.money_saved:.0f} {core.currency}", "resin and glass")
    held = core.hold_down
    if held.force_N:
        weight = words.load(held.weight_needed_kg)
        yield fact("weight on its bar", weight, f"safety factor {held.safety_factor:g} in it")


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
