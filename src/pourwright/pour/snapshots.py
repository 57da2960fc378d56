"""Snapshots of a casting while its plan is rehearsed: a few hundred, more where more happens."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.cuts import Cut, Planes, cut_planes, fuller
from pourwright.pour.display import DisplayGrid, Half, Sampler, apart, display_grid
from pourwright.pour.layout import Layout
from pourwright.pour.stages import Stage

Array = NDArray[np.float64]
MOST = 300
KELVIN, CURE, QUIET = 0.25, 0.005, 3 * 3600.0
"""Changes of temperature [K], of cure [-] and of time [s] that each weigh as much as one step."""


@dataclass(frozen=True, slots=True, eq=False)
class Snapshot:
    """One moment.

    Parameters
    ----------
    time : float
        [s].
    filled : int
        Pours in the mold.
    temperature : array (n,)
        Of the display cells that are filled [degC], in half precision.
    conversion : array (n,)
        The same of the cure [-].
    fixed : bool
        Kept whatever is thinned out: the start and the end of a filling.
    """

    time: float
    filled: int
    temperature: Half
    conversion: Half
    fixed: bool = False


@dataclass(frozen=True, eq=False)
class Recording:
    """What was recorded of a rehearsal.

    Parameters
    ----------
    grid : DisplayGrid
        Display cells of the casting's box.
    samplers : tuple of Sampler
        Which cells are filled after each pour.
    levels, starts : tuple of float
        Level reached by each pour [m] and when it went in [s].
    snapshots : tuple of Snapshot
        In order of time; a pour's start has two, before and after it.
    hottest, last : Cut
        Temperature [K] at the hottest moment of all; cure [-] at the end.
    """

    grid: DisplayGrid
    samplers: tuple[Sampler, ...]
    levels: tuple[float, ...]
    starts: tuple[float, ...]
    snapshots: tuple[Snapshot, ...]
    hottest: Cut
    last: Cut

    def box(self, snapshot: Snapshot, quantity: str) -> Half:
        """Values of a snapshot in the casting's box (nx, ny, nz); NaN where nothing is poured."""
        sampler = self.samplers[snapshot.filled - 1]
        return sampler.spread(getattr(snapshot, quantity), self.grid.shape)


@dataclass(frozen=True, slots=True, eq=False)
class _Sample:
    """Display values of one step in full precision."""

    time: float
    temperature: Array
    conversion: Array

    def kept(self, filled: int, *, fixed: bool = False) -> Snapshot:
        celsius, cure = (values.astype(np.float16) for values in (self.temperature - 273.15, self.conversion))
        return Snapshot(self.time, filled, apart(celsius), apart(cure), fixed)

    def change_to(self, other: _Sample) -> float:
        """How much happened between two samples, in steps."""
        warmer = float(np.abs(other.temperature - self.temperature).max()) / KELVIN
        harder = float(np.abs(other.conversion - self.conversion).max()) / CURE
        return warmer + harder + (other.time - self.time) / QUIET


@dataclass(frozen=True, slots=True, eq=False)
class _Hot:
    """The hottest step of one pour."""

    temperature: float
    sample: _Sample
    planes: Planes


@dataclass(eq=False)
class Recorder:
    """Looks at every step of a rehearsal and keeps those that differ from the last kept one.

    When there are too many, every second one is dropped and from then on a step must
    differ twice as much.

    Parameters
    ----------
    layout : Layout
        The run's grid.
    most : int
        Snapshots to keep at most.
    """

    layout: Layout
    most: int = MOST
    stride: float = 1.0
    kept: list[Snapshot] = field(default_factory=list)
    samplers: list[Sampler] = field(default_factory=list)
    hot: list[_Hot] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.grid = display_grid(self.layout)

    def pour(self, stage: Stage) -> None:
        """Note that a pour has just gone in."""
        if self.kept:
            self._close()
        self.stage = stage
        self.samplers.append(Sampler.of(self.grid, stage))
        state = stage.state
        self.reference = self.now = self._sample(state.time, state.temperature, state.conversion)
        self.kept.append(self.now.kept(len(self.samplers), fixed=True))
        self.hot.append(self._hot(state.temperature))

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        """Look at one step: an observer of the solver."""
        self.now = self._sample(time, temperature, conversion)
        if float(temperature.reshape(-1)[self.samplers[-1].columns].max()) > self.hot[-1].temperature:
            self.hot[-1] = self._hot(temperature)
        if self.reference.change_to(self.now) >= self.stride:
            self.reference = self.now
            self.kept.append(self.now.kept(len(self.samplers)))
            if len(self.kept) > self.most:
                self._thin()

    def recording(self, stage: Stage, hottest_pour: int, softest: tuple[int, int, int]) -> Recording:
        """Close the recording.

        Parameters
        ----------
        stage : Stage
            At the end of the last pour's watch.
        hottest_pour : int
            Which pour, counted from 0, holds the hottest moment.
        softest : tuple of int
            The cell through which the end is cut.

        Returns
        -------
        Recording
            With the hottest moment among its snapshots.
        """
        self._close()
        hot = self.hot[hottest_pour]
        moment = hot.sample.kept(hottest_pour + 1, fixed=True)
        # the hottest moment may be one that was kept anyway
        shots = {(shot.time, shot.filled): shot for shot in (*self.kept, moment)}
        cure = np.where(stage.poured, stage.state.conversion, np.nan)
        last = cut_planes(self.layout, cure, softest, stage.state.time, len(self.samplers))
        return Recording(
            self.grid,
            tuple(self.samplers),
            stage.levels,
            stage.starts,
            tuple(shots[when] for when in sorted(shots)),
            fuller(self.layout, hot.planes),
            fuller(self.layout, last),
        )

    def _sample(self, time: float, temperature: Array, conversion: Array) -> _Sample:
        read = self.samplers[-1].read
        return _Sample(time, read(temperature), read(conversion))

    def _hot(self, temperature: Array) -> _Hot:
        columns = self.samplers[-1].columns
        flat = int(columns[np.argmax(temperature.reshape(-1)[columns])])
        # cut at once: a hotter step may follow, but this field is gone by then
        cell = np.unravel_index(flat, temperature.shape)
        shown = np.where(self.stage.problem.active, temperature, np.nan)
        planes = cut_planes(self.layout, shown, cell, self.now.time, len(self.samplers))
        return _Hot(float(temperature[cell]), self.now, planes)

    def _close(self) -> None:
        """Keep the last moment of a filling."""
        last = self.kept[-1]
        if last.time == self.now.time:
            self.kept[-1] = replace(last, fixed=True)
        else:
            self.kept.append(self.now.kept(len(self.samplers), fixed=True))

    def _thin(self) -> None:
        # as if the wider step had held from the beginning
        self.stride *= 2.0
        free = [place for place, shot in enumerate(self.kept) if not shot.fixed]
        dropped = set(free[::2])
        self.kept = [shot for place, shot in enumerate(self.kept) if place not in dropped]
