"""The top of a pour as the next pour meets it: a thin skin of the same depth on every grid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.layout import SKIN
from pourwright.pour.stages import Stage

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Skin:
    """Layers of cells down to a few millimetres under a pour's surface, column by column.

    A fine grid has several layers there and a coarse one a single layer; the mean of a column reads
    the same place on both.

    Parameters
    ----------
    layers : slice
        Along z.
    columns : array of bool (nx, ny)
        Columns whose uppermost cell lies in the cavity.
    cells : array of int (columns, layers)
        Flat index of the cells of each column; one that lies outside the cavity is the column's uppermost.
    shares : array (columns, layers)
        Weight of each cell in the mean of its column [-].
    areas : array (columns,)
        Of the surface [m2].
    """

    layers: slice
    columns: NDArray[np.bool_]
    cells: NDArray[np.int64]
    shares: Array
    areas: Array

    @classmethod
    def of(cls, stage: Stage) -> Skin:
        """Take the skin of the last pour of a stage."""
        layout = stage.layout
        lower = stage.levels[-2] if len(stage.levels) > 1 else 0.0
        under = layout.layers(max(lower, stage.level - SKIN), stage.level)
        # a layer thicker than the skin is the skin
        layers = slice(min(under.start, under.stop - 1), under.stop)
        inside, cavity = layout.inside[:, :, layers], layout.cavity[:, :, layers]
        columns = inside[:, :, -1]
        dx, dy, dz = layout.grid.spacings
        there = np.where(inside, dz[layers], 0.0)[columns]
        areas = (cavity[:, :, -1] * dx[:, None] * dy[None, :])[columns]
        places = np.arange(layout.inside.size).reshape(layout.inside.shape)[:, :, layers][columns]
        # what counts for nothing must be a number all the same
        cells = np.where(there > 0.0, places, places[:, -1:])
        return cls(layers, columns, cells, there / there.sum(axis=1, keepdims=True), areas)

    def mean(self, values: Array) -> Array:
        """Mean of each column (columns,) of values on the grid; NaN where a cell of it has none."""
        means: Array = (values.reshape(-1)[self.cells] * self.shares).sum(axis=1)
        return means
