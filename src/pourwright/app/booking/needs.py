"""What a plan needs of the stock, and how much of it a pour takes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from pourwright.app.booking.batches import Batch
from pourwright.app.booking.went_in import went_in
from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.records import Entry


class Thing(NamedTuple):
    """What lots are lots of.

    Parameters
    ----------
    kind, material, colour, grade : str
        As of a `pourwright.records.Lot`.
    """

    kind: str
    material: str
    colour: str = ""
    grade: str = ""


@dataclass(frozen=True)
class Need:
    """So much of a thing at a time.

    Parameters
    ----------
    thing : Thing
        What.
    amount : float
        In the unit of its kind.
    at : datetime
        When it goes in.
    pour : int
        The pour; 0 before the first.
    """

    thing: Thing
    amount: float
    at: datetime
    pour: int


def needs_of_pour(plan: PlanDocument, pour: Pour) -> tuple[Need, ...]:
    """Say what a pour needs as it is planned.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    pour : Pour
        One of its pours.

    Returns
    -------
    tuple of Need
        Resin by its parts, glass by colour and grade.
    """
    at = datetime.fromisoformat(pour.start)
    resin = plan.piece.casting_material
    parts = {Thing("resin", resin, "", part): 0.0 for part in "AB"}
    parts[Thing("resin", resin, "", "A")] += pour.part_a_kg
    parts[Thing("resin", resin, "", "B")] += pour.part_b_kg
    for each in pour.glass:
        glass = Thing("glass", "", each.colour, each.grade)
        parts[glass] = parts.get(glass, 0.0) + each.mass_kg
    return tuple(Need(thing, amount, at, pour.number) for thing, amount in parts.items() if amount > 0)


def needs_of_mold(plan: PlanDocument) -> tuple[Need, ...]:
    """Say what the mold needs: rubber by its parts, and board.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    tuple of Need
        At the time of the first pour, for want of a better.
    """
    if not plan.pours:
        return ()
    at, rubber, box = datetime.fromisoformat(plan.pours[0].start), plan.mold.rubber, plan.mold.box
    board = sum(one.count * one.length_m * one.width_m for one in box.panels)
    amounts = {
        Thing("rubber", rubber.id, "", "A"): rubber.part_a_kg,
        Thing("rubber", rubber.id, "", "B"): rubber.part_b_kg,
        Thing("board", box.board): board,
    }
    return tuple(Need(thing, amount, at, 0) for thing, amount in amounts.items() if amount > 0)


def used_by(plan: PlanDocument, number: int, entries: Iterable[Entry]) -> dict[Thing, float]:
    """Say what a pour has taken, by its log.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    number : int
        Of the pour.
    entries : iterable of Entry
        What stands in the log about it.

    Returns
    -------
    dict
        Amount by thing. Resin as it was weighed, batch by batch; where it was not, what was mixed, else what
        was poured, in the plan's ratio; what was topped up besides. Glass as planned, once it was mixed.
    """
    found = went_in(tuple(entries))
    ratio = plan.fill.parts_by_weight or (1.0, 0.0)
    resin = plan.piece.casting_material
    taken: dict[Thing, float] = {}
    for part, kind, share in zip("AB", ("weigh_a", "weigh_b"), ratio, strict=True):
        of_mix = share / sum(ratio)
        weighed = (_part(batch, kind, of_mix) for batch in found.batches)
        topped_up = of_mix * sum(entry.value or 0.0 for entry in found.topped_up)
        taken[Thing("resin", resin, "", part)] = sum(weighed) + topped_up
    if any(taken.values()):
        for pour in plan.pours:
            if pour.number == number:
                for need in needs_of_pour(plan, pour):
                    if need.thing.kind == "glass":
                        taken[need.thing] = need.amount
    return {thing: amount for thing, amount in taken.items() if amount > 0}


def _part(batch: Batch, kind: str, share: float) -> float:
    """A or B of one batch [kg]."""
    weighed = batch.value(kind)
    if weighed is not None:
        return weighed
    whole = batch.value("poured") if batch.mixed is None else batch.mixed.mass
    return share * (whole or 0.0)
