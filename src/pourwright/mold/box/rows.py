"""Fasteners in a row along a seam, evenly spaced."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
MOST = 100


@dataclass(frozen=True, kw_only=True)
class Row:
    """Fasteners in a row along a seam.

    Parameters
    ----------
    count : int
        In one seam.
    first, spacing : float
        From each end of the seam to the next one; between two [m].
    share : float
        Load of the most loaded one over what it may bear [-].
    """

    count: int
    first: float
    spacing: float
    share: float

    @property
    def at(self) -> tuple[float, ...]:
        """Places from one end [m]."""
        return tuple(self.first + number * self.spacing for number in range(self.count))


def row_along(along: Array, rate: Array, corner: float, widest: float) -> Row:
    """Space fasteners evenly along a seam, the fewest that bear it.

    Parameters
    ----------
    along : array
        Places along the seam, from one end to the other [m].
    rate : array
        Load there over what one fastener bears [1/m].
    corner : float
        From the ends of the seam to the first one [m]; less where the seam is short.
    widest : float
        Farthest apart [m].

    Returns
    -------
    Row
        At least two, 100 at most. Each carries what lies nearer to it than to the next.

    Examples
    --------
    >>> row = row_along(np.array([0.0, 0.5]), np.array([4.0, 4.0]), 0.07, 0.15)
    >>> row.count, round(row.spacing, 3), round(row.share, 2)
    (4, 0.12, 0.52)
    """
    length = float(along[-1])
    first = min(corner, length / 4.0)
    room = length - 2.0 * first
    summed = np.concatenate([[0.0], np.cumsum((rate[1:] + rate[:-1]) / 2.0 * np.diff(along))])
    for count in range(2, MOST + 1):
        spacing = room / (count - 1)
        ends = np.array([0.0, *(first + spacing * (np.arange(count - 1) + 0.5)), length])
        share = float(np.diff(np.interp(ends, along, summed)).max())
        if spacing <= widest + 1e-9 and share <= 1.0:
            break
    return Row(count=count, first=first, spacing=spacing, share=share)
