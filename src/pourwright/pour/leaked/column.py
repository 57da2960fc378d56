"""How much liquid one pour holds up to a level, and the level for a volume."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import PchipInterpolator

Array = NDArray[np.float64]
STEPS = 800
"""Even steps of a column, besides the borders of its beds."""
NEAT = 0.999
"""Voids from which on there is no glass."""


@dataclass(frozen=True, slots=True)
class Bed:
    """Part of a column with one kind of fill.

    Parameters
    ----------
    lower, upper : float
        From the mold's floor [m].
    void : float
        Share of it that liquid can take [-]; 1 without glass.
    doubt : float
        Standard deviation of that [-].
    """

    lower: float
    upper: float
    void: float = 1.0
    doubt: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Column:
    """The room above the ground of a pour.

    Make it with `column`.

    Parameters
    ----------
    heights : array (n,)
        Rising, the ground first [m].
    held : array (beds, n)
        Cavity of each bed below each height [m3].
    voids, doubts : array (beds,)
        Share that liquid can take, and its standard deviation [-].
    """

    heights: Array
    held: Array
    voids: Array
    doubts: Array

    @property
    def ground(self) -> float:
        """Where this pour begins [m]."""
        return float(self.heights[0])

    @property
    def top(self) -> float:
        """Up to where it may reach [m]."""
        return float(self.heights[-1])

    @property
    def glass(self) -> NDArray[np.bool_]:
        """Which beds hold glass."""
        return self.voids < NEAT

    def volumes(self, voids: Array | None = None) -> Array:
        """Liquid below each of the heights [m3]."""
        taken: Array = (self.voids if voids is None else voids) @ self.held
        return taken

    def liquid(self, height: ArrayLike, voids: Array | None = None) -> Array:
        """Liquid below a height [m3]."""
        return np.asarray(np.interp(np.asarray(height, dtype=float), self.heights, self.volumes(voids)))

    def level(self, volume: ArrayLike, voids: Array | None = None) -> Array:
        """Height that a volume of liquid reaches [m]; the top where it is more than fits."""
        return np.asarray(np.interp(np.asarray(volume, dtype=float), self.volumes(voids), self.heights))


def column(
    heights: Sequence[float], volumes: Sequence[float], beds: Sequence[Bed], ground: float, top: float
) -> Column:
    """Build the column of a pour.

    Parameters
    ----------
    heights, volumes : sequence of float
        Cavity below each height, both rising [m], [m3]; between them a smooth curve that never falls.
    beds : sequence of Bed
        What fills it, from below; they meet.
    ground, top : float
        Where this pour begins, and up to where it may reach [m].

    Returns
    -------
    Column

    Examples
    --------
    A tube of 0.01 m2 with glass in its lower half:

    >>> tube = column([0.0, 0.2], [0.0, 0.002], [Bed(0.0, 0.1, 0.45), Bed(0.1, 0.2)], 0.0, 0.2)
    >>> round(1e6 * float(tube.liquid(0.15))), round(1000 * float(tube.level(0.00095)))
    (950, 150)
    """
    inside = [bed for bed in beds if bed.upper > ground and bed.lower < top]
    borders = [edge for bed in inside for edge in (bed.lower, bed.upper) if ground < edge < top]
    grid = np.unique(np.concatenate([np.linspace(ground, top, STEPS + 1), borders]))
    curve = PchipInterpolator(heights, volumes) if len(heights) > 1 else None
    assert curve is not None
    held = [
        curve(np.clip(grid, max(bed.lower, ground), min(bed.upper, top))) - curve(max(bed.lower, ground))
        for bed in inside
    ]
    voids, doubts = ([getattr(bed, name) for bed in inside] for name in ("void", "doubt"))
    return Column(grid, np.array(held), np.array(voids), np.array(doubts))
