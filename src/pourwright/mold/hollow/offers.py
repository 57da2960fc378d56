"""What a hollow piece saves at some walls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.geometry import Mesh
from pourwright.mold.hollow.core import ROUGH, core_volume

LEAST_CORE = 0.02
"""A core below this share of the piece saves nothing worth its work."""


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
