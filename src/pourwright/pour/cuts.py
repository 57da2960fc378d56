"""Upright cuts through a run's fields, for pictures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.display import grouped
from pourwright.pour.layout import Layout

Array = NDArray[np.float64]
ACROSS = 100
NORMALS = ("x", "y")


@dataclass(frozen=True, eq=False)
class Cut:
    """A field in an upright plane.

    Parameters
    ----------
    axis : str
        The plane's normal: ``x`` or ``y``.
    offset : float
        Where the plane lies [m].
    across, up : array
        Edges of the cells along the plane and upwards [m].
    values : array (up, across)
        Cell values; NaN where the field has none.
    time : float
        [s].
    filled : int
        Pours in the mold.
    place : tuple of float
        The place the cut was made for [m].
    """

    axis: str
    offset: float
    across: Array
    up: Array
    values: Array
    time: float
    filled: int
    place: tuple[float, float, float]


Planes = tuple[Cut, ...]


def cut_planes(
    layout: Layout, values: Array, cell: Sequence[np.intp | int], time: float, filled: int
) -> Planes:
    """Cut a field by both upright planes through a cell.

    Parameters
    ----------
    layout : Layout
        The grid.
    values : array (nx, ny, nz)
        NaN where the field has no value.
    cell : sequence of int
        Index of the cell.
    time : float
        [s].
    filled : int
        Pours in the mold.

    Returns
    -------
    tuple of Cut
        With the normals x and y.
    """
    place = layout.place((int(cell[0]), int(cell[1]), int(cell[2])))
    cuts = []
    for normal, name in enumerate(NORMALS):
        plane = np.take(values, int(cell[normal]), axis=normal).T
        edges = layout.grid.axes[1 - normal], layout.grid.axes[2]
        cuts.append(Cut(name, place[normal], *edges, plane, time, filled, place))
    return tuple(cuts)


def fuller(layout: Layout, cuts: Planes) -> Cut:
    """Choose the cut with more of the piece in it, in cells that a picture can show.

    Parameters
    ----------
    layout : Layout
        The grid.
    cuts : tuple of Cut
        Normals x and y; the last wins where both show as much.

    Returns
    -------
    Cut
        At most about 100 cells a side.
    """
    return _shown(max(reversed(cuts), key=lambda cut: round(_area(layout, cut), 6)))


def easiest_to_show(
    layout: Layout, cells: NDArray[np.bool_], values: Array, slack: float
) -> tuple[int, int, int]:
    """Find the lowest place; of those as low within ``slack``, the one whose cut shows most of the piece.

    Parameters
    ----------
    layout : Layout
        The grid.
    cells : array of bool
        Where to look.
    values : array (nx, ny, nz)
        The field.
    slack : float
        How much higher a place may be and still count as the lowest.

    Returns
    -------
    tuple of int
        Index of the cell: in a round piece the lowest places form a ring, and a cut through its middle is
        the one to look at. Of equals the one farthest to the right.
    """
    # round-off decides between equal places; within the slack the picture may
    low = np.where(cells, values, np.inf)
    found = np.argwhere(low <= low.min() + slack)
    areas = [_areas(layout, normal) for normal in (0, 1)]
    shown = [round(float(max(areas[0][x], areas[1][y])), 6) for x, y, _ in found]
    x, y, z = found[len(shown) - 1 - int(np.argmax(shown[::-1]))]
    return int(x), int(y), int(z)


def _area(layout: Layout, cut: Cut) -> float:
    normal = NORMALS.index(cut.axis)
    layer = int(np.searchsorted(layout.grid.axes[normal], cut.offset)) - 1
    return float(_areas(layout, normal)[layer])


def _areas(layout: Layout, normal: int) -> Array:
    """Area of the piece in each layer of cells [m2]."""
    volumes = (layout.cavity * layout.grid.cell_volumes).sum(axis=(1 - normal, 2))
    areas: Array = volumes / layout.grid.spacings[normal]
    return areas


def _shown(cut: Cut) -> Cut:
    least = max(float(edges[-1] - edges[0]) for edges in (cut.across, cut.up)) / ACROSS
    across, columns = grouped(cut.across, (0, cut.across.size - 1), least)
    up, rows = grouped(cut.up, (0, cut.up.size - 1), least)
    sizes = np.diff(cut.up)[:, None] * np.diff(cut.across)[None, :]
    # weighed by area, so that cells without a value take no part
    known = np.where(np.isnan(cut.values), 0.0, sizes)
    total, weight = (_summed(amount, rows, columns) for amount in (np.nan_to_num(cut.values) * known, known))
    values = np.full(weight.shape, np.nan)
    np.divide(total, weight, out=values, where=weight > 0.0)
    return Cut(cut.axis, cut.offset, across, up, values, cut.time, cut.filled, cut.place)


def _summed(amounts: Array, rows: NDArray[np.intp], columns: NDArray[np.intp]) -> Array:
    starts = [np.flatnonzero(np.diff(groups, prepend=-1)) for groups in (rows, columns)]
    summed: Array = np.add.reduceat(np.add.reduceat(amounts, starts[0], axis=0), starts[1], axis=1)
    return summed
