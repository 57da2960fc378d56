"""The bench that tries pours by simulating them on a coarse grid."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from pourwright.planner.model import Trial
from pourwright.pour.follow import NEVER, Followed, Goal, follow
from pourwright.pour.layout import Layout
from pourwright.pour.stages import Stage, add_pour, cured_ground, empty_mold
from pourwright.solver import Control, State, run

Key = tuple[tuple[float, ...], tuple[float, ...]]
GIVE_UP = 12.0


@dataclass(frozen=True)
class Correction:
    """What the coarse grid is known to miss, from a finer run of a plan.

    Parameters
    ----------
    peak : float
        To add to a peak [K].
    bonds_from, bonds_until, ready : float
        To add to these times, over the time since the pour [-].
    """

    peak: float = 0.0
    bonds_from: float = 0.0
    bonds_until: float = 0.0
    ready: float = 0.0


@dataclass
class CoarseBench:
    """Simulates one more pour from the kept state of the pours below it.

    Parameters
    ----------
    layout : Layout
        Coarse, with a line at every level that may be asked for.
    peak_limit : float
        Hottest the casting may get [K].
    snap : callable
        Turns the moment a piece is hard [s] into the moment somebody is there to demold it [s].
    correction : Correction
        Added to every answer.
    control : Control
        Of the solver.
    """

    layout: Layout
    peak_limit: float
    snap: Callable[[float], float]
    correction: Correction = Correction()
    control: Control = field(default_factory=lambda: Control(tolerance=0.1, max_step=3600.0))
    kept: dict[Key, Followed] = field(default_factory=dict)
    cold: dict[tuple[float, float, bool], float] = field(default_factory=dict)

    def pour(self, before: Trial | None, level: float, start: float) -> Trial:
        """Simulate pouring up to ``level`` [m] at ``start`` [s] on top of ``before``."""
        levels, starts = (before.levels, before.starts) if before else ((), ())
        key = ((*levels, level), (*starts, start))
        last = level >= self.layout.site.block.height - 1e-9
        if key not in self.kept:
            stage = add_pour(self._ground(levels, starts, start), level)
            self.kept[key] = follow(
                stage,
                Goal.READY if last else Goal.NEXT,
                stop_above=self.peak_limit + GIVE_UP,
                control=self.control,
            )
        return self._trial(key, self.kept[key], before.peaks if before else (), last)

    def excess_on_cold_ground(self, lower: float, upper: float, *, give_up: bool = True) -> float:
        """Simulate one pour on ground that is cured and as cold as the shop [K over the limit].

        Without ``give_up`` a run-away is followed to its peak.
        """
        key = (lower, upper, give_up)
        if key not in self.cold:
            stage = add_pour(cured_ground(self.layout, lower), upper)
            above = self.peak_limit + GIVE_UP if give_up else NEVER
            self.cold[key] = follow(stage, Goal.PEAK, stop_above=above, control=self.control).peak
        return self.cold[key] + self.correction.peak - self.peak_limit

    def _ground(self, levels: tuple[float, ...], starts: tuple[float, ...], start: float) -> Stage:
        if not levels:
            return empty_mold(self.layout, start)
        below = self._below(levels, starts)
        state = _latest(below.snapshots, start)
        outcome = run(below.stage.problem, state, start, control=self.control)
        return below.stage.at(outcome.state)

    def _below(self, levels: tuple[float, ...], starts: tuple[float, ...]) -> Followed:
        """The pours below; poured again where only their answers were kept."""
        if (levels, starts) not in self.kept:
            before: Trial | None = None
            for level, start in zip(levels, starts, strict=True):
                before = self.pour(before, level, start)
        return self.kept[levels, starts]

    def _trial(self, key: Key, seen: Followed, peaks: tuple[float, ...], last: bool) -> Trial:
        shift, start = self.correction, key[1][-1]
        hard = _shifted(seen.ready, start, shift.ready)
        return Trial(
            key[0],
            key[1],
            (*peaks, seen.peak + shift.peak),
            self.peak_limit,
            _shifted(seen.bonds_from, start, shift.bonds_from),
            _shifted(seen.bonds_until, start, shift.bonds_until),
            self.snap(hard) if last and hard < float("inf") else None,
        )


def _shifted(time: float, start: float, share: float) -> float:
    return start + (1.0 + share) * (time - start)


def _latest(snapshots: tuple[State, ...], time: float) -> State:
    return next((state for state in reversed(snapshots) if state.time <= time), snapshots[0])
