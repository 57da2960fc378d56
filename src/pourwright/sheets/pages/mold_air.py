"""The page of trapped air: each place with what lets it out."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from pourwright.jobs.mold_air import AirPlace, LiquidAir, MoldAir
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

TAKE = {"tilt": "tilt", "other way": "turn over", "vent": "vent", "none": "nothing"}
ROCK = "rock, tap"
LEAD = (
    "Air that a rising liquid closes off stays, and leaves a hole of its own size. It is found from the "
    "shape; a whipped or quickly poured liquid brings bubbles of its own."
)


def air_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : MoldSheet
        With its air, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.air
    if part is None:
        return
    liquids = [each for each in (part.rubber, part.casting) if each]
    blocks: list[Page] = [
        {"text": f"{each.liquid.capitalize()}, {each.held}: {each.words}."} for each in liquids
    ]
    places = [(each, place) for each in liquids for place in each.places]
    if places:
        blocks.append({"drawing": "drawings/trapped-air.svg", "alt": "Sections with the caught air hatched"})
        blocks.append({"table": _table(places, words), "size": 8.6})
    blocks += [{"text": f"{place.letter}  {place.todo}"} for _, place in places]
    blocks += [{"small": text} for text in _notes(part, words)]
    yield {
        "title": "Trapped air",
        "note": "what lets it out" if places else "none",
        "lead": LEAD,
        "facts": [fact(each.liquid, _amount(each, words), each.held) for each in liquids],
        "blocks": blocks,
    }


def _table(places: list[tuple[LiquidAir, AirPlace]], words: Wording) -> Page:
    rows = [_row(each, place, words) for each, place in places]
    return table(["in the", "air", "surface", "deep", "highest point", "take"], rows, "lrrrll")


def _amount(each: LiquidAir, words: Wording) -> str:
    return words.volume(each.caught_m3) if each.caught_m3 else "none"


def _row(each: LiquidAir, place: AirPlace, words: Wording) -> list[str]:
    ceiling = place.volume_m3 is None
    return [
        f"{place.letter}  {each.liquid}",
        "bubbles" if place.volume_m3 is None else words.volume(place.volume_m3),
        words.patch(place.area_m2),
        "level" if ceiling else words.length(place.depth_m),
        place.where,
        ROCK if ceiling and place.take == "none" else TAKE[place.take],
    ]


def _notes(part: MoldAir, words: Wording) -> Iterator[str]:
    liquids = [each for each in (part.rubber, part.casting) if each]
    bubble = words.length((6.0 * liquids[-1].least_m3 / pi) ** (1 / 3))
    yield f"Places smaller than a bubble of {bubble} are counted, not told: a drop fills them afterwards."
    if part.rubber is None:
        yield "The rubber is brushed on or poured in two parts: its air is not reckoned here."
    for each in liquids:
        if each.not_told:
            yield f"{each.not_told} more places in the {each.liquid} are not told."
        if each.simplified:
            yield f"Tilts for the {each.liquid} were tried on a simpler mesh of the same shape."
