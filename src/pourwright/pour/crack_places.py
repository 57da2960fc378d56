"""The places of a casting that are looked at for cracks and halos, each with what it goes through."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.sources import Sourced
from pourwright.geometry.thin.creases import inner_creases
from pourwright.pour.bearing import (
    LOADS,
    Case,
    Kind,
    Light,
    Load,
    Numbers,
    glass_strain,
    load_of,
    soft_strain,
    sourced_numbers,
)
from pourwright.pour.hardening import Hardened
from pourwright.pour.layout import SKIN, Layout
from pourwright.pour.marks import Marks

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Place = tuple[float, float, float]
TINY = 1e-30


@dataclass(frozen=True)
class Found:
    """One place and what is to be feared there.

    Parameters
    ----------
    kind : Kind
        What it is.
    pour : int
        Counted from 1.
    place : tuple of float
        [m]
    case : Case
        What it goes through.
    load : Load
        Share of what it may bear.
    light : Light
        By its load, and amber at least where it got hotter than the resin's limit.
    soft, glass : float
        Contraction by length while soft and as glass [-].
    hottest, glass_at : float
        Hottest since gel, and as it turned to glass [K].
    """

    kind: Kind
    pour: int
    place: Place
    case: Case
    load: Load
    light: Light
    soft: float
    glass: float
    hottest: float
    glass_at: float


@dataclass(frozen=True, eq=False)
class View:
    """What all places are judged from: the cells of the cavity and what was noted of them.

    Parameters
    ----------
    layout : Layout
        The grid.
    levels : tuple of float
        Level reached by each pour [m].
    seen : Hardened
        Cell by cell.
    depth : float
        Half thickness of a wall that lags as much as the piece does [m].
    """

    layout: Layout
    levels: tuple[float, ...]
    seen: Hardened
    depth: float

    @cached_property
    def sourced(self) -> Mapping[str, Sourced]:
        """Numbers that decide, with their bands."""
        return sourced_numbers(self.layout.site.resin, self.layout.site.glass)

    @cached_property
    def numbers(self) -> Numbers:
        """Their likely values."""
        return Numbers(**{name: number.value for name, number in self.sourced.items()})

    @cached_property
    def shop(self) -> float:
        """Coldest hour of the shop, down to which all contracts [K]."""
        return min(self.layout.site.climate.hourly)

    @cached_property
    def layer(self) -> NDArray[np.intp]:
        """Layer of the grid of each cell (n,)."""
        return self.seen.cells % self.layout.grid.shape[2]

    @cached_property
    def layer_solid(self) -> Array:
        """Volume of grains in each layer (nz,) [-]."""
        beds = self.layout.site.beds
        ends = np.array([bed.upper for bed in beds[:-1]])
        shares = np.array([bed.solid_fraction for bed in beds])
        return shares[np.searchsorted(ends, self.layout.grid.centers[2])]

    @cached_property
    def solid(self) -> Array:
        """Volume of grains in each cell (n,) [-]."""
        return self.layer_solid[self.layer]

    @cached_property
    def volume(self) -> Array:
        """Of the cavity in each cell (n,) [m3]; cells hardly in it are shared out over their layer."""
        held = self.layout.cavity * self.layout.grid.cell_volumes
        mine = held.reshape(-1)[self.seen.cells]
        layers = np.bincount(self.layer, weights=mine, minlength=held.shape[2])
        return np.asarray(mine * (held.sum(axis=(0, 1)) / np.maximum(layers, TINY))[self.layer])

    @cached_property
    def cases(self) -> Case:
        """What every cell goes through from gel down to the shop."""
        seen = self.seen
        gel = Marks.of(self.layout.site.resin).gel_conversion
        return Case(
            cure_soft=np.maximum(seen.glass_cure - gel, 0.0),
            cure_glass=np.maximum(seen.cure - seen.glass_cure, 0.0),
            cooling_soft=np.maximum(seen.hottest - seen.glass_at, 0.0),
            cooling_glass=np.maximum(seen.glass_at - self.shop, 0.0),
        )

    def of_pour(self, number: int) -> Mask:
        """Cells of a pour, counted from 1 (n,)."""
        lower = self.levels[number - 2] if number > 1 else 0.0
        layers = self.layout.layers(lower, self.levels[number - 1])
        return np.asarray((self.layer >= layers.start) & (self.layer < layers.stop))

    def between(self, lower: float, upper: float) -> Mask:
        """Cells of the layers between two heights (n,)."""
        layers = self.layout.layers(lower, upper)
        return np.asarray((self.layer >= layers.start) & (self.layer < layers.stop))

    def pour_at(self, height: float) -> int:
        """Which pour holds a height, counted from 1."""
        return min(int(np.searchsorted(self.levels, height - 1e-9)), len(self.levels) - 1) + 1

    def apart(self, number: int) -> dict[str, float]:
        """Core above skin of a pour, counted from 1, as a case has it."""
        soft, glass = (self.seen.apart(number, glassy=glassy) for glassy in (False, True))
        return {"apart_soft": soft, "apart_glass": glass}

    def place(self, cell: int) -> Place:
        """Centre of a cell [m]."""
        x, y, z = np.unravel_index(int(self.seen.cells[cell]), self.layout.grid.shape)
        return self.layout.place((int(x), int(y), int(z)))


def places(view: View) -> Iterator[Found]:
    """Look at every place, pour by pour, then at borders and inner corners.

    Parameters
    ----------
    view : View
        The casting.

    Yields
    ------
    Found
        Where there is such a place.
    """
    for number in range(1, len(view.levels) + 1):
        yield from _inside(view, number)
        yield _skin(view, number)
    yield from _top(view)
    yield from _borders(view)
    yield from _corner(view)


def _inside(view: View, number: int) -> Iterator[Found]:
    """Core of the neat resin of a pour, and its worst place among grains."""
    cells = view.of_pour(number)
    under = view.between(0.0, view.levels[number - 1] - SKIN)
    neat, bed = cells & (view.solid == 0.0), cells & (view.solid > 0.0)
    core = neat & under & ~view.seen.skin
    # a thin neat cover is no core: it counts as top
    if core.any() and view.volume[neat].sum() > 0.2 * view.volume[cells].sum():
        yield _worst(view, Kind.CORE, number, core)
    if bed.any():
        yield _worst(view, Kind.GRAIN, number, bed)


def _top(view: View) -> Iterator[Found]:
    last = len(view.levels)
    under = view.layout.layers(view.levels[-1] - SKIN, view.levels[-1])
    # a layer thicker than the skin is the skin
    top = view.of_pour(last) & (view.layer >= min(under.start, under.stop - 1))
    neat = top & (view.solid == 0.0)
    if neat.any():
        yield _worst(view, Kind.TOP, last, neat)


def _worst(view: View, kind: Kind, number: int, cells: Mask, **more: float) -> Found:
    """Judge the cell with the highest load of some."""
    chosen = np.flatnonzero(cells)
    many = Case(**{**_at(view.cases, chosen), "solid_fraction": float(view.solid[chosen[0]]), **more})  # type: ignore[arg-type]
    cell = int(chosen[np.argmax(LOADS[kind](many, view.numbers))])
    case = Case(**{**_at(view.cases, cell), "solid_fraction": float(view.solid[cell]), **more})  # type: ignore[arg-type]
    return _found(view, kind, number, view.place(cell), case, cell)


def _at(case: Case, index: int | NDArray[np.intp]) -> dict[str, object]:
    names = ("cure_soft", "cure_glass", "cooling_soft", "cooling_glass")
    picked = {name: getattr(case, name)[index] for name in names}
    return {name: float(value) if np.ndim(value) == 0 else value for name, value in picked.items()}


def _found(view: View, kind: Kind, number: int, place: Place, case: Case, cell: int | None) -> Found:
    load = load_of(kind, case, view.sourced)
    # skins and corners are judged by a difference of temperature, not by a cell's own history
    hottest = float("nan") if cell is None else float(view.seen.hottest[cell])
    glass_at = float("nan") if cell is None else float(view.seen.glass_at[cell])
    light = load.light
    if hottest > view.layout.site.resin.peak_limit.value and light is Light.GREEN:
        light = Light.AMBER
    return Found(
        kind, number, place, case, load, light,
        float(soft_strain(case, view.numbers)), float(glass_strain(case, view.numbers)), hottest, glass_at,
    )  # fmt: skip


def _skin(view: View, number: int) -> Found:
    """The mold's face of a pour, at the level of its hottest place."""
    cells = view.of_pour(number)
    face = cells & view.seen.skin
    face = face if face.any() else cells
    heights = view.layout.grid.centers[2][view.layer]
    middle = heights[np.flatnonzero(cells)[np.argmax(view.seen.hottest[cells])]]
    cell = int(np.flatnonzero(face)[np.argmin(np.abs(heights[face] - middle))])
    case = Case(**view.apart(number), solid_fraction=_mean_solid(view, cells))
    return _found(view, Kind.SKIN, number, view.place(cell), case, None)


def _mean_solid(view: View, cells: Mask) -> float:
    return float((view.solid * view.volume)[cells].sum() / view.volume[cells].sum())


def _borders(view: View) -> Iterator[Found]:
    """Where neat resin lies on a bed or under one: the neat side is the one that is stretched."""
    beds = view.layout.site.beds
    for below, above in pairwise(beds):
        if (below.solid_fraction == 0.0) == (above.solid_fraction == 0.0):
            continue
        neat, bed = (below, above) if below.solid_fraction == 0.0 else (above, below)
        near = _beside(view, below.upper, upward=neat is above)
        if near.any():
            number = view.pour_at(float(view.layout.grid.centers[2][view.layer[near]][0]))
            found = _worst(
                view, Kind.BORDER, number, near,
                solid_fraction=bed.solid_fraction,
                neat=neat.upper - neat.lower, filled=bed.upper - bed.lower,
            )  # fmt: skip
            yield replace(found, place=(*found.place[:2], below.upper))


def _beside(view: View, height: float, *, upward: bool) -> Mask:
    """Cells of the one layer above or below a border."""
    layer = view.layout.layers(0.0, height).stop - (0 if upward else 1)
    return np.asarray(view.layer == layer)


def _corner(view: View) -> Iterator[Found]:
    """The inner corner whose pour has the coldest skin against its core."""
    creases = inner_creases(view.layout.site.piece)
    numbers = [view.pour_at(float(height)) for height in creases.middles[:, 2]]
    if not numbers:
        return
    apart = {number: view.apart(number) for number in set(numbers)}
    worst = max(range(len(numbers)), key=lambda edge: sum(apart[numbers[edge]].values()))
    cells = view.of_pour(numbers[worst])
    case = Case(**apart[numbers[worst]], solid_fraction=_mean_solid(view, cells), depth=view.depth)
    x, y, z = (float(value) for value in creases.middles[worst])
    yield _found(view, Kind.CORNER, numbers[worst], (x, y, z), case, None)
