"""A casting under way: the empty mold, then one pour after the other."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.layout import Layout
from pourwright.pour.reaction import reaction_of
from pourwright.solver import Problem, Records, State, mixed, start, switch_on

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Stage:
    """What is in the mold now.

    Parameters
    ----------
    layout : Layout
        The grid.
    problem, state
        For the solver.
    levels, starts : tuple of float
        Level reached by each pour [m] and when it went in [s].
    """

    layout: Layout
    problem: Problem
    state: State
    levels: tuple[float, ...] = ()
    starts: tuple[float, ...] = ()

    @property
    def level(self) -> float:
        """Level of the last pour [m]."""
        return self.levels[-1] if self.levels else 0.0

    @property
    def poured(self) -> Mask:
        """Cells in the cavity that are filled."""
        cells = self.layout.inside.copy()
        # layers that a level runs through count: their cells hold a share
        cells[:, :, self.layout.wet(self.level) == 0.0] = False
        return cells

    def of_pour(self, number: int) -> Mask:
        """Cells of one pour, counted from 0."""
        lower = self.levels[number - 1] if number else 0.0
        cells = np.zeros_like(self.layout.inside)
        layers = self.layout.layers(lower, self.levels[number])
        cells[:, :, layers] = self.layout.inside[:, :, layers]
        return cells

    def at(self, state: State) -> Stage:
        """Return the same filling at another moment."""
        return replace(self, state=state)


def empty_mold(layout: Layout, time: float) -> Stage:
    """Stand the empty mold in the shop until everything has its temperature.

    Parameters
    ----------
    layout : Layout
        From `lay_out`.
    time : float
        Seconds after the climate's zero.

    Returns
    -------
    Stage
        Nothing poured; cells of the cavity hold nothing.
    """
    reaction = reaction_of(layout.site)
    problem = Problem(
        *layout.grid.axes,
        layout.shell_held,
        layout.shell_conductivity,
        np.zeros(layout.cavity.shape),
        ~layout.inside & (not layout.site.bare),
        layout.surfaces,
        reaction.rate,
        reaction.row,
        cut=layout.cut_at(0.0),
    )
    shop = layout.site.climate.temperature(time)
    return Stage(layout, problem, start(problem, shop, time=time, thresholds=(reaction.mark,)))


def cured_ground(layout: Layout, level: float, time: float = 0.0) -> Stage:
    """Stand a mold filled to ``level`` [m] with cured fill in the shop until all has its temperature.

    Parameters
    ----------
    layout : Layout
        From `lay_out`.
    level : float
        A line of the grid [m]; 0 is the empty mold.
    time : float
        Seconds after the climate's zero.

    Returns
    -------
    Stage
        Nothing below ``level`` reacts any more.
    """
    stage = empty_mold(layout, time)
    if level <= 0.0:
        return stage
    filled = add_pour(stage, level)
    shop = layout.site.climate.temperature(time)
    cured = np.where(filled.problem.reacting, 1.0, filled.state.conversion)
    state = start(filled.problem, shop, cured, time=time, thresholds=stage.state.records.thresholds)
    return filled.at(state)


def add_pour(stage: Stage, level: float) -> Stage:
    """Pour warm resin over the cold glass that lies below ``level``, at the state's time.

    Parameters
    ----------
    stage : Stage
        As it stands.
    level : float
        Above the last pour's [m]; best a line of the grid.

    Returns
    -------
    Stage
        Resin and glass mixed to one temperature by their capacities, energy exact; peaks
        are counted anew from here.
    """
    layout, now = stage.layout, stage.state
    wet = layout.wet(level)
    more = wet - layout.wet(stage.level)
    cells = layout.filled & (more > 0.0)
    resin = layout.cavity * (more * layout.resin_capacity)
    glass = layout.cavity * (more * layout.glass_capacity)
    # a cell that was empty brings its share of rubber too, as cold as the shop
    shell = np.where(stage.problem.active, 0.0, layout.shell_held)
    shop = layout.site.climate.temperature(now.time)
    warm = np.full_like(resin, layout.site.poured_at(now.time))
    cold = np.full_like(resin, shop)
    problem, state = switch_on(
        stage.problem,
        now,
        cells,
        mixed((resin, glass + shell), (warm, cold)),
        reaction_of(layout.site).begins,
        volumetric_heat_capacity=layout.shell_held + layout.cavity * (wet * layout.bed_capacity),
        conductivity=layout.full_conductivity,
        heat=wet * layout.full_heat,
        cut=layout.cut_at(level),
    )
    state = replace(state, records=_peaks_anew(state))
    return Stage(layout, problem, state, (*stage.levels, level), (*stage.starts, now.time))


def _peaks_anew(state: State) -> Records:
    times = np.full_like(state.temperature, state.time)
    return replace(state.records, peak_temperature=state.temperature, peak_time=times)
