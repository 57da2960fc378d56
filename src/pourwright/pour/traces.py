"""What is seen at probes and at the hottest place of a casting, step by step, thinned when it is read."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.probes import Probe, Stencil, stencil
from pourwright.pour.stages import Stage

Array = NDArray[np.float64]
MOST_POINTS = 400
EVEN = 0.4
Rows: TypeAlias = "array[float]"
"""Time [s], temperature [K] and cure [-], one step after the other."""


@dataclass(frozen=True)
class Trace:
    """What happened at one place: time [s], temperature [K], cure [-], at most some 400 points.

    Parameters
    ----------
    time, temperature, conversion : tuple of float
        From the moment it is covered on.
    """

    time: tuple[float, ...]
    temperature: tuple[float, ...]
    conversion: tuple[float, ...]

    @property
    def peak(self) -> tuple[float, float]:
        """Highest temperature [K] and its time [s], by the parabola through three points."""
        return _parabola(self.time, self.temperature)


@dataclass
class Notes:
    """Takes down each step; thinned when it is read."""

    probes: Sequence[Probe]
    rows: list[Rows] = field(default_factory=list)
    hot: Rows = field(default_factory=lambda: array("d"))
    kept: set[float] = field(default_factory=set)
    stencils: list[Stencil | None] = field(default_factory=list)
    cells: NDArray[np.int64] = field(default_factory=lambda: np.zeros(0, dtype=np.int64))

    def __post_init__(self) -> None:
        self.rows = [array("d") for _ in self.probes]

    def begin(self, stage: Stage) -> None:
        """Look at the casting as it is filled now, and note where it stands."""
        poured, grid = stage.poured, stage.layout.grid
        self.cells = np.flatnonzero(poured)
        self.stencils = [
            stencil(grid, poured, probe.place) if probe.place[2] <= stage.level + 1e-9 else None
            for probe in self.probes
        ]
        self.kept.add(stage.state.time)
        self(stage.state.time, stage.state.temperature, stage.state.conversion)

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        """Note one step; the solver's observer."""
        heat, cure = temperature.reshape(-1), conversion.reshape(-1)
        place = self.cells[int(np.argmax(heat[self.cells]))]
        self.hot.extend((time, float(heat[place]), float(cure[place])))
        for rows, at in zip(self.rows, self.stencils, strict=True):
            if at is not None:
                rows.extend((time, at.of(temperature), min(max(at.of(conversion), 0.0), 1.0)))

    def trace(self, rows: Rows) -> Trace:
        """Thin the rows, keeping ends, starts of pours and the highest with its neighbours."""
        table = np.array(rows).reshape(-1, 3)
        count = table.shape[0]
        if not count:
            return Trace((), (), ())
        top = int(np.argmax(table[:, 1]))
        stride = max(1, -(-count // MOST_POINTS))
        wanted = {*range(0, count, stride), top - 1, top, top + 1, count - 1}
        wanted.update(np.flatnonzero(np.isin(table[:, 0], sorted(self.kept))).tolist())
        chosen = table[[n for n in sorted(wanted) if 0 <= n < count]]
        time, heat, cure = (tuple(column.tolist()) for column in chosen.T)
        return Trace(time, heat, cure)


def _parabola(times: tuple[float, ...], values: tuple[float, ...]) -> tuple[float, float]:
    top = max(range(len(values)), key=values.__getitem__)
    if not 0 < top < len(values) - 1:
        return values[top], times[top]
    back, ahead = times[top] - times[top - 1], times[top + 1] - times[top]
    # steps of very different length stand at a corner of the surroundings or at a pour
    if min(back, ahead) < EVEN * max(back, ahead):
        return values[top], times[top]
    down, up = (values[top] - values[top - 1]) / back, (values[top + 1] - values[top]) / ahead
    bend = (up - down) / (back + ahead)
    if bend >= 0.0:
        return values[top], times[top]
    slope = down + bend * back
    shift = min(max(-slope / (2 * bend), -back / 2), ahead / 2)
    return values[top] + slope * shift + bend * shift**2, times[top] + shift
