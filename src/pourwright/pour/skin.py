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
    shares : array (columns, layers)
        Weight of each cell in the mean of its column [-].
    areas : array (columns,)
        Of the surface [m2].
    """

    layers: slice
    columns: NDArray[np.bool_]
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
        return cls(layers, columns, there / there.sum(axis=1, keepdims=True), areas)

    def mean(self, values: Array) -> Array:
        """Mean of each column (columns,) of values on the grid; NaN where a cell of it has none."""
        cells = values[:, :, self.layers][self.columns]
        means: Array = np.where(self.shares > 0.0, cells * self.shares, 0.0).sum(axis=1)
        return means
