"""Which way saves a pour that has run out in part, and when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import inf

from pourwright.app.leaking.of_plan import Leaking, glass_below
from pourwright.jobs.leak import Way
from pourwright.planner.hours import WorkingHours
from pourwright.pour.leaked.running import Running
from pourwright.pour.leaked.top_up import AtGel, TopUp

SMALL = 0.002
"""A level that is lower by less is as planned [m]."""
LITTLE = 0.1
"""Share of a pour that is not topped up where a reading could as well be wrong."""


@dataclass(frozen=True, slots=True)
class Bond:
    """When the next pour bonds to this one: seconds after it began; ``gel`` is its last place."""

    gel: float
    begins: float
    until: float


@dataclass(frozen=True, slots=True)
class Window:
    """When a top-up may go on [s after the pour began], and the first moment somebody is there."""

    way: Way
    begins: float
    until: float
    open_at: datetime | None


def bond_of(leak: Leaking) -> Bond:
    """Bond window of what is in the mold, by the plan; stretched where the gel was seen at another time."""
    pour = leak.pour
    stretch = leak.thickens.gels_after / (3600.0 * pour.gel_after_h)
    times = (pour.gel_after_h, pour.bonds_from_h, pour.bonds_until_h)
    return Bond(*(3600.0 * hours * stretch for hours in times))


def way_of(leak: Leaking, runs: Running, gel: AtGel, need: TopUp, bond: Bond, now: float) -> Way:
    """How the piece is saved."""
    small = need.missing < LITTLE * leak.case.poured.mass
    if leak.pour.to_m - (gel.high if small else gel.level) < SMALL:
        return "nothing"
    if now < bond.gel:
        return "now" if runs.state == "stopped" else "bond"
    if now <= bond.until:
        return "bond"
    band = glass_below(leak.plan, leak.pour.to_m)
    inside = band is not None and gel.level < band.to_m - SMALL
    return "glass out" if inside else "sand"


def windows(leak: Leaking, way: Way, bond: Bond, hours: WorkingHours, now: float) -> Iterator[Window]:
    """Every time from now on at which a top-up may go on."""
    if way == "nothing":
        return
    spans: list[tuple[Way, float, float]] = [
        ("now", now, bond.gel),
        ("bond", max(bond.begins, now), bond.until),
        ("glass out" if way == "glass out" else "sand", max(bond.until, now), inf),
    ]
    for kind, begins, until in spans:
        if until > begins:
            yield Window(kind, begins, until, _open(leak, hours, begins, until))


def _open(leak: Leaking, hours: WorkingHours, begins: float, until: float) -> datetime | None:
    first = hours.next_open(leak.moment(begins))
    return None if until < inf and first > leak.begun + timedelta(seconds=until) else first
