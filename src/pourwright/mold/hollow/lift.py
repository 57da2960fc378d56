"""How hard what is poured lifts a core, at every level, and what keeps it down."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Mesh, level_volume
from pourwright.physics.constants import STANDARD_GRAVITY

Array = NDArray[np.float64]
LEVELS = 257
TOLD = (0.25, 0.5, 0.75, 1.0)
"""Levels that are told, as shares of the height of what is poured."""


@dataclass(frozen=True, kw_only=True)
class CoreLift:
    """What lifts a core.

    Parameters
    ----------
    core_mass : float
        [kg]
    worst_level : float
        Of the liquid, from the mold's floor [m].
    force : float
        Upwards at that level, less the core's weight [N]; 0 where it sinks.
    safety_factor : float
        [-]
    rises_at : float or None
        Level at which the liquid carries it [m]; None where it never does.
    told : tuple of (level, force)
        Net force at a few levels, negative where the core still rests on its supports [m], [N].
    """

    core_mass: float
    worst_level: float
    force: float
    safety_factor: float
    rises_at: float | None
    told: tuple[tuple[float, float], ...]

    @property
    def weight_needed(self) -> float:
        """On the bar over the core, with the safety factor [kg]."""
        return self.weight_for(self.force)

    def weight_for(self, force: float) -> float:
        """Weight [kg] on the bar for a net force [N], with the safety factor."""
        return self.safety_factor * max(force, 0.0) / STANDARD_GRAVITY


def core_lift(
    core: Mesh, density: float, liquid: Callable[[Array], Array] | float, top: float, factor: float
) -> CoreLift:
    """Find the worst level and the force there.

    Parameters
    ----------
    core : Mesh
        In the pour frame [m].
    density : float
        Of the core [kg/m3].
    liquid : float or callable
        Density of what is poured [kg/m3], by height [m] where it differs.
    top : float
        Highest level of what is poured [m].
    factor : float
        Safety factor [-].

    Returns
    -------
    CoreLift

    Notes
    -----
    Nothing is taken off for what has set around the core already: a bond to tape or foam is no anchor.
    The lift is g times the sum of density over the drowned volume; each slice counts with its own.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = core_lift(box([0.2, 0.2, 0.3]), 35.0, 1870.0, 0.3, 1.5)
    >>> print(f"{found.force:.1f} N at {found.worst_level:.1f} m")
    215.9 N at 0.3 m
    """
    levels = np.linspace(0.0, top, LEVELS)
    drowned = np.asarray(level_volume(core).volume(levels))
    mass = density * float(level_volume(core).total)
    middles = (levels[1:] + levels[:-1]) / 2
    densities = np.broadcast_to(liquid(middles) if callable(liquid) else liquid, middles.shape)
    lift = STANDARD_GRAVITY * np.concatenate([[0.0], np.cumsum(np.diff(drowned) * densities)])
    net = lift - mass * STANDARD_GRAVITY
    worst, afloat = int(np.argmax(net)), np.flatnonzero(net > 0.0)
    told = [round(share * (LEVELS - 1)) for share in TOLD]
    return CoreLift(
        core_mass=mass,
        worst_level=float(levels[worst]),
        force=max(float(net[worst]), 0.0),
        safety_factor=factor,
        rises_at=float(levels[afloat[0]]) if len(afloat) else None,
        told=tuple((float(levels[at]), float(net[at])) for at in told),
    )
