"""When each place gelled and turned to glass, how warm it was then, and how far core and skin lay apart."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.layout import Layout
from pourwright.pour.marks import Marks
from pourwright.pour.stages import Stage

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
NEVER = float("inf")
MOSTLY = 0.5
"""Share of the skin that must have gelled, or be glass, for the skin to count as that."""


class Apart(NamedTuple):
    """Core and skin of the last pour at one step; time [s], temperatures [K].

    ``hottest`` is that of all that is poured; ``gelled`` and ``glassy`` are the shares of the skin that
    have gelled, and of them those that are glass [-].
    """

    time: float
    pour: int
    core: float
    skin: float
    gelled: float
    glassy: float
    hottest: float


@dataclass(frozen=True, eq=False)
class Hardened:
    """What was noted of every cell of the cavity (n,); temperatures [K], cure [-].

    Parameters
    ----------
    cells : array of int
        Flat index on the grid.
    poured_at : array
        Temperature as it was poured, mixed with its glass.
    gelled_at : array
        Temperature as it gelled.
    hottest : array
        Hottest since, while it was soft.
    glass_at, glass_cure : array
        Temperature and cure as it last turned to glass; those of the end where it is soft still.
    cure : array
        At the end.
    skin : array of bool
        Cells at the mold's face.
    rows : tuple of Apart
        Step by step.
    """

    cells: NDArray[np.intp]
    poured_at: Array
    gelled_at: Array
    hottest: Array
    glass_at: Array
    glass_cure: Array
    cure: Array
    skin: Mask
    rows: tuple[Apart, ...]

    def apart(self, pour: int, *, glassy: bool) -> float:
        """Most that the core of a pour, counted from 1, was above its skin while glass, or soft [K]."""
        rows = [row for row in self.rows if row.pour == pour and row.gelled >= MOSTLY]
        return max([0.0, *(row.core - row.skin for row in rows if (row.glassy >= MOSTLY) is glassy)])

    def cool_since(self, limit: float) -> float:
        """From when on nothing was warmer than a limit [K] any more [s]; infinite where not yet."""
        return cool_since([(row.time, row.hottest) for row in self.rows], limit)


def cool_since(rows: list[tuple[float, float]], limit: float) -> float:
    """Find when a temperature last came down to a limit.

    Parameters
    ----------
    rows : list of (time, temperature)
        [s], [K], in order.
    limit : float
        [K]

    Returns
    -------
    float
        [s], on a straight line between rows; the first row where it never was warmer, infinite where it
        ends warmer.

    Examples
    --------
    >>> cool_since([(0.0, 300.0), (10.0, 320.0), (20.0, 300.0)], 310.0)
    15.0
    """
    above = [number for number, (_, value) in enumerate(rows) if value > limit]
    if not above:
        return rows[0][0]
    last = above[-1]
    if last == len(rows) - 1:
        return NEVER
    (before, more), (after, less) = rows[last], rows[last + 1]
    return before + (after - before) * (more - limit) / (more - less)


@dataclass(eq=False)
class HardeningDiary:
    """Looks at every step of a rehearsal: an observer of the solver."""

    layout: Layout
    rows: list[Apart] = field(default_factory=list)
    pour_number: int = 0

    def __post_init__(self) -> None:
        inside = self.layout.inside
        self.marks = Marks.of(self.layout.site.resin)
        self.cells = np.flatnonzero(inside)
        self.skin = _at_the_mold(inside)
        self.gelled, self.soft = np.zeros((2, self.cells.size), dtype=bool)
        names = ("poured_at", "gelled_at", "hottest", "glass_at", "glass_cure")
        self.noted = {name: np.full(self.cells.size, np.nan) for name in names}

    def pour(self, stage: Stage) -> None:
        """Note that a pour has just gone in."""
        self.pour_number += 1
        now = stage.of_pour(self.pour_number - 1).reshape(-1)[self.cells]
        self.now, self.filled = now, stage.poured.reshape(-1)[self.cells]
        # a thin pour may have no cell that touches the mold's side
        self.face = now & self.skin if (now & self.skin).any() else now
        temperature = stage.state.temperature.reshape(-1)[self.cells]
        self.noted["poured_at"][now] = temperature[now]

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        """Look at one step."""
        warm, cure = temperature.reshape(-1)[self.cells], conversion.reshape(-1)[self.cells]
        gelled = self.filled & (cure >= self.marks.gel_conversion)
        soft = gelled & (warm >= self.marks.glass_transition(np.where(gelled, cure, 0.0)))
        fresh = gelled & ~self.gelled
        self._note("gelled_at", fresh, warm)
        self._note("hottest", fresh | (soft & (warm > self.noted["hottest"])), warm)
        turned = gelled & ~soft & (self.soft | fresh)
        self._note("glass_at", turned, warm)
        self._note("glass_cure", turned, cure)
        self.gelled, self.soft = gelled, soft
        self._row(time, warm)

    def hardened(self, stage: Stage) -> Hardened:
        """Close the diary at the end of the last watch."""
        warm = stage.state.temperature.reshape(-1)[self.cells]
        cure = stage.state.conversion.reshape(-1)[self.cells]
        # what is soft still, or liquid, turns to glass later: as it is now is the best that is known
        self._note("glass_at", self.soft | ~self.gelled, warm)
        self._note("glass_cure", self.soft | ~self.gelled, cure)
        for name in ("gelled_at", "hottest"):
            self._note(name, ~self.gelled, warm)
        return Hardened(self.cells, **self.noted, cure=cure, skin=self.skin, rows=tuple(self.rows))

    def _note(self, name: str, where: Mask, values: Array) -> None:
        np.copyto(self.noted[name], values, where=where)

    def _row(self, time: float, warm: Array) -> None:
        gelled, glassy = self.gelled[self.face], self.gelled[self.face] & ~self.soft[self.face]
        core, skin = float(warm[self.now].max()), float(warm[self.face].mean())
        hottest = float(warm[self.filled].max())
        shares = float(gelled.mean()), float(glassy.mean())
        self.rows.append(Apart(time, self.pour_number, core, skin, *shares, hottest))


def _at_the_mold(inside: Mask) -> Mask:
    """Which cells of the cavity touch the mold beside or below them (n,)."""
    near = np.zeros_like(inside)
    for axis in range(3):
        cells, out = np.moveaxis(inside, axis, 0), np.moveaxis(near, axis, 0)
        out[1:] |= ~cells[:-1]
        if axis < 2:
            out[:-1] |= ~cells[1:]
    return near[inside]
