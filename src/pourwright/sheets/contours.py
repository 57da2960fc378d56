"""Bands and lines of equal value of a field given in cells."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from contourpy import ContourGenerator, FillType, LineType, contour_generator
from numpy.typing import NDArray

from pourwright.sheets.axes import nice_step

Array = NDArray[np.float64]
LARGE = 1e9


@dataclass(frozen=True)
class Scale:
    """Steps of a scale at round values.

    Parameters
    ----------
    first, step : float
        Lowest edge, and how far the next one is, in the unit that is shown.
    count : int
        Number of bands.
    """

    first: float
    step: float
    count: int

    @property
    def edges(self) -> list[float]:
        """Edges of the bands, ascending."""
        return [round(self.first + number * self.step, 9) for number in range(self.count + 1)]

    @property
    def digits(self) -> int:
        """Places after the point that an edge needs."""
        return max(0, -int(np.floor(np.log10(self.step) + 1e-9)))


def scale_of(values: Array, least: float, most: int = 9) -> Scale:
    """Choose the scale of a field.

    Parameters
    ----------
    values : array
        NaN where there is none.
    least : float
        Smallest step worth showing.
    most : int
        Bands at most, but for the ends.

    Returns
    -------
    Scale
        From the round value below the lowest to the one above the highest.

    Examples
    --------
    >>> scale_of(np.array([21.0, 55.0]), 0.5).edges
    [20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0]
    """
    low, high = float(np.nanmin(values)), float(np.nanmax(values))
    # noise of a field that is nearly even must not be spread over all colours
    step = max(least, nice_step(max(high - low, least), most))
    # an end that lies on an edge but for round-off gets no band of its own
    first = np.floor(low / step + 1e-6)
    last = max(np.ceil(high / step - 1e-6), first + 1)
    return Scale(float(first * step), step, int(last - first))


class Field:
    """A field between whose cells values lie on straight lines.

    Parameters
    ----------
    across, up : array (n + 1,), (m + 1,)
        Edges of the cells.
    values : array (m, n)
        Rows from below; NaN where there is none: there the nearest known values go on.
    """

    def __init__(self, across: Array, up: Array, values: Array) -> None:
        # values stand in the middles of cells; the edges are added, or a rim half a cell wide stays blank
        x, y = (np.concatenate([e[:1], (e[1:] + e[:-1]) / 2.0, e[-1:]]) for e in (across, up))
        filled = _edged(spread_out(values), np.diff(up), np.diff(across))
        self._lines: ContourGenerator = contour_generator(x, y, filled, line_type=LineType.Separate)
        self._bands: ContourGenerator = contour_generator(x, y, filled, fill_type=FillType.OuterOffset)

    def lines(self, value: float) -> list[Array]:
        """Lines (k, 2) along which the field has a value."""
        return [np.asarray(line, dtype=float) for line in self._lines.lines(value)]

    def band(self, low: float, high: float) -> list[Array]:
        """Closed outlines (k, 2) of where the field lies between two values; holes are outlines too."""
        points, offsets = self._bands.filled(low, high)[:2]
        closed: list[Array] = []
        for outer, ends in zip(points, offsets, strict=True):
            if outer is not None and ends is not None:
                closed += np.split(np.asarray(outer, dtype=float), ends[1:-1].astype(int))
        return closed


def _edged(values: Array, *sizes: Array) -> Array:
    """Add the values at the outer edges, on the straight line through the two cells next to each."""
    for axis, size in enumerate(sizes):
        cells = np.moveaxis(values, axis, 0)
        first, last = _beyond(cells, size), _beyond(cells[::-1], size[::-1])
        values = np.moveaxis(np.concatenate([first[None], cells, last[None]]), 0, axis)
    return values


def _beyond(cells: Array, size: Array) -> Array:
    if len(cells) < 2:
        return np.asarray(cells[0])
    return np.asarray(cells[0] + (cells[0] - cells[1]) * size[0] / (size[0] + size[1]))


def spread_out(values: Array) -> Array:
    """Fill cells without a value from their neighbours, ring by ring.

    Parameters
    ----------
    values : array (m, n)
        At least one is known.

    Returns
    -------
    array (m, n)
        Known values stay. The first ring goes on straight from the two known cells next to it, so that
        lines of equal value keep their direction; farther out it is the mean of those beside it.

    Examples
    --------
    >>> spread_out(np.array([[1.0, np.nan, np.nan, np.nan, 4.0, 5.0]])).tolist()
    [[1.0, 1.0, 2.0, 3.0, 4.0, 5.0]]
    """
    filled = np.array(values, dtype=float)
    straight = True
    while np.isnan(filled).any():
        wide = np.pad(filled, 2, constant_values=np.nan)
        nears, fars = (_shifted(wide, far) for far in (1, 2))
        # 2 a - b: straight on through the two next cells
        going = np.where(np.isnan(fars) | (not straight), nears, 2.0 * nears - fars)
        count = np.isfinite(going).sum(axis=0)
        reached = np.isnan(filled) & (count > 0)
        if not reached.any():
            raise ValueError("the field has no value at all")
        filled[reached] = np.nansum(going, axis=0)[reached] / count[reached]
        straight = False
    return filled


def _shifted(wide: Array, far: int) -> Array:
    """Stack the fields seen one or two cells to each of the four sides; ``wide`` has a rim of two."""
    middle = slice(2, -2)
    low, high = slice(2 - far, -2 - far), slice(2 + far, wide.shape[0] - 2 + far)
    left, right = slice(2 - far, -2 - far), slice(2 + far, wide.shape[1] - 2 + far)
    return np.stack([wide[low, middle], wide[high, middle], wide[middle, left], wide[middle, right]])
