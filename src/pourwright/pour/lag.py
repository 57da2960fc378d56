"""How far the core of a piece lags behind its skin when the skin cools steadily."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array, diags_array
from scipy.sparse.linalg import cg

from pourwright.pour.layout import Layout

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Pair = tuple[Index, Index, Array]
CLOSE = 1e-4


def cooling_lag(layout: Layout) -> float:
    """Difference of core and skin per rate of cooling, on the grid of the run.

    Parameters
    ----------
    layout : Layout
        The casting cut into cells.

    Returns
    -------
    float
        [K per K/s], that is [s].

    Notes
    -----
    k lap(u) = -rho c within the casting, u = 0 on its whole surface: what a steady fall of the skin's
    temperature settles to. A wide wall gives L^2/(2 a), a long round bar half, a ball a third of it.
    Rubber and box only slow the skin down.
    """
    inside = layout.inside
    number = np.full(inside.shape, -1, dtype=np.intp)
    number[inside] = np.arange(int(inside.sum()))
    diagonal = np.zeros(int(inside.sum()))
    pairs: list[Pair] = []
    for axis in range(3):
        half = _half_resistance(layout, axis)
        cells: Index = np.moveaxis(number, axis, 0)
        rest: Array = np.moveaxis(half, axis, 0)
        both = (cells[:-1] >= 0) & (cells[1:] >= 0)
        flow = 1.0 / (rest[:-1] + rest[1:])[both]
        left, right = cells[:-1][both], cells[1:][both]
        pairs.append((left, right, flow))
        np.add.at(diagonal, left, flow)
        np.add.at(diagonal, right, flow)
        _to_the_skin(cells, rest, diagonal)
    source = (layout.grid.cell_volumes * layout.bed_capacity)[inside]
    return float(_solved(diagonal, pairs, source).max())


def _half_resistance(layout: Layout, axis: int) -> Array:
    """From the middle of each cell to its face along an axis [K/W]."""
    steps = layout.grid.spacings
    shape = [1, 1, 1]
    shape[axis] = -1
    length = steps[axis].reshape(shape)
    area = layout.grid.cell_volumes / length
    return np.asarray(0.5 * length / (area * layout.fill_conductivity))


def _to_the_skin(cells: Index, rest: Array, diagonal: Array) -> None:
    out = cells < 0
    for shift in (1, -1):
        beside = np.ones_like(out)
        if shift == 1:
            beside[1:] = out[:-1]
        else:
            beside[:-1] = out[1:]
        there = beside & ~out
        np.add.at(diagonal, cells[there], 1.0 / rest[there])


def _solved(diagonal: Array, pairs: list[Pair], source: Array) -> Array:
    left, right, flow = (np.concatenate(each) for each in zip(*pairs, strict=True))
    size = diagonal.size
    rows, columns = np.concatenate([left, right]), np.concatenate([right, left])
    beside = coo_array((np.concatenate([-flow, -flow]), (rows, columns)), shape=(size, size))
    matrix = (beside.tocsr() + diags_array(diagonal)).tocsr()
    found, failed = cg(matrix, source, rtol=CLOSE, M=diags_array(1.0 / diagonal), maxiter=4000)
    assert failed == 0
    return np.asarray(found)
