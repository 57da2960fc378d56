"""Values at places between the cells' middles, from cells of the casting alone."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Grid

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Place = tuple[float, float, float]
Cell = tuple[int, int, int]
REACH = 2
TIE = 1e-5


@dataclass(frozen=True)
class Probe:
    """A place whose temperature and cure are noted.

    Parameters
    ----------
    name : str
        For the answer.
    place : tuple of float
        In the pour frame [m].
    """

    name: str
    place: Place


class Stencil(NamedTuple):
    """Cells by flat index, and what each counts for; the weights add up to 1."""

    cells: NDArray[np.int64]
    weights: Array

    def of(self, values: Array) -> float:
        """Read a field at the place."""
        return float(values.reshape(-1)[self.cells] @ self.weights)


def stencil(grid: Grid, cells: Mask, place: Place) -> Stencil | None:
    """Interpolate between the middles of cells, or carry on from inside near the casting's faces.

    Parameters
    ----------
    grid : Grid
        Cells [m].
    cells : array of bool (nx, ny, nz)
        Those that may be used.
    place : tuple of float
        Where [m].

    Returns
    -------
    Stencil or None
        Trilinear where all eight cells may be used, else linear along each axis; None where no cell
        that may be used lies near.

    Examples
    --------
    >>> grid = Grid([0.0, 1.0], [0.0, 1.0], [0.0, 1.0, 2.0])
    >>> middle = stencil(grid, np.ones((1, 1, 2), dtype=bool), (0.5, 0.5, 1.25))
    >>> middle.weights.tolist()
    [0.75, 0.25]
    """
    home = _home(grid, cells, place)
    if home is None:
        return None
    # each axis finds its own partner, on the side of the place if there is casting
    pairs = [_pair(grid, cells, home, axis, place[axis]) for axis in range(3)]
    corners = list(product(*pairs))
    weight = {tuple(i for i, _ in corner): float(np.prod([w for _, w in corner])) for corner in corners}
    if not all(cells[corner] for corner in weight):
        weight = _along_axes(home, pairs)
    kept = [(cell, share) for cell, share in weight.items() if share != 0.0]
    flat = [int(np.ravel_multi_index(cell, cells.shape)) for cell, _ in kept]
    return Stencil(np.array(flat, dtype=np.int64), np.array([share for _, share in kept]))


def _home(grid: Grid, cells: Mask, place: Place) -> Cell | None:
    """The cell that holds the place, or the nearest one near it that may be used."""
    at = [
        int(np.clip(np.searchsorted(edges, value, "right") - 1, 0, edges.size - 2))
        for edges, value in zip(grid.axes, place, strict=True)
    ]
    if cells[at[0], at[1], at[2]]:
        return at[0], at[1], at[2]
    window = tuple(slice(max(0, i - REACH), i + REACH + 1) for i in at)
    near = np.argwhere(cells[window]) + [part.start for part in window]
    if not near.size:
        return None
    middles = np.stack([axis[near[:, n]] for n, axis in enumerate(grid.centers)], axis=1)
    best = near[int(np.argmin(((middles - np.array(place)) ** 2).sum(axis=1)))]
    return int(best[0]), int(best[1]), int(best[2])


def _pair(grid: Grid, cells: Mask, home: Cell, axis: int, value: float) -> list[tuple[int, float]]:
    """Indices and weights along one axis."""
    middles, edges = grid.centers[axis], grid.axes[axis]
    i = home[axis]
    # a place that no cell of casting holds is read at the face of the nearest: no guess beyond that
    value = float(np.clip(value, edges[i], edges[i + 1]))
    ahead = 1 if value >= middles[i] else -1
    for step in (ahead, -ahead):
        other = i + step
        beside = tuple(other if n == axis else j for n, j in enumerate(home))
        if 0 <= other < middles.size and cells[beside]:
            share = float((value - middles[i]) / (middles[other] - middles[i]))
            return [(i, 1.0 - share), (other, share)]
    return [(i, 1.0)]


def _along_axes(home: Cell, pairs: list[list[tuple[int, float]]]) -> dict[tuple[int, ...], float]:
    """Add the changes along the three axes, which only needs cells that share a face."""
    weight: dict[tuple[int, ...], float] = {home: 1.0}
    for axis, pair in enumerate(pairs):
        for other, share in pair[1:]:
            beside = tuple(other if n == axis else j for n, j in enumerate(home))
            weight[beside] = share
            weight[home] -= share
    return weight


def summit(grid: Grid, cells: Mask, values: Array) -> tuple[float, Place]:
    """Find the highest value of a field, refined by parabolas through the neighbours.

    Parameters
    ----------
    grid : Grid
        Cells [m].
    cells : array of bool (nx, ny, nz)
        Where to look.
    values : array (nx, ny, nz)
        A field that is smooth inside.

    Returns
    -------
    tuple
        Value, and place [m].

    Examples
    --------
    >>> grid = Grid([0.0, 1.0], [0.0, 1.0], [0.0, 1.0, 2.0, 3.0, 4.0])
    >>> value, place = summit(grid, np.ones((1, 1, 4), dtype=bool), np.array([[[0.0, 2.0, 2.0, 0.0]]]))
    >>> value, place[2]
    (2.25, 2.0)
    """
    held = np.where(cells, values, -np.inf)
    # of places that are equal but for round-off, as in a block, the first
    found = np.unravel_index(int(np.argmax(held >= held.max() - TIE)), held.shape)
    cell = (int(found[0]), int(found[1]), int(found[2]))
    top, place = float(held[cell]), []
    for axis in range(3):
        more, at = _vertex(grid, held, cell, axis)
        top += more
        place.append(at)
    return top, (place[0], place[1], place[2])


def _vertex(grid: Grid, held: Array, cell: Cell, axis: int) -> tuple[float, float]:
    """By how much, and where, the parabola along one axis is higher than the cell's middle."""
    middles = grid.centers[axis]
    i = cell[axis]
    line = held[tuple(slice(None) if n == axis else j for n, j in enumerate(cell))]
    if not 0 < i < middles.size - 1 or not np.isfinite(line[i - 1 : i + 2]).all():
        return 0.0, float(middles[i])
    back, ahead = middles[i] - middles[i - 1], middles[i + 1] - middles[i]
    down, up = (line[i] - line[i - 1]) / back, (line[i + 1] - line[i]) / ahead
    bend = (up - down) / (back + ahead)
    if bend >= 0.0:
        return 0.0, float(middles[i])
    slope = down + bend * back
    shift = float(np.clip(-slope / (2 * bend), -back / 2, ahead / 2))
    return float(slope * shift + bend * shift**2), float(middles[i] + shift)
