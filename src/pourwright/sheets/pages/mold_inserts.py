"""The page about what is set into a casting."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.plan_inserts import Insert
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = ("insert", "wide", "deep", "from the", "at, from the middle; heights from the floor", "edge", "least")
HOLD = ("insert", "how it is held", "weight", "how resin is kept out")
AXES = {"top": "xy", "bottom": "xy", "left": "yz", "right": "yz", "front": "xz", "back": "xz"}


def inserts_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : MoldSheet
        With what is set in, or without.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.inserts
    if part is None:
        return
    drawn = sheet.hollow is not None and sheet.hollow.chosen is not None
    places = table(HEADS, [_place(insert, words) for insert in part.inserts], "lrrllrr")
    holds = table(HOLD, [_hold(insert, words) for insert in part.inserts], "llrl")
    yield {
        "title": "Set into the casting",
        "note": "as poured",
        "lead": "Where sockets, tubes and lights sit, what is around them, how they are held and sealed.",
        "facts": [
            fact("inserts", str(len(part.inserts))),
            fact("safety factor", f"{part.safety_factor:g}", "on what lifts them"),
            *_lights(part.inserts),
        ],
        "blocks": [
            *([] if drawn else [{"drawing": "drawings/hollow.svg", "alt": "Section with what is set in"}]),
            {"table": places, "size": 8.5},
            {"table": holds, "size": 8.5},
            *({"text": text} for text in part.words),
        ],
    }


def _lights(inserts: list[Insert]) -> Iterator[dict[str, str]]:
    for insert in inserts:
        if insert.most_heat_W is not None:
            yield fact(insert.name, f"{insert.most_heat_W:.2g} W", "of heat at most into the casting")


def _place(insert: Insert, words: Wording) -> list[str]:
    named = dict(zip("xyz", insert.from_m, strict=True))
    at = ", ".join(f"{axis} {words.coordinate(named[axis])}" for axis in AXES[insert.face])
    ends = {"core": " (to the core)", "face": " (through)"}.get(insert.ends, "")
    return [
        insert.name,
        words.length(insert.diameter_m),
        f"{words.length(insert.depth_m)}{ends}",
        insert.face,
        at,
        words.length(insert.edge_m),
        words.length(insert.edge_needed_m),
    ]


def _hold(insert: Insert, words: Wording) -> list[str]:
    weight = words.mass(insert.weight_needed_kg) if insert.weight_needed_kg > 0.0 else "sinks"
    return [insert.name, insert.held, weight, insert.sealed]
