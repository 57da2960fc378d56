"""Follow a pour until it bonds no more or can be demolded, and note what happens."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.marks import RIM, Marks, area_quantile
from pourwright.pour.skin import Skin
from pourwright.pour.stages import Stage
from pourwright.solver import Control, Ending, State, run

Array = NDArray[np.float64]
Observer = Callable[[float, Array, Array], None]
HOUR = 3600.0
DAY = 24 * HOUR
SEGMENT = 3 * HOUR
COOLING = 0.5
USUAL_CURE = 120 * HOUR
NEVER = float("inf")


@dataclass(frozen=True, eq=False)
class Followed:
    """What was seen of a pour, from its start to the end of the watch.

    Parameters
    ----------
    stage : Stage
        At the end of the watch.
    snapshots : tuple of State
        Every three hours while the next pour may go on; the first lies just before.
    peak : float
        Hottest place of the casting during the watch [K].
    peak_time : float
        When [s].
    peak_cell : tuple of int
        Where.
    gel_first, gel_last : float
        When the first and the last place of this pour gelled [s]; infinite if not yet.
    bonds_from, bonds_until : float
        When the next pour may go on, and until when it bonds [s].
    ready : float
        When all is hard enough to demold and the core near the shop [s]; infinite if not in this watch.
    steps : int
        Time steps taken.
    energy_error : float
        Largest relative error of the heat balance in any three hours [-].
    """

    stage: Stage
    snapshots: tuple[State, ...]
    peak: float
    peak_time: float
    peak_cell: tuple[int, int, int]
    gel_first: float
    gel_last: float
    bonds_from: float
    bonds_until: float
    ready: float
    steps: int
    energy_error: float


class Goal(StrEnum):
    """What a watch waits for."""

    PEAK = "the casting cools off its peak"
    BOND = "the top bonds no more"
    NEXT = "the top bonds no more and the casting has cooled off its peak"
    READY = "all is hard enough to demold and the core near the shop"


@dataclass
class _Watch:
    """Reads the criteria at every step; crossings in between lie on straight lines."""

    stage: Stage
    marks: Marks
    goal: Goal
    bonds_from: float = NEVER
    bonds_until: float = NEVER
    ready: float = NEVER
    last: dict[str, tuple[float, Callable[[], float]]] = field(default_factory=dict)
    snapshots: list[State] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.top = Skin.of(self.stage)
        self.poured = np.flatnonzero(self.stage.poured)
        self.room = max(self.stage.layout.site.climate.warmest, DEFAULTS["room"].value)

    def step(self, time: float, temperature: Array, conversion: Array) -> None:
        """Read the criteria on the fields of one step."""
        if self.bonds_until == NEVER:
            places = self.marks.bonding_left(self.top.mean(temperature), self.top.mean(conversion))
            # no tenth of the top is past bonding while none of it is
            above = bool(places.min() > 0.0)
            self.bonds_until = self._crossing(
                "bond", time, lambda: area_quantile(places, self.top.areas, RIM), above=above
            )
        if self.goal is Goal.READY and self.ready == NEVER:
            warm, cure = (values.reshape(-1)[self.poured] for values in (temperature, conversion))
            # hard is not enough: a hot core tears as its skin meets the shop
            hot = float(warm.max()) - self.room - DEFAULTS["open_within"].value
            self.ready = self._crossing(
                "hard",
                time,
                lambda: max(self.marks.hardness_left(warm, cure, self.room), hot),
                above=hot > 0.0,
            )

    def look(self, state: State) -> None:
        """Read off what the solver has recorded, and keep a snapshot for the next pour."""
        if self.bonds_from == NEVER:
            crossed = self.top.mean(state.records.crossing_time[0])
            gelled = np.nan_to_num(crossed, nan=NEVER)
            self.bonds_from = area_quantile(gelled, self.top.areas, 1.0 - RIM)
        if self.goal is not Goal.NEXT:
            return
        # only the last state before the window can matter: the next pour starts within it
        if self.bonds_from == NEVER:
            self.snapshots = [state]
        elif state.time - SEGMENT <= self.bonds_until:
            self.snapshots.append(state)

    def reached(self, state: State) -> bool:
        """Whether what is waited for has come."""
        return _REACHED[self.goal](self, state)

    def cooled(self, state: State) -> bool:
        """Whether the casting has been warmed by its reaction and cools again, or never will be."""
        tops = state.records.peak_temperature.reshape(-1)[self.poured]
        peak = float(tops.max())
        if peak > _warmed(self.stage):
            return float(state.temperature.reshape(-1)[self.poured].max()) < peak - COOLING
        # a thin pour hardly warms: where nothing got hotter for a day, nothing will
        return state.time - float(state.records.peak_time.reshape(-1)[self.poured[tops.argmax()]]) > DAY

    def _crossing(self, name: str, time: float, left: Callable[[], float], *, above: bool) -> float:
        """When a value falls to nil; it is worked out only where it is not plainly above that."""
        before, earlier = self.last.get(name, (time, left))
        self.last[name] = (time, left)
        if above or (now := left()) > 0.0:
            return NEVER
        more = max(earlier(), 0.0)
        return time if more <= now else before + (time - before) * more / (more - now)


_REACHED: Mapping[Goal, Callable[[_Watch, State], bool]] = {
    Goal.PEAK: lambda watch, state: watch.cooled(state) or watch.bonds_until < state.time,
    Goal.BOND: lambda watch, _: max(watch.bonds_from, watch.bonds_until) < NEVER,
    Goal.NEXT: lambda watch, state: (
        max(watch.bonds_from, watch.bonds_until) < state.time and watch.cooled(state)
    ),
    Goal.READY: lambda watch, _: watch.ready < NEVER,
}


def follow(
    stage: Stage,
    goal: Goal,
    *,
    until: float | None = None,
    stop_above: float = NEVER,
    control: Control | None = None,
    observer: Observer | None = None,
    progress: Progress = SILENT,
    stage_name: str = "heat and cure",
) -> Followed:
    """Watch the last pour of a stage.

    Parameters
    ----------
    stage : Stage
        Just after `add_pour`.
    goal : Goal
        What to wait for, at most three weeks.
    until : float, optional
        Stop at this time instead [s]: the next pour goes on.
    stop_above : float
        Give up once a place is hotter [K].
    control : Control, optional
        Of the solver.
    observer : callable, optional
        As the solver's.
    progress : Progress
        Told every few simulated hours; may raise Cancelled.
    stage_name : str
        What progress calls this work.

    Returns
    -------
    Followed
        Times in seconds after the climate's zero.
    """
    begin = stage.state.time
    horizon = begin + DEFAULTS["stall_after"].value if until is None else until
    watch = _Watch(stage, Marks.of(stage.layout.site.resin), goal)
    control = control or Control()
    # a run that is given up ends like a run-away
    control = replace(control, cap=min(control.cap, stop_above))
    more = () if observer is None else (observer,)
    state, steps, error = stage.state, 0, 0.0
    watch.look(state)
    while state.time < horizon:
        mark = min(state.time + SEGMENT, horizon)
        progress.step(stage_name, state.time - begin, max(USUAL_CURE, state.time - begin))
        # in pieces of three hours: that is how often the end is looked for, and what states are kept
        outcome = run(stage.problem, state, mark, control=control, observer=together(watch.step, *more))
        state, steps, error = outcome.state, steps + outcome.steps, max(error, outcome.balance.error)
        watch.look(state)
        if outcome.ending is Ending.RUNAWAY or (until is None and watch.reached(state)):
            break
    return _followed(stage.at(state), watch, steps, error)


def together(*observers: Observer) -> Observer:
    """Make one observer of several.

    Parameters
    ----------
    observers : callables
        As the solver's.

    Returns
    -------
    callable
        Calls them in their order.
    """

    def observe(time: float, temperature: Array, conversion: Array) -> None:
        for each in observers:
            each(time, temperature, conversion)

    return observe


def _warmed(stage: Stage) -> float:
    """Temperature that only the reaction can bring about [K]: above the shop's and the pour's own."""
    site = stage.layout.site
    return max(site.climate.warmest, site.poured_at(stage.starts[-1])) + COOLING


def _followed(stage: Stage, watch: _Watch, steps: int, error: float) -> Followed:
    records = stage.state.records
    cells = stage.poured
    hottest = np.where(cells, records.peak_temperature, -NEVER)
    cell = np.unravel_index(int(np.argmax(hottest)), hottest.shape)
    crossed = records.crossing_time[0][stage.of_pour(len(stage.levels) - 1)]
    gelled = np.where(np.isnan(crossed), NEVER, crossed)
    return Followed(
        stage,
        tuple(watch.snapshots),
        float(hottest[cell]),
        float(records.peak_time[cell]),
        (int(cell[0]), int(cell[1]), int(cell[2])),
        float(gelled.min()),
        float(gelled.max()),
        watch.bonds_from,
        watch.bonds_until,
        watch.ready,
        steps,
        error,
    )
