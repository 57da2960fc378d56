"""How far rubber comes in where it is thick, as the casting warms it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.ways_up.around import Around
from pourwright.materials import Rubber
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.physics.rubber_size import boxed_growth


@dataclass(frozen=True, slots=True)
class WarmPlace:
    """Thickest rubber between one side of the box and the piece.

    Parameters
    ----------
    angle : float
        Of that side, from the x axis [rad].
    height : float
        Above the cavity's floor [m].
    thickness : float
        Space blocks left out [m].
    inward : float
        How far it comes in [m].
    """

    angle: float
    height: float
    thickness: float
    inward: float


@dataclass(frozen=True, slots=True)
class Warm:
    """How far warm rubber comes in.

    Parameters
    ----------
    warmer : float
        Than it cured at, on average through the rubber [K].
    places : tuple of WarmPlace
        One for each side of the box that the piece is met from, the thickest first.
    thin, thin_in : float
        Thinnest rubber anywhere, and how far that comes in [m].
    """

    warmer: float
    places: tuple[WarmPlace, ...]
    thin: float
    thin_in: float

    @property
    def shows(self) -> bool:
        """Whether thick rubber comes in by so much more than thin rubber that the shape shows it."""
        most = max((place.inward for place in self.places), default=0.0)
        return most - self.thin_in > WAY_OUT["thick_rubber"].value


def warm_rubber(warmer: float, around: Around, rubber: Rubber, held: float) -> Warm:
    """Reckon how far rubber of several thicknesses comes in as the casting warms it.

    Parameters
    ----------
    warmer : float
        Than it cured at [K].
    around : Around
        Rubber round the piece.
    rubber : Rubber
        The record.
    held : float
        How far the panels keep it from sliding up [-].

    Returns
    -------
    Warm
        Square to the panels only: along a diagonal the rubber can grow sideways.
    """
    shrinkage = rubber.linear_shrinkage.value
    gap = max(shrinkage / (1.0 - shrinkage), 0.0)
    inward = boxed_growth(rubber.expansion.value * warmer, gap, held).inward
    thin = around.thinnest
    places = [
        _thickest(around, n, inward) for n in range(0, around.angles.size, around.angles.size // 4)
        if around.met[n].any()
    ]  # fmt: skip
    places.sort(key=lambda place: (-round(place.thickness, 4), place.angle))
    return Warm(warmer, tuple(places), thin, thin * inward)


def _thickest(around: Around, side: int, inward: float) -> WarmPlace:
    free = np.where(around.met[side], around.free[side], 0.0)
    level = int(free.argmax())
    return WarmPlace(
        float(around.angles[side]),
        float(around.heights[level]),
        float(free[level]),
        float(free[level]) * inward,
    )
