"""Display resolution: cells of a run put together to cells that a page can show."""

from __future__ import annotations

from dataclasses import dataclass
from math import prod
from mmap import mmap
from typing import Any, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.layout import Layout
from pourwright.pour.stages import Stage

Array = NDArray[np.float64]
Half = NDArray[np.float16]
Integers = NDArray[np.intp]
Kept = TypeVar("Kept", bound=NDArray[Any])
ACROSS = 64
CELLS = 40_000
ABOUT = 1.25


@dataclass(frozen=True, eq=False)
class DisplayGrid:
    """The box around the casting in cells of a run, or in several of them put together.

    Parameters
    ----------
    edges : tuple of array
        Along x, y and z [m].
    groups : tuple of array
        For each cell of the run along x, y and z the display cell it is in; -1 outside the box.
    """

    edges: tuple[Array, Array, Array]
    groups: tuple[Integers, Integers, Integers]

    @property
    def shape(self) -> tuple[int, int, int]:
        """Number of cells along x, y and z."""
        x, y, z = (edges.size - 1 for edges in self.edges)
        return x, y, z


def display_grid(layout: Layout, across: int = ACROSS, cells: int = CELLS) -> DisplayGrid:
    """Choose the display cells of a casting; none is finer than the run's.

    Parameters
    ----------
    layout : Layout
        The run's grid.
    across : int
        About as many cells on the longest side, at most.
    cells : int
        About as many in the casting, at most.

    Returns
    -------
    DisplayGrid
        Around the cells that count as casting.
    """
    spans = [_span(np.asarray(layout.inside.any(axis=others))) for others in ((1, 2), (0, 2), (0, 1))]
    axes = layout.grid.axes
    least = 0.0
    count = max(stop - start for start, stop in spans)
    if count > ABOUT * across or layout.inside.sum() > ABOUT * cells:
        sides = [float(edges[stop] - edges[start]) for edges, (start, stop) in zip(axes, spans, strict=True)]
        volume = float(layout.grid.cell_volumes[layout.inside].sum())
        least = max(max(sides) / across, (volume / cells) ** (1 / 3))
    made = [grouped(edges, span, least) for edges, span in zip(axes, spans, strict=True)]
    (x, gx), (y, gy), (z, gz) = made
    return DisplayGrid((x, y, z), (gx, gy, gz))


def _span(used: NDArray[np.bool_]) -> tuple[int, int]:
    places = np.flatnonzero(used)
    return int(places[0]), int(places[-1]) + 1


def grouped(edges: Array, span: tuple[int, int], least: float) -> tuple[Array, Integers]:
    """Put neighbouring cells of one axis together until each is about ``least`` wide.

    Parameters
    ----------
    edges : array (n + 1,)
        Of the run [m].
    span : tuple of int
        First cell and the one after the last.
    least : float
        Wanted width [m]; a new cell ends where it comes nearest to it.

    Returns
    -------
    tuple of array
        New edges [m]; the new cell of each old one, -1 outside the span.

    Examples
    --------
    >>> grouped(np.array([0.0, 1.0, 2.0, 3.0, 4.0, 7.0]), (1, 5), 2.0)
    (array([1., 3., 4., 7.]), array([-1,  0,  0,  1,  2]))
    """
    start, stop = span
    kept, groups = [float(edges[start])], np.full(edges.size - 1, -1, dtype=np.intp)
    for cell in range(start, stop):
        missing, over = kept[-1] + least - edges[cell], edges[cell + 1] - kept[-1] - least
        if cell > start and over > missing:
            kept.append(float(edges[cell]))
        groups[cell] = len(kept) - 1
    return np.array([*kept, float(edges[stop])]), groups


@dataclass(frozen=True, eq=False)
class Sampler:
    """Reads display values off a run's field: means over the casting in each display cell.

    Parameters
    ----------
    cells : array (n,)
        Display cells that hold casting, as positions in the flat box.
    columns : array (m,)
        Cells of the run, as positions in its flat field, ordered by display cell.
    shares : array (m,)
        Weight of each in its display cell [-].
    starts : array (n,)
        Where each display cell's columns begin.
    """

    cells: Integers
    columns: Integers
    shares: Array
    starts: Integers

    @classmethod
    def of(cls, grid: DisplayGrid, stage: Stage) -> Sampler:
        """Make the sampler of what is poured."""
        poured = np.flatnonzero(stage.poured)
        places = np.unravel_index(poured, stage.layout.cavity.shape)
        row = np.ravel_multi_index(
            tuple(group[place] for group, place in zip(grid.groups, places, strict=True)), grid.shape
        )
        # cells of one display cell side by side, so that one pass adds them up
        order = np.argsort(row, kind="stable")
        cells, starts = np.unique(row[order], return_index=True)
        columns = poured[order]
        amounts = (stage.layout.cavity * stage.layout.grid.cell_volumes).reshape(-1)[columns]
        counts = np.diff([*starts, columns.size])
        shares = amounts / np.repeat(np.add.reduceat(amounts, starts), counts)
        return cls(apart(cells), apart(columns), apart(shares), apart(starts))

    def read(self, field: Array) -> Array:
        """Read the display values (n,) off a field (nx, ny, nz)."""
        values = field.reshape(-1)[self.columns]
        # every display cell is one cell of the run: nothing to average
        if self.columns.size == self.cells.size:
            return values
        means: Array = np.add.reduceat(values * self.shares, self.starts)
        return means

    def spread(self, values: Half, shape: tuple[int, int, int]) -> Half:
        """Lay display values into the box; NaN where there is no casting."""
        box = np.full(prod(shape), np.nan, dtype=np.float16)
        box[self.cells] = values
        return box.reshape(shape)


def apart(array: Kept) -> Kept:
    """Copy an array into memory of its own.

    What outlives a run must not lie among the run's large arrays, or the system gets back
    hardly anything of them when they go.

    Parameters
    ----------
    array : array
        Any.

    Returns
    -------
    array
        The same; its memory goes back to the system when it does.
    """
    memory = mmap(-1, max(array.nbytes, 1))
    copy = np.ndarray(array.shape, array.dtype, memory)
    copy[...] = array
    return cast("Kept", copy)
