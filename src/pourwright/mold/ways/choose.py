"""Which way is recommended: the cheapest cast among those that can be made."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.mold.ways.money import Cost, weight_of
from pourwright.mold.ways.way import Way

NEAR = 1.05
"""Ways within 5 % of each other cost the same: the numbers are no better."""


def rank_of(way: Way, cost: Cost, casts: int | None, *, priced: bool) -> float:
    """What one cast costs, or weighs where prices are missing."""
    return cost.each if priced and cost.each is not None else weight_of(way, casts)


def recommended(ways: Sequence[Way], costs: Sequence[Cost], casts: int | None = None) -> int | None:
    """Choose among ways.

    Parameters
    ----------
    ways : sequence of Way
        In the order of least trouble: it decides between equal ones.
    costs : sequence of Cost
        Of each.
    casts : int, optional
        Wanted; as many as a mold gives where left out.

    Returns
    -------
    int or None
        Place of the recommended way; None where nothing can be made that a plan can be made for.
    """
    able = [number for number, way in enumerate(ways) if way.possible and way.planned]
    if not able:
        return None
    priced = all(costs[number].each is not None for number in able)
    ranks = {number: rank_of(ways[number], costs[number], casts, priced=priced) for number in able}
    least = min(ranks.values())
    return next(number for number in able if ranks[number] <= NEAR * least)
