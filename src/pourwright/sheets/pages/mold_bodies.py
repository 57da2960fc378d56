"""The pages of the mold's bodies: what fills the box, the section, all parts moved apart."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import format_volumes
from pourwright.jobs.mold_bodies import Bodies
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

SEEN = 1e-6
"""Less air than this is none [m3]."""
PAPER, ROW, LEAST = 560.0, 17.0, 360.0
"""Room for drawing and table, of one row, least of the drawing [pt]."""


def bodies_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the pages.

    Parameters
    ----------
    sheet : MoldSheet
        With its bodies, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    if sheet.bodies is None:
        return
    yield {
        "title": "Section through the mold",
        "blocks": [
            {"drawing": "drawings/mold-poured.svg", "alt": "Section while the rubber is poured"},
            {"drawing": "drawings/mold-cast.svg", "alt": "Section while it is cast"},
        ],
    }
    yield {
        "title": "All parts",
        "note": "moved apart, as the mold is opened",
        "lead": "Each volume is measured on its own body; together they fill the box.",
        "facts": list(_volumes(sheet.bodies, words)),
        "blocks": [
            {
                "drawing": "drawings/parts.svg",
                "alt": "All parts of the mold, moved apart",
                "height": max(PAPER - ROW * len(sheet.bodies.parts), LEAST),
            },
            {"table": _parts(sheet.bodies, words), "size": 8.6},
        ],
    }


def _volumes(bodies: Bodies, words: Wording) -> Iterator[dict[str, str]]:
    told = {
        "rubber": bodies.rubber_m3,
        "space blocks": bodies.blocks_m3,
        "master": bodies.master_m3,
        "air below the rim": bodies.air_m3,
    }
    there = {name: volume for name, volume in told.items() if volume > SEEN}
    *volumes, box = format_volumes([*there.values(), bodies.box_m3], words.system)
    yield from (fact(name, volume) for name, volume in zip(there, volumes, strict=True))
    yield fact("box", box, f"{words.size(bodies.inside_m)} inside")


def _parts(bodies: Bodies, words: Wording) -> Page:
    rows = [
        [
            f"{part.number}  {part.name}",
            str(part.count),
            words.size(part.size_m),
            "" if part.kind == "panel" else words.volume(part.volume_m3),
        ]
        for part in bodies.parts
    ]
    return table(["part", "how many", "size of one", "volume of one"], rows, "lrrr")
