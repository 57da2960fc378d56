"""Follow a pour until it bonds no more or can be demolded, and note what happens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.marks import RIM, Marks, area_quantile
from pourwright.pour.stages import Stage
from pourwright.solver import Control, Ending, State, run

Array = NDArray[np.float64]
HOUR = 3600.0
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
        By the hour while the next pour may go on; the first lies just before.
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
        When all is hard enough to demold [s]; infinite if not in this watch.
    steps : int
        Time steps taken.
    energy_error : float
        Largest relative error of the heat balance in any hour [-].
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


@dataclass
class _Watch:
    """Reads the criteria every hour; crossings in between lie on straight lines."""

    stage: Stage
    marks: Marks
    to_the_end: bool
    peak_only: bool
    bond_only: bool
    bonds_from: float = NEVER
    bonds_until: float = NEVER
    ready: float = NEVER
    last: dict[str, tuple[float, float]] = field(default_factory=dict)
    snapshots: list[State] = field(default_factory=list)
    keep: bool = False

    def __post_init__(self) -> None:
        layout, top = self.stage.layout, self.stage.top
        self.cells = layout.inside[top]
        dx, dy, _ = layout.grid.spacings
        self.areas = (layout.cavity[top] * dx[:, None] * dy[None, :])[self.cells]

    def look(self, state: State) -> None:
        """Read the criteria at one moment."""
        self._gel(state)
        self._bond(state)
        if self.to_the_end:
            self._hard(state)
        self._keep(state)

    def _gel(self, state: State) -> None:
        if self.bonds_from < NEVER:
            return
        crossed = state.records.crossing_time[0][self.stage.top][self.cells]
        self.bonds_from = area_quantile(np.nan_to_num(crossed, nan=NEVER), self.areas, 1.0 - RIM)

    def _bond(self, state: State) -> None:
        top = self.stage.top
        left = self.marks.bonding_left(state.temperature[top][self.cells], state.conversion[top][self.cells])
        self.bonds_until = min(
            self.bonds_until, self._crossing("bond", state.time, area_quantile(left, self.areas, RIM))
        )

    def _hard(self, state: State) -> None:
        cells = self.stage.poured
        shop = self.stage.layout.site.climate.warmest
        left = self.marks.hardness_left(state.temperature[cells], state.conversion[cells], shop)
        self.ready = min(self.ready, self._crossing("hard", state.time, left))

    def _crossing(self, name: str, time: float, left: float) -> float:
        before, more = self.last.get(name, (time, left))
        self.last[name] = (time, left)
        if left > 0.0:
            return NEVER
        return time if more <= left else before + (time - before) * max(more, 0.0) / (max(more, 0.0) - left)

    def _keep(self, state: State) -> None:
        if self.keep and self.bonds_from == NEVER:
            self.snapshots = [state]
        elif self.keep and state.time - HOUR <= self.bonds_until:
            self.snapshots.append(state)


def follow(
    stage: Stage,
    *,
    to_the_end: bool = False,
    peak_only: bool = False,
    bond_only: bool = False,
    until: float | None = None,
    stop_above: float = NEVER,
    keep: bool = False,
    control: Control | None = None,
    observer: Callable[[float, Array, Array], None] | None = None,
    progress: Progress = SILENT,
    stage_name: str = "heat and cure",
) -> Followed:
    """Watch the last pour of a stage.

    Parameters
    ----------
    stage : Stage
        Just after `add_pour`.
    to_the_end : bool
        Watch until it can be demolded; else until it bonds no more and has cooled off its peak.
    peak_only : bool
        Stop as soon as the casting cools off its peak.
    bond_only : bool
        Stop as soon as the top bonds no more.
    until : float, optional
        Stop at this time instead [s]: the next pour goes on.
    stop_above : float
        Give up once a place is hotter [K].
    keep : bool
        Keep hourly snapshots from which a next pour can start.
    control : Control, optional
        Of the solver.
    observer : callable, optional
        As the solver's.
    progress : Progress
        Told every simulated hour; may raise Cancelled.
    stage_name : str
        What progress calls this work.

    Returns
    -------
    Followed
        Times in seconds after the climate's zero.
    """
    begin = stage.state.time
    horizon = begin + DEFAULTS["stall_after"].value if until is None else until
    watch = _Watch(stage, Marks.of(stage.layout.site.resin), to_the_end, peak_only, bond_only, keep=keep)
    state, steps, error = stage.state, 0, 0.0
    watch.look(state)
    while state.time < horizon:
        mark = min(state.time + HOUR, horizon)
        progress.step(stage_name, state.time - begin, max(USUAL_CURE, state.time - begin))
        outcome = run(stage.problem, state, mark, control=control, observer=observer)
        state, steps, error = outcome.state, steps + outcome.steps, max(error, outcome.balance.error)
        watch.look(state)
        if outcome.ending is Ending.RUNAWAY or _enough(watch, state, stop_above, until is not None):
            break
    return _followed(stage.at(state), watch, steps, error)


def _enough(watch: _Watch, state: State, stop_above: float, fixed_end: bool) -> bool:
    cells = watch.stage.poured
    peak = float(state.records.peak_temperature[cells].max())
    if peak > stop_above:
        return True
    if fixed_end:
        return False
    if watch.to_the_end:
        return watch.ready < NEVER
    if watch.bond_only:
        return max(watch.bonds_from, watch.bonds_until) < NEVER
    cooled = float(state.temperature[cells].max()) < peak - COOLING and peak > _warmed(watch.stage)
    if watch.peak_only:
        return cooled or watch.bonds_until < state.time
    return watch.bonds_from < NEVER and watch.bonds_until < state.time and cooled


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
