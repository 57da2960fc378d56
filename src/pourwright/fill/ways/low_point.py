"""Filling a bed slowly through a tube that stands on its floor."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from pourwright.fill.ways.defaults import WAYS
from pourwright.physics.radial_seepage import flow_needed_from_a_tube


@dataclass(frozen=True)
class TubeFill:
    """How a tube fills a band.

    Parameters
    ----------
    needed : float
        How much the resin has to flow until the band is full [1/Pa].
    volume : float
        Of resin that goes in [m3].
    """

    needed: float
    volume: float


def tube_fill(volume: float, depth: float, voids: float, permeability: float, density: float) -> TubeFill:
    """Fill a band through a tube in its middle.

    Parameters
    ----------
    volume : float
        Of the band [m3].
    depth : float
        Of the band [m].
    voids : float
        [-]
    permeability : float
        [m2].
    density : float
        Of the resin [kg/m3].

    Returns
    -------
    TubeFill
        Through half the depth on average, to the rim of a round band of the same area.
    """
    inner, outer = 0.5 * WAYS["tube"].value, sqrt(volume / depth / pi)
    needed = flow_needed_from_a_tube(
        volume * voids, permeability, 0.5 * depth, WAYS["tube_head"].value, density, outer, inner
    )
    return TubeFill(needed, volume * voids)
