"""What the panels hand on to the corners and to the base board."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from pourwright.mold.box.upright import Upright
from pourwright.physics.plate_edges import Side, edge_reaction
from pourwright.physics.plates import BentPlate

Array = NDArray[np.float64]
PLACES = 81


@dataclass(frozen=True, kw_only=True, eq=False)
class SeamLoad:
    """Load along one seam.

    Parameters
    ----------
    along : array
        Places from one end [m].
    pull : array
        That draws the two panels apart, straight out of the edge [N/m].
    slide : array
        Across that, which screws bear sideways and clamps by friction [N/m].
    """

    along: Array
    pull: Array
    slide: Array

    @cached_property
    def length(self) -> float:
        """Of the seam [m]."""
        return float(self.along[-1])

    def share(self, of_pull: float, of_slide: float) -> Array:
        """Both together along the seam, each divided by what one fastener bears [1/m]."""
        return self.pull / of_pull + self.slide / of_slide


def corner_load(
    side: Upright,
    end: Upright,
    *,
    holds_end: bool,
    side_battens: Sequence[float] = (),
    end_battens: Sequence[float] = (),
) -> SeamLoad:
    """Load of one upright corner.

    Parameters
    ----------
    side, end : Upright
        The panel that laps, and the one that is lapped.
    holds_end : bool
        Whether a groove of the side keeps the end from being pushed out.
    side_battens, end_battens : sequence of float
        Heights of level battens, the uppermost along the rim [m]; they are tied to each other at the corners,
        so that the seam bears what the fields between them hand on.

    Returns
    -------
    SeamLoad
        From the foot up. The pull is the side's own edge force, the slide that of the end.
    """
    up = np.linspace(0.0, side.height, PLACES)
    pull, slide = (_at_corner(*each, up) for each in ((side, side_battens), (end, end_battens)))
    return SeamLoad(along=up, pull=pull, slide=np.zeros(PLACES) if holds_end else slide)


def _at_corner(panel: Upright, battens: Sequence[float], up: Array) -> Array:
    if not battens:
        return _edge(panel.bent(1.0), "left", up / panel.height)
    force = np.zeros(len(up))
    for low, high in pairwise((0.0, *battens)):
        inside = (up >= low - 1e-9) & (up <= high + 1e-9)
        share = np.clip((up[inside] - low) / (high - low), 0.0, 1.0)
        force[inside] = _edge(panel.field(panel.width, low, high, 1.0), "left", share)
    return force


def base_load(panel: Upright, lift: float) -> SeamLoad:
    """Load of the seam between an upright panel and the base board.

    Parameters
    ----------
    panel : Upright
        The panel.
    lift : float
        Weight that hangs on the seam when the box is lifted by its sides, per length [N/m].

    Returns
    -------
    SeamLoad
        From one corner to the other. The pull is the lift, the slide the panel's push outward.
    """
    along = np.linspace(0.0, panel.width, PLACES)
    slide = _edge(panel.bent(1.0), "lower", along / panel.width)
    return SeamLoad(along=along, pull=np.full(PLACES, lift), slide=slide)


def _edge(bent: BentPlate, side: Side, share: Array) -> Array:
    """Force along a held edge; it does not hang on the board, so a stiffness of 1 does."""
    return np.maximum(edge_reaction(bent, side, share), 0.0)
