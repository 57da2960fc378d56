"""A plan as one draw of the doubts lives through it: late gels are waited for, hot pours are not undone."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.planner.grids import layers_of
from pourwright.planner.hours import WorkingHours
from pourwright.planner.starts import working_starts
from pourwright.pour.follow import NEVER, Followed, Goal, follow
from pourwright.pour.layout import lay_out
from pourwright.pour.site import Site
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.solver import Control, run

Array = NDArray[np.float64]
SPACING, PARTS = 0.04, 5
NARROWEST = 8
"""Cells across the narrower side of the box, at least."""
CONTROL = Control(tolerance=0.5, max_step=3 * 3600.0)
"""So coarse, peaks of both examples lie within 1 K of those of 12 mm cells, gel times within 8 %."""
WAITING = 21 * 86400.0


@dataclass(frozen=True)
class Life:
    """One draw of a casting and the plan it is poured by.

    Parameters
    ----------
    site : Site
        The draw.
    levels, starts : tuple of float
        Of the plan [m], [s].
    hours : WorkingHours
        When a late pour may go on.
    cap : float
        Temperature at which a run-away is not followed any further [K].
    """

    site: Site
    levels: tuple[float, ...]
    starts: tuple[float, ...]
    hours: WorkingHours
    cap: float


@dataclass(frozen=True)
class PourLived:
    """What one pour of a draw came to; times are seconds from its own start, infinite where never.

    Parameters
    ----------
    peak : float
        Hottest place until the next pour [K].
    gel, bonds_from, bonds_until : float
        [s]
    missed : bool
        Whether the next pour found a top that bonds no more.
    """

    peak: float
    gel: float
    bonds_from: float
    bonds_until: float
    missed: bool


@dataclass(frozen=True)
class Lived:
    """What a draw came to.

    Parameters
    ----------
    pours : tuple of PourLived
        Those that were poured: none follows a run-away.
    begun : float
        When the last of them went in [s].
    ready : float
        When all is hard [s]; infinite where never.
    """

    pours: tuple[PourLived, ...]
    begun: float
    ready: float


def live(life: Life) -> Lived:
    """Pour a draw as the plan says, and as the maker would where it comes out otherwise.

    Parameters
    ----------
    life : Life
        Draw and plan.

    Returns
    -------
    Lived
        A pour waits until the one below has gelled and somebody is there; it never goes in earlier
        than planned, and onto a sanded top where it comes too late to bond.
    """
    site = life.site
    spacing = min(SPACING, min(site.block.inside) / NARROWEST)
    layout = lay_out(site, spacing, life.levels, layers=layers_of(life.levels, site.block, PARTS))
    stage, pours = empty_mold(layout, life.starts[0]), list[PourLived]()
    for level, planned in zip(life.levels, (*life.starts[1:], None), strict=True):
        begun, stage = stage.state.time, add_pour(stage, level)
        goal = Goal.READY if planned is None else Goal.NEXT
        seen = follow(stage, goal, stop_above=life.cap, control=CONTROL)
        following = None if planned is None else _next_start(life, seen, planned)
        pours.append(_lived(seen, begun, following))
        if planned is None:
            return Lived(tuple(pours), begun, seen.ready)
        if seen.peak >= life.cap or following is None:
            break
        stage = _at(stage, seen, following)
    return Lived(tuple(pours), begun, NEVER)


def _next_start(life: Life, seen: Followed, planned: float) -> float | None:
    """When the next pour goes in; None where this one never gels."""
    # never earlier than planned, though it gels earlier: warm ground ruins a piece, sanding does not
    late = max(planned, seen.bonds_from)
    if late == planned:
        return planned
    starts = working_starts(life.site.climate, life.hours)
    return next(starts(late, late + WAITING), None) if late < NEVER else None


def _at(stage: Stage, seen: Followed, time: float) -> Stage:
    """What is in the mold at a moment."""
    kept = next((state for state in reversed(seen.snapshots) if state.time <= time), stage.state)
    return stage.at(run(stage.problem, kept, time, control=CONTROL).state)


def _lived(seen: Followed, begun: float, following: float | None) -> PourLived:
    missed = following is not None and following > seen.bonds_until
    gel, first, until = (time - begun for time in (seen.gel_last, seen.bonds_from, seen.bonds_until))
    return PourLived(seen.peak, gel, first, until, missed)
