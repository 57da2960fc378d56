"""Where air is caught, and how much."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry import Mesh, Pocket, measure
from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.ways_up.pocket_walls import free_surface
from pourwright.mold.air.defaults import least_told
from pourwright.mold.air.rising import Rising, Which


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """Air that a rising liquid closes off.

    Parameters
    ----------
    volume : float
        Between the ceiling and the level at which it is closed off [m3]; exact for the mesh.
    top : array (3,)
        Its highest point as cast [m].
    lip : float
        Height as cast at which it is closed off [m].
    depth : float
        From there to the highest point [m].
    area : float
        Of the liquid's surface below the air [m2].
    highs : tuple of array (3,)
        Every local high as cast, the highest first [m].
    corners : array (n,)
        Corners of the mesh on its walls.
    """

    volume: float
    top: Floats
    lip: float
    depth: float
    area: float
    highs: tuple[Floats, ...]
    corners: Integers


@dataclass(frozen=True, slots=True)
class Caught:
    """All air that one liquid catches.

    Parameters
    ----------
    places : tuple of Place
        Worth telling, the largest first.
    small : int
        Smaller ones.
    small_volume : float
        Of those together [m3].
    least : float
        From which volume on a place is told [m3].
    """

    places: tuple[Place, ...]
    small: int
    small_volume: float
    least: float

    @property
    def volume(self) -> float:
        """Of the places that are told [m3]."""
        return sum(place.volume for place in self.places)


def caught_air(mesh: Mesh, which: Which, least: float | None = None) -> Caught:
    """Find the air that a level liquid catches.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast, z up, its open face on top; closed and in one piece.
    which : str
        "casting": resin, gypsum or concrete in the cavity. "hung" or "screwed": rubber around the master.
    least : float, optional
        Smallest volume that is told [m3]; `least_told` of the piece where left out.

    Returns
    -------
    Caught

    Examples
    --------
    >>> from pourwright.geometry import revolve
    >>> bell = revolve([[0.03, 0.0], [0.03, 0.02], [0.05, 0.02], [0.05, 0.1], [0.0, 0.1]], 128)
    >>> caught_air(bell, "casting").places
    ()
    """
    return caught_by(Rising(mesh, which), least_told(measure(mesh).volume) if least is None else least)


def caught_by(rising: Rising, least: float) -> Caught:
    """Find the air that a level liquid catches.

    Parameters
    ----------
    rising : Rising
        The liquid.
    least : float
        Smallest volume that is told [m3].

    Returns
    -------
    Caught
    """
    found = rising.caught(rising.up)
    told = tuple(_place(rising, pocket, least) for pocket in found if pocket.volume >= least)
    rest = [pocket.volume for pocket in found if pocket.volume < least]
    return Caught(told, len(rest), float(sum(rest)), least)


def _place(rising: Rising, pocket: Pocket, least: float) -> Place:
    highs = tuple(peak.place for n, peak in enumerate(pocket.peaks) if n == 0 or peak.volume >= least)
    lip = float(pocket.lip * rising.up[2]) if np.isfinite(pocket.lip) else float(pocket.lip_place[2])
    return Place(
        volume=pocket.volume,
        top=pocket.place,
        lip=lip,
        depth=pocket.top - pocket.lip,
        area=free_surface(rising.mesh, pocket, rising.up, outside=rising.outside),
        highs=highs,
        corners=pocket.vertices,
    )
