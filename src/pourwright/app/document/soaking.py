"""How each pour soaks through its glass, as part of the plan document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite
from typing import NamedTuple

from pourwright.foundation.notation import format_duration
from pourwright.jobs import plan
from pourwright.pour.rehearse import PourSeen
from pourwright.pour.site import Site
from pourwright.pour.soaking import smallest_bubble, soak

HOUR = 3600.0
SURE = 1.0
"""Margin that is enough: how easily resin runs through a bed is known within a factor of two."""
METHOD = (
    "the resin runs down by its own weight through grains as large as the sieves of their grade tell, poured "
    "evenly over the glass (Kozeny-Carman and Darcy); right within a factor of two: try a small cube of the "
    "same glass first. Pours without dry glass have none"
)


class Soaked(NamedTuple):
    """What the document tells of a pour; hours from mixing, metres."""

    soaks_after_h: float | None
    soak_limit_h: float | None
    soak_margin: float | None
    bubbles_from_m: float


def soaked(site: Site, pour: PourSeen) -> Soaked:
    """Reckon one pour.

    Parameters
    ----------
    site : Site
        With beds that know their grain.
    pour : PourSeen
        Levels, start and first gel; by its own heat it may gel sooner than it gets too thick without.

    Returns
    -------
    Soaked
        Empty but for the bubbles where the pour has no dry glass.
    """
    bubbles = smallest_bubble(site, pour.lower, pour.upper, pour.start)
    found = soak(site, pour.lower, pour.upper, pour.start, pour.gel_first)
    if found is None:
        return Soaked(None, None, None, bubbles)
    after = found.after / HOUR if isfinite(found.after) else None
    return Soaked(after, found.limit / HOUR, found.margin, bubbles)


def soak_reason(pours: Sequence[plan.Pour]) -> Iterator[plan.Reason]:
    """Say how it is reckoned, where there is glass to soak.

    Parameters
    ----------
    pours : sequence of plan.Pour
        All of them.

    Yields
    ------
    plan.Reason
        One, or none.
    """
    if any(pour.soak_limit_h is not None for pour in pours):
        yield plan.Reason(key="pours[].soak_limit_h", text=METHOD)


def soak_warnings(pours: Sequence[plan.Pour]) -> Iterator[str]:
    """Warn of pours that hardly get through their glass, or do not.

    Parameters
    ----------
    pours : sequence of plan.Pour
        All of them.

    Yields
    ------
    str
        One for each such pour.
    """
    for pour in pours:
        if pour.soak_limit_h is None or pour.soak_margin is None:
            continue
        limit = format_duration(pour.soak_limit_h * HOUR)
        if pour.soaks_after_h is None:
            yield (
                f"Pour {pour.number} does not get through its dry glass: too thick after {limit}. "
                "Pour less deep, warm resin and shop, or take a coarser grade."
            )
        elif pour.soak_margin < SURE:
            after = format_duration(pour.soaks_after_h * HOUR)
            yield (
                f"Pour {pour.number} runs down through its dry glass in {after}, and is too thick after "
                f"{limit}: little to spare, since such times are known within a factor of two. Try a small "
                "cube of the same glass first, and pour without delay."
            )
