"""A measured curve against the planned one: how hot, when, how far apart."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from pourwright.app.measuring.predicted import Predicted

Floats = NDArray[np.float64]
Side = Literal["inside", "below", "above"]
STEP = 0.05
"""Of the hours at which two curves are laid beside each other [h]."""
FARTHEST, SHIFT_STEP = 12.0, 0.1
"""How far a curve is moved to lie on the other, and in which steps [h]."""
LEAST_WARMING = 3.0
"""Warming from which on a peak has a time [K]."""
LEAST_SHARED = 1.0
"""Hours that both curves must have [h]."""


@dataclass(frozen=True)
class Compared:
    """What came of it.

    Parameters
    ----------
    peak_degC, peak_after_h : float
        Hottest reading of this pour and when, after it went in.
    planned_degC, planned_after_h : float
        The same by the plan.
    rms_K : float or None
        Root of the mean square of what lies between both curves; None where they share too little.
    mean_K : float or None
        Mean of measured less planned.
    shift_h : float or None
        So much later the measured curve runs as a whole; None without a peak to lay it on.
    rms_shifted_K : float or None
        What is left between the curves once it is moved by that.
    side : str or None
        How its peak lies to the band of eight in ten; None where the plan has none.
    rising : bool
        Whether it was still rising at its last reading.
    over_from_h, over_until_h : float or None
        First and last reading over the limit; None where it was kept.
    hours : float
        That are measured after the pour went in.
    """

    peak_degC: float
    peak_after_h: float
    planned_degC: float
    planned_after_h: float
    rms_K: float | None
    mean_K: float | None
    shift_h: float | None
    rms_shifted_K: float | None
    side: Side | None
    rising: bool
    over_from_h: float | None
    over_until_h: float | None
    hours: float

    @property
    def warmer(self) -> float:
        """Measured less planned at the peaks [K]."""
        return self.peak_degC - self.planned_degC

    @property
    def later(self) -> float:
        """So much later than planned it was hottest [h]."""
        return self.peak_after_h - self.planned_after_h


def compare(hours: Floats, degC: Floats, plan: Predicted, limit: float | None, until: float) -> Compared:
    """Compare what was measured with what was planned.

    Parameters
    ----------
    hours : array (n,)
        After the pour went in [h], never falling; some of them before the next pour.
    degC : array (n,)
        Readings.
    plan : Predicted
        Of the same place.
    limit : float, optional
        That the casting must not get over [degC].
    until : float
        When the next pour went in, after this one [h].

    Returns
    -------
    Compared
    """
    own = (hours >= 0.0) & (hours <= until)
    times, there = hours[own], degC[own]
    at = int(np.argmax(there))
    planned_after, planned = plan.peak
    over = times[there > limit] if limit is not None else times[:0]
    apart = _between(times, there, plan, 0.0)
    shift, left = _shift(times, there, plan)
    return Compared(
        peak_degC=float(there[at]), peak_after_h=float(times[at]), planned_degC=planned,
        planned_after_h=planned_after, rms_K=_rms(apart),
        mean_K=float(apart.mean()) if apart.size else None, shift_h=shift, rms_shifted_K=left,
        side=_side(float(there[at]), plan.band), rising=_is_rising(there, at),
        over_from_h=float(over[0]) if over.size else None,
        over_until_h=float(over[-1]) if over.size else None, hours=float(times[-1]),
    )  # fmt: skip


def _side(peak: float, band: tuple[float, float] | None) -> Side | None:
    if band is None:
        return None
    return "below" if peak < band[0] else "above" if peak > band[1] else "inside"


def _is_rising(degC: Floats, hottest: int) -> bool:
    """Hottest at its very end, and warmer than it began."""
    return hottest == degC.size - 1 and float(degC[-1] - degC[0]) > LEAST_WARMING


def _between(times: Floats, degC: Floats, plan: Predicted, shift: float) -> Floats:
    """Measured, moved earlier by a shift, less planned; nothing where they share too little."""
    first = max(float(times[0]) - shift, float(plan.hours[0]))
    last = min(float(times[-1]) - shift, float(plan.hours[-1]))
    if last - first < LEAST_SHARED:
        return np.empty(0)
    grid = np.arange(first, last, STEP)
    apart: Floats = np.interp(grid + shift, times, degC) - np.interp(grid, plan.hours, plan.degC)
    return apart


def _rms(apart: Floats) -> float | None:
    return float(np.sqrt(np.mean(apart**2))) if apart.size else None


def _shift(times: Floats, degC: Floats, plan: Predicted) -> tuple[float | None, float | None]:
    """How much later the curve runs as a whole; nothing where one of them has no peak to be laid on."""
    warming = min(float(plan.degC.max() - plan.degC[0]), float(np.ptp(degC)))
    if warming < LEAST_WARMING or _is_rising(degC, int(np.argmax(degC))):
        return None, None
    steps = np.arange(-FARTHEST, FARTHEST + SHIFT_STEP / 2, SHIFT_STEP)
    # the peaks must come near each other, or two flat tails lie best on each other
    near = abs(steps - (float(times[np.argmax(degC)]) - plan.peak[0])) <= 0.5 * max(plan.peak[0], 1.0)
    moved = [(_between(times, degC, plan, step), float(step)) for step in steps[near]]
    # a sensor that is off by some kelvins must not look like one that is late
    tried = [(float(np.std(apart)), step, _rms(apart)) for apart, step in moved if apart.size]
    if not tried:
        return None, None
    _, step, left = min(tried, key=lambda each: each[:2])
    return step, left
