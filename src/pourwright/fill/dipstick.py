"""The dip-stick table: heights, dips from the rim, volumes below."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.fill.result import FillResult

# two levels that no stick tells apart are one line
SAME = 1e-6


@dataclass(frozen=True, slots=True)
class DipRow:
    """One line of the table.

    Parameters
    ----------
    height, height_standing : float
        From the mold's floor as cast, and as the piece stands [m].
    dip : float
        From the rim down [m].
    cavity : float
        Cavity below [m3].
    liquid : float
        Liquid that fits below once the glass is in [m3].
    """

    height: float
    height_standing: float
    dip: float
    cavity: float
    liquid: float


def dip_heights(fill: FillResult, step: float, levels: Sequence[float] = ()) -> tuple[float, ...]:
    """Heights of the table: every step, every border of a band, every level of a pour, the top.

    Parameters
    ----------
    fill : FillResult
        The fill.
    step : float
        Distance of the lines [m].
    levels : sequence of float
        Levels at which a pour ends [m].

    Returns
    -------
    tuple of float
        Ascending [m]; a step nearer than 1 mm to a border or a level gives way to it.
    """
    bottom, top = fill.levels.bottom, fill.levels.top
    edges = [band.upper for band in fill.bands]
    borders = edges + [z for z in levels if min(abs(z - edge) for edge in edges) > SAME]
    count = int(np.floor((top - bottom) / step))
    steps = [bottom + step * i for i in range(1, count + 1)]
    free = [z for z in steps if min(abs(z - border) for border in borders) > 1e-3]
    return (bottom, *sorted(free + borders))


def dip_stick(
    fill: FillResult,
    rim: float,
    standing: Callable[[float], float],
    step: float = 0.010,
    levels: Sequence[float] = (),
) -> tuple[DipRow, ...]:
    """Write the dip-stick table.

    Parameters
    ----------
    fill : FillResult
        The fill.
    rim : float
        Height of the rim above the mold's floor [m].
    standing : callable
        Turns a height as cast into the height as the piece stands [m].
    step : float
        Distance of the lines [m].
    levels : sequence of float
        Levels at which a pour ends [m].

    Returns
    -------
    tuple of DipRow
        From the floor up.
    """
    return tuple(
        DipRow(
            height=z,
            height_standing=float(standing(z)),
            dip=rim - z,
            cavity=float(fill.levels.volume(z)),
            liquid=fill.liquid_below(z),
        )
        for z in dip_heights(fill, step, levels)
    )
