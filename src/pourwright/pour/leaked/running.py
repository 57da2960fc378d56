"""Whether a leak still runs: two readings against their noise, and what the law would have it do."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Literal

from pourwright.pour.leaked.defaults import LEAKED
from pourwright.pour.leaked.evidence import Case, Level
from pourwright.pour.leaked.filling import level_of
from pourwright.pour.leaked.law import Falling, Thickens
from pourwright.pour.leaked.lost import Lost, together

State = Literal["runs", "stopped", "cannot tell", "gelled"]
SURE, PLAIN = 2.0, 3.0
"""Standard deviations of a fall that counts as one, and of a fall that would have been plain to see."""
LOOK_STEPS = 48
SOONEST, LATEST = 900.0, 12 * 3600.0
"""When it is worth looking again, at the earliest and the latest [s]."""


@dataclass(frozen=True, slots=True)
class Running:
    """Whether it still runs.

    Parameters
    ----------
    state : str
        "runs", "stopped", "cannot tell" or "gelled".
    fell : float or None
        Fall between the last two readings [m]; None with fewer than two.
    noise : float or None
        Its standard deviation [m].
    between : float or None
        Time between them [s].
    constant : float
        Of the leak, were it running [Pa m2].
    rate : float
        What would run out now [kg/s]; 0 where it does not.
    look_again : float or None
        When a second reading would tell, after the last one [s].
    """

    state: State
    fell: float | None
    noise: float | None
    between: float | None
    constant: float
    rate: float
    look_again: float | None


def running(
    case: Case, out: Lost, fall: Falling, thickens: Thickens, now: float, seen: bool | None = None
) -> Running:
    """Judge whether a leak still runs.

    Parameters
    ----------
    case : Case
        The pour and its readings.
    out : Lost
        What has run out.
    fall : Falling
        Of its level.
    thickens : Thickens
        Its liquid.
    now : float
        After the pour began [s].
    seen : bool, optional
        What the maker sees: whether it drips; it overrules the readings.

    Returns
    -------
    Running

    Notes
    -----
    Two readings with one stick at one place share all their doubts but that of the eye, so their difference
    is sharper than either. A fall of two standard deviations runs; none where the law, fitted to what had
    run out before, would have shown three has stopped.
    """
    pair = _pair(case)
    constant = _constant(case, out, fall, thickens, pair)
    level = float(level_of(case, case.poured.mass - out.likely, now))
    state = _state(case, fall, thickens, now, pair, seen)
    flows = case.density * fall.rate(level, constant, thickens.thin(now))
    rate = flows if state in ("runs", "cannot tell") else 0.0
    again = _look_again(fall, thickens, now, level, constant) if state == "cannot tell" else None
    fell = None if pair is None else pair[0].height - pair[1].height
    noise = None if pair is None else _noise(pair)
    between = None if pair is None else pair[1].time - pair[0].time
    return Running(state, fell, noise, between, constant, rate, again)


def _pair(case: Case) -> tuple[Level, Level] | None:
    """The last two readings at different times."""
    readings = together(case.read)
    if len(readings) < 2 or case.levels[-1].at_most:
        return None
    return readings[-2], readings[-1]


def _noise(pair: tuple[Level, Level]) -> float:
    """Standard deviation of a fall: the same stick and place on both times leave the eye only [m]."""
    apart = sqrt(pair[0].doubt ** 2 + pair[1].doubt ** 2)
    if max(level.doubt for level in pair) > LEAKED["level_error"].value:
        # no stick was read
        return apart
    return min(apart, sqrt(2.0) * LEAKED["still"].value)


def _constant(
    case: Case, out: Lost, fall: Falling, thickens: Thickens, pair: tuple[Level, Level] | None
) -> float:
    """From the last fall where it is one, else from all that has run out."""
    if pair is not None and pair[0].height - pair[1].height > SURE * _noise(pair):
        flowed = thickens.until(pair[1].time) - thickens.until(pair[0].time)
        return fall.constant(pair[0].height, pair[1].height, flowed)
    return overall(case, out.likely, fall, thickens, case.latest)


def overall(case: Case, out: float, fall: Falling, thickens: Thickens, by: float) -> float:
    """Leak constant from all that has run out since the pour.

    Parameters
    ----------
    case : Case
        The pour.
    out : float
        What has run out [kg].
    fall : Falling
        Of its level.
    thickens : Thickens
        Its liquid.
    by : float
        By when, after the pour began [s].

    Returns
    -------
    float
        [Pa m2]
    """
    full, left = (float(level_of(case, case.poured.mass - gone, by)) for gone in (0.0, out))
    return fall.constant(full, left, thickens.until(by))


def _state(
    case: Case,
    fall: Falling,
    thickens: Thickens,
    now: float,
    pair: tuple[Level, Level] | None,
    seen: bool | None,
) -> State:
    if now >= thickens.gels_after:
        return "gelled"
    if seen is not None:
        return "runs" if seen else "stopped"
    if pair is None:
        return "cannot tell"
    fell, noise = pair[0].height - pair[1].height, _noise(pair)
    if fell > SURE * noise:
        return "runs"
    return "stopped" if _expected(case, fall, thickens, pair) > fell + PLAIN * noise else "cannot tell"


def _expected(case: Case, fall: Falling, thickens: Thickens, pair: tuple[Level, Level]) -> float:
    """Fall between the two readings by what had run out at the first [m]."""
    full = float(level_of(case, case.poured.mass, pair[0].time))
    constant = fall.constant(full, pair[0].height, thickens.until(pair[0].time))
    flowed = thickens.until(pair[1].time) - thickens.until(pair[0].time)
    return pair[0].height - fall.after(pair[0].height, constant, flowed)


def _look_again(fall: Falling, thickens: Thickens, now: float, level: float, constant: float) -> float | None:
    """When the fall, were it running, would be plain to see; None where it would not before it gels."""
    needed = PLAIN * sqrt(2.0) * LEAKED["still"].value
    for step in range(1, LOOK_STEPS + 1):
        later = now + SOONEST + (LATEST - SOONEST) * (step - 1) / (LOOK_STEPS - 1)
        flowed = thickens.until(later) - thickens.until(now)
        if level - fall.after(level, constant, flowed) > needed:
            return later - now
    return None
