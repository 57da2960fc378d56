"""Ratchet bands round a box: tension, number, and where they go."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.loads import SeamLoad
from pourwright.physics.capstan import capstan_ratio

LOW = 0.25
"""A box lower than this stands with one band; common practice [m]."""


@dataclass(frozen=True, kw_only=True)
class Banded:
    """Bands round the box.

    Parameters
    ----------
    at : tuple of float
        Their heights above the foot [m].
    pull : float
        By which each has to be pulled at its ratchet [N].
    left_over : float
        Share of that pull behind two corners [-].
    """

    at: tuple[float, ...]
    pull: float
    left_over: float


def banded(load: SeamLoad) -> Banded:
    """Lay bands where each takes an equal share of what drives a corner apart.

    Parameters
    ----------
    load : SeamLoad
        Of a corner, from the foot up.

    Returns
    -------
    Banded
        The leg farthest from the ratchet lies behind two corners, half a turn: it keeps exp(-mu pi) of
        the pull. A leg along an end holds the sides, one along a side holds the ends.

    Examples
    --------
    >>> up = np.linspace(0.0, 0.4, 81)
    >>> found = banded(SeamLoad(along=up, pull=1000.0 * (1.0 - up / 0.4), slide=np.zeros(81)))
    >>> len(found.at), round(found.left_over, 2), round(found.pull)
    (2, 0.39, 385)
    """
    keeps = 1.0 / capstan_ratio(BOX["friction"].value, math.pi)
    worst = np.maximum(load.pull, load.slide)
    summed = np.concatenate([[0.0], np.cumsum((worst[1:] + worst[:-1]) / 2.0 * np.diff(load.along))])
    needed = BOX["clamp_safety"].value * float(summed[-1])
    count = max(math.ceil(needed / (keeps * BOX["band_pull"].value) - 1e-9), 1 if load.length < LOW else 2)
    shares = (np.arange(count) + 0.5) / count * summed[-1]
    at = np.interp(shares, summed, load.along)
    return Banded(at=tuple(float(z) for z in at), pull=needed / count / keeps, left_over=keeps)
