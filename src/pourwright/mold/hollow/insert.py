"""What is set into a casting: where it sits, what is around it, what lifts it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from pourwright.geometry.mesh import Floats
from pourwright.mold.hollow.defaults import INSERTS
from pourwright.physics.constants import STANDARD_GRAVITY

Kind = Literal["socket", "tube", "light"]


@dataclass(frozen=True, kw_only=True)
class InsertChoice:
    """An insert as chosen.

    Parameters
    ----------
    name : str
        On paper.
    kind : str
        "socket", "tube" or "light".
    face : str
        From which it goes in, as poured.
    at : tuple of float
        Where on that face, along the two other axes in the order x, y, z [m].
    diameter : float
        Its widest [m].
    depth : float or None
        From the face to its end [m]; None goes to the core, or right through.
    mass : float or None
        As weighed [kg].
    where : str
        File and line, for messages.
    """

    name: str
    kind: Kind
    face: str
    at: tuple[float, float]
    diameter: float
    depth: float | None
    mass: float | None = None
    where: str = ""

    @property
    def density(self) -> float:
        """Of one that was not weighed, its plugs with it [kg/m3]."""
        return INSERTS[f"{self.kind}_density"].value


@dataclass(frozen=True, kw_only=True)
class Insert:
    """An insert in its place.

    Parameters
    ----------
    choice : InsertChoice
        As chosen.
    entry, way : array (3,)
        Middle of its outer end, and the direction inwards [m], [-].
    depth : float
        [m]
    edge : float
        From its axis to the nearest face beside it [m].
    edge_needed : float
        What that must be at least [m].
    beside_core : bool
        Whether that face is the core's.
    beyond : float
        Of casting behind its end [m]; 0 where it goes through.
    ends : str
        "casting", "core" or "face": what its end lies in.
    """

    choice: InsertChoice
    entry: Floats
    way: Floats
    depth: float
    edge: float
    edge_needed: float
    beside_core: bool
    beyond: float
    ends: Literal["casting", "core", "face"]

    @property
    def end(self) -> Floats:
        """Middle of its inner end [m]."""
        return self.entry + self.way * self.depth

    @property
    def volume(self) -> float:
        """Room that it takes [m3]."""
        return float(np.pi / 4 * self.choice.diameter**2 * self.depth)

    @property
    def mass(self) -> float:
        """Weighed, else by its kind [kg]."""
        return self.volume * self.choice.density if self.choice.mass is None else self.choice.mass


def least_edge(choice: InsertChoice, grain: float) -> float:
    """Least distance from the axis of an insert to any face beside it.

    Parameters
    ----------
    choice : InsertChoice
        The insert.
    grain : float
        Largest grain around it [m].

    Returns
    -------
    float
        [m]

    Notes
    -----
    A socket is loaded: so many of its diameters. All leave room for grains, and cover
    enough not to show.
    """
    cover = max(INSERTS["least_cover"].value, INSERTS["grains_beside"].value * grain)
    loaded = INSERTS["edge_in_diameters"].low if choice.kind == "socket" else 0.0
    return max((loaded or 0.0) * choice.diameter, choice.diameter / 2 + cover)


def apart(one: Insert, other: Insert) -> float:
    """Clear distance of two inserts, as round rods [m]; below 0 where they overlap.

    Parameters
    ----------
    one, other : Insert
        In their places.

    Returns
    -------
    float
        [m]
    """
    shares = np.linspace(0.0, 1.0, 65)[:, None]
    mine, theirs = (each.entry + shares * each.way * each.depth for each in (one, other))
    gaps = np.linalg.norm(mine[:, None] - theirs[None], axis=2)
    return float(gaps.min()) - (one.choice.diameter + other.choice.diameter) / 2


def lift_of(insert: Insert, liquid: float) -> float:
    """Say what lifts an insert once it is drowned.

    Parameters
    ----------
    insert : Insert
        In its place.
    liquid : float
        Density of what is poured [kg/m3].

    Returns
    -------
    float
        Upwards, less its weight [N]; negative where it sinks.
    """
    return (liquid * insert.volume - insert.mass) * STANDARD_GRAVITY
