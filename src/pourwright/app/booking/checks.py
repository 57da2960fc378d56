"""What cannot have happened, and what somebody else has entered already."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Protocol

from pourwright.app.booking.clock import shown_when
from pourwright.app.booking.words import KIND_WORDS, shown_value
from pourwright.foundation.errors import ConflictError, UserError
from pourwright.foundation.notation import format_length
from pourwright.jobs.plan import PlanDocument
from pourwright.records import KINDS, Entry
from pourwright.records.moments import now

AHEAD = timedelta(minutes=2)
"""How far the clock of a phone may be ahead of the laptop's."""
ALIKE, NEAR = 0.02, timedelta(minutes=30)
COLDEST, HOTTEST = -30.0, 400.0
_GRAMS = 0.005
_ONCE = ("weigh_a", "weigh_b", "mixed", "poured", "caught", "topped_up")
_SINGLE = ("gel", "demolded")


def refuse_unlikely(
    plan: PlanDocument, kind: str, value: float | None, sd: float | None, at: datetime, pour: int
) -> None:
    """Refuse what cannot have happened.

    Parameters
    ----------
    plan : PlanDocument
        What was planned.
    kind : str
        One of `KINDS`.
    value, sd : float or None
        In the unit of the kind.
    at : datetime
        When.
    pour : int
        Number of the pour.

    Raises
    ------
    UserError
        In one sentence.
    """
    if kind not in KINDS:
        raise UserError(f"no entry is called '{kind}'", where="kind", allowed=", ".join(KINDS))
    _refuse_later(plan, at)
    _refuse_pour(plan, pour)
    if not KINDS[kind]:
        _refuse_number(kind, value)
    elif value is None or not math.isfinite(value):
        raise UserError(
            f"'{kind}' needs a number",
            where=kind,
            allowed=f"a value in {KINDS[kind]}",
            todo="enter what was read",
        )
    else:
        _refuse_value(plan, kind, value)
    if sd is not None and not (math.isfinite(sd) and sd >= 0):
        raise UserError("a doubt is 0 or more", where=kind, todo="say how far it may be off either way")


def _refuse_number(kind: str, value: float | None) -> None:
    if value is not None:
        raise UserError(f"'{kind}' has no number", where=kind, todo="leave it out, or write it as a note")


def _refuse_later(plan: PlanDocument, at: datetime) -> None:
    if at > now() + AHEAD:
        when = shown_when(at, plan.job.time_zone, plan.job.units)
        raise UserError(
            f"{when} is still to come",
            where="at",
            allowed=f"until now, {shown_when(now(), plan.job.time_zone, plan.job.units)}",
            todo="look at the date, and at the clock of whoever enters it",
        )


def _refuse_pour(plan: PlanDocument, pour: int) -> None:
    last = max((one.number for one in plan.pours), default=0)
    if not 0 <= pour <= last:
        raise UserError(
            f"the plan has no pour {pour}",
            where="pour",
            allowed=f"1 to {last}; 0 for the piece as a whole",
            todo="say which pour it was",
        )


def _refuse_value(plan: PlanDocument, kind: str, value: float) -> None:
    if KINDS[kind] == "kg" and not (value > 0 or (kind == "caught" and value == 0)):
        raise UserError(
            f"a batch of {shown_value(kind, value, plan.job.units)} cannot be",
            where=kind,
            allowed="more than nothing",
            todo="weigh again, with the empty pail taken off",
        )
    if kind in ("level", "water_level") and not 0 <= value <= plan.section.rim_m + 1e-3:
        rim = format_length(plan.section.rim_m, plan.job.units)
        raise UserError(
            "this level lies above the mold" if value > 0 else "this level lies below the mold's floor",
            where=kind,
            allowed=f"0 to {rim} from the floor as poured",
            todo="measure again, and look which way the tape was held",
        )
    if kind == "temperature" and not COLDEST <= value <= HOTTEST:
        low, high = (shown_value(kind, each, plan.job.units) for each in (COLDEST, HOTTEST))
        raise UserError(
            f"{shown_value(kind, value, plan.job.units)} is no temperature of a casting",
            where=kind,
            allowed=f"{low} to {high}",
            todo="look at the unit",
        )


class Fresh(Protocol):
    """What is to be entered, as far as it is compared."""

    @property
    def kind(self) -> str:
        """One of `KINDS`."""

    @property
    def at(self) -> datetime:
        """When it happened."""

    @property
    def value(self) -> float | None:
        """In the unit of its kind."""

    @property
    def source(self) -> str:
        """Where it comes from."""


def refuse_twin(plan: PlanDocument, fresh: Fresh, pour: int, there: Sequence[Entry]) -> None:
    """Refuse what somebody else has entered already: two logs of one pour would count its resin twice.

    Parameters
    ----------
    plan : PlanDocument
        For its words.
    fresh : Fresh
        What is to be entered.
    pour : int
        Number of the pour.
    there : sequence of Entry
        What stands in the log about this pour.

    Raises
    ------
    ConflictError
        Where it looks the same as an entry from elsewhere.
    """
    for other in there:
        watched = fresh.kind in _SINGLE or (fresh.kind in _ONCE and other.source != fresh.source)
        if watched and _alike(fresh, other):
            raise _twin(plan, pour, other)


def _twin(plan: PlanDocument, pour: int, other: Entry) -> ConflictError:
    when = shown_when(other.at, plan.job.time_zone, plan.job.units)
    said = f"{KIND_WORDS[other.kind]} {shown_value(other.kind, other.value, plan.job.units)}".strip()
    return ConflictError(
        f"pour {pour} has this already: {said}, {when}, from {other.source}, entry {other.id[:8]}",
        where=other.kind,
        todo="leave it if it is the same; --again enters it as another; else correct the one that is there",
    )


def _alike(fresh: Fresh, other: Entry) -> bool:
    if fresh.kind != other.kind:
        return False
    if fresh.kind in _SINGLE:
        return True
    if abs(fresh.at - other.at) > NEAR:
        return False
    if fresh.value is None or other.value is None:
        return True
    return abs(fresh.value - other.value) <= max(ALIKE * abs(other.value), _GRAMS)
