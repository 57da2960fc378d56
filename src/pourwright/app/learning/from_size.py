"""How much a resin shrinks, from a piece that was measured as it came out of its mold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.app.booking.spoken_besides import name_of
from pourwright.calibration.learning.record import Record
from pourwright.jobs.plan import PlanDocument
from pourwright.records import Entry

TAPE = 0.0005
"""Standard deviation of a size read from a tape or a caliper over a large piece [m]."""
FARTHEST = 5.0
"""A piece that lost so many times more or less than planned was measured at another place."""


def shrinkage_of(
    plan: PlanDocument, entries: Sequence[Entry], pour_id: str, assumed: float
) -> Iterator[Record]:
    """Compare what the casting lost from gel until it was cold with what the plan says it loses.

    Parameters
    ----------
    plan : PlanDocument
        With its size ledger.
    entries : sequence of Entry
        Of the piece as a whole: sizes as it came out, before any sanding.
    pour_id : str
        By which the records are named.
    assumed : float
        Shrinkage of the resin that the plan was made with [-].

    Yields
    ------
    Record
        That shrinkage, by as much more or less as the piece lost; one for each size.
    """
    directions = {} if plan.sizes is None else {name_of(each): each for each in plan.sizes.directions}
    for entry in entries:
        about = directions.get(entry.text)
        if entry.kind != "size" or entry.value is None or about is None or about.casting_m <= 0.0:
            continue
        lost = about.cavity_m - about.warm_rubber_m - entry.value
        share = lost / about.casting_m
        if 1.0 / FARTHEST < share < FARTHEST:
            yield Record(
                id=f"{pour_id}:shrinkage {entry.id[:8]}",
                quantity="shrinkage",
                subject=plan.piece.casting_material,
                value=assumed * share,
                doubt=assumed * TAPE / about.casting_m,
                at=entry.at.isoformat(),
            )
