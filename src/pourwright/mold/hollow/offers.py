"""What a hollow piece saves at some walls, and what holds its core down."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pourwright.geometry import Mesh
from pourwright.mold.hollow.core import ROUGH, core_volume
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.hydrostatics import hold_down_force

LEAST_CORE = 0.02
"""A core below this share of the piece saves nothing worth its work."""
TRIALS = 9
THINNEST = 0.003
"""Walls below this are not looked for [m]."""


@dataclass(frozen=True, kw_only=True)
class Layer:
    """One band of the piece: its upper end [m], volume [m3], resin and glass or other solids in it [kg]."""

    upper: float
    volume: float
    resin: float
    solids: float


@dataclass(frozen=True, kw_only=True)
class Offer:
    """A piece cast hollow to one wall.

    Parameters
    ----------
    wall : float
        Least thickness [m].
    core : float
        Volume of the core [m3]; 0 where nothing is left for one.
    resin_saved, solids_saved : float
        In the piece [kg].
    """

    wall: float
    core: float
    resin_saved: float
    solids_saved: float

    @property
    def saved(self) -> float:
        """By so much the piece is lighter [kg]."""
        return self.resin_saved + self.solids_saved


def offer_of(mesh: Mesh, layers: Sequence[Layer], wall: float) -> Offer:
    """Reckon what a core saves.

    Parameters
    ----------
    mesh : Mesh
        The piece, mouth at its top [m].
    layers : sequence of Layer
        Its bands from the floor up.
    wall : float
        Least thickness [m].

    Returns
    -------
    Offer
        Each band loses the share of its fill that the core takes of its room.
    """
    core = core_volume(mesh, wall)
    if core < LEAST_CORE * sum(layer.volume for layer in layers):
        return Offer(wall=wall, core=0.0, resin_saved=0.0, solids_saved=0.0)
    below = [core_volume(mesh, wall, layer.upper, ROUGH) for layer in layers] if len(layers) > 1 else [core]
    taken = [high - low for low, high in zip([0.0, *below[:-1]], below, strict=True)]
    shares = [core * part / below[-1] / layer.volume for part, layer in zip(taken, layers, strict=True)]
    return Offer(
        wall=wall,
        core=core,
        resin_saved=sum(share * layer.resin for share, layer in zip(shares, layers, strict=True)),
        solids_saved=sum(share * layer.solids for share, layer in zip(shares, layers, strict=True)),
    )


def thickest_wall(mass_at: Callable[[float], float], most: float, thickest: float) -> float | None:
    """Find the thickest wall with which a piece is no heavier than it may be.

    Parameters
    ----------
    mass_at : callable
        Mass of the piece for a wall [kg]; it grows with the wall.
    most : float
        What the piece may weigh [kg].
    thickest : float
        Where nothing is left for a core [m].

    Returns
    -------
    float or None
        [m]; None where even a wall of 3 mm is too heavy.

    Examples
    --------
    >>> round(thickest_wall(lambda wall: 1000 * wall, 20.0, 0.1), 3)
    0.02
    """
    low, high = THINNEST, thickest
    if mass_at(low) > most:
        return None
    for _ in range(TRIALS):
        middle = (low + high) / 2
        low, high = (middle, high) if mass_at(middle) <= most else (low, middle)
    return low


def weight_on_core(core: float, liquid: float, material: float, factor: float) -> float:
    """Weight that keeps a drowned core down.

    Parameters
    ----------
    core : float
        Volume [m3].
    liquid, material : float
        Densities [kg/m3].
    factor : float
        Safety factor [-].

    Returns
    -------
    float
        On its bars [kg]; 0 where it sinks. The full mold is the worst level: the lift grows with the level.
    """
    lift = float(hold_down_force(core, liquid, material))
    return max(factor * lift / STANDARD_GRAVITY, 0.0)
