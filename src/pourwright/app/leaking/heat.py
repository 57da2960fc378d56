"""The heat of a top-up, run on a coarse grid with all pours as they were logged."""

from __future__ import annotations

from datetime import datetime

from pourwright.app.leaking.leak import Reckoned
from pourwright.app.leaking.of_plan import Leaking
from pourwright.app.setup import set_up, site
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.jobs.job import Job
from pourwright.jobs.leak import LeakHeat, LeakTopUp
from pourwright.planner.grids import layers_of
from pourwright.pour.follow import NEVER, Goal
from pourwright.pour.leaked.heat import followed
from pourwright.pour.rehearse import Planned
from pourwright.sheets.wording import Wording

PARTS = 6
"""Layers of each pour, at least."""
OFF = 3.0
"""A peak on so coarse a grid may be off by so much [K]."""


def logged(leak: Leaking, level: float) -> tuple[datetime, list[Planned]]:
    """Pours as they were logged, seconds from the start of the first; the last up to ``level``."""
    plan, pour = leak.plan, leak.pour
    earlier = [each for each in plan.pours if each.number < pour.number]
    times = [leak.went_in(each) for each in earlier]
    zero = times[0] if times else leak.begun
    before = [
        Planned(each.to_m, (at - zero).total_seconds()) for each, at in zip(earlier, times, strict=True)
    ]
    return zero, [*before, Planned(level, (leak.begun - zero).total_seconds())]


def heat_of(job: Job, found: Reckoned, top: LeakTopUp) -> LeakHeat:
    """Run it; the top-up goes on at the first moment somebody is there."""
    leak, say = found.leak, Wording(found.leak.plan.job)
    zero, poured = logged(leak, found.gel.level)
    setup = set_up(job, read_piece(job))
    begins = next((window.open_at for window in top.windows if window.open_at is not None), None)
    if begins is not None:
        at = (datetime.fromisoformat(begins) - zero).total_seconds()
        poured = [*poured, Planned(leak.pour.to_m, at)]
    stands = site(setup, zero)
    levels = [pour.level for pour in poured]
    seen = followed(stands, poured, Goal.READY, layers_of(levels, stands.block, PARTS))
    peak, limit = seen.peak - ZERO_CELSIUS, leak.pour.peak_limit_degC
    hard = None if seen.ready == NEVER else (seen.ready - poured[-1].start) / 3600.0
    what = "With its top-up" if begins is not None else "As it stands"
    over = peak + OFF > limit
    told = (
        f"{what} it gets {say.temperature(peak)} at its hottest, give or take {say.difference(OFF)}; "
        f"the limit is {say.temperature(limit)}{': top it up in two parts' if over else ''}."
    )
    if hard is not None:
        told += f" Hard enough to demold {say.duration(hard)} after that."
    return LeakHeat(kind="run", peak_degC=peak, limit_degC=limit, cured_enough_after_h=hard, words=told)
