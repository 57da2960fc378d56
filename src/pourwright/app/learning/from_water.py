"""What a mold holds over its drawing, from the water test."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from pourwright.calibration.learning.record import Record
from pourwright.jobs.plan import PlanDocument
from pourwright.physics.water import water_density
from pourwright.pour.leaked.defaults import LEAKED
from pourwright.records import Entry

COOL = 293.15
"""Water out of the tap that stood in the shop [K]; 10 K more or less are 0.2 %."""
SHALLOW = 0.1
"""Below this share of the full mold a reading of the level says little."""


def cavity_of(
    plan: PlanDocument, entries: Sequence[Entry], pour_id: str, mold: str, assumed: float
) -> Iterator[Record]:
    """Compare water that was filled in with what the drawing holds up to its level; one record for each mark.

    Parameters
    ----------
    plan : PlanDocument
        With its dip-stick table.
    entries : sequence of Entry
        Of the piece as a whole, in their order: water in the mold, and a level at the same time.
    pour_id : str
        By which the records are named.
    mold : str
        Whose cavity it is.
    assumed : float
        What the plan was made with, over the drawing.

    Yields
    ------
    Record
        Volume as filled over volume as drawn.
    """
    heights = np.array([row.height_m for row in plan.dip_stick])
    drawn = np.array([row.cavity_m3 for row in plan.dip_stick]) / assumed
    water = {entry.at: entry.value for entry in entries if entry.kind == "water" and entry.value}
    for entry in entries:
        held = water.get(entry.at)
        if entry.kind != "water_level" or entry.value is None or held is None or len(heights) < 2:
            continue
        volume = held / float(water_density(COOL))
        there = float(np.interp(entry.value, heights, drawn))
        if there > SHALLOW * drawn[-1]:
            rise = float(np.interp(entry.value, heights, np.gradient(drawn, heights)))
            reading = LEAKED["level_error"].value / 2.0 * rise / there
            yield Record(
                id=f"{pour_id}:cavity {entry.id[:8]}",
                quantity="cavity",
                subject=mold,
                value=volume / there,
                doubt=volume / there * reading,
                at=entry.at.isoformat(),
            )
