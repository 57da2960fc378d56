"""How hard the liquid rubber lifts the master, at every level, and what holds it."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from pourwright.mold.choices import MoldChoices
from pourwright.mold.defaults import DEFAULTS
from pourwright.mold.result import HoldDown
from pourwright.mold.rubber import RubberPour
from pourwright.physics.constants import STANDARD_GRAVITY

Array = NDArray[np.float64]
_LEVELS = 512


def buoyancy(pour: RubberPour, level: float | Array, density: float) -> Array:
    """Lift on a master with rubber all round (Archimedes).

    Parameters
    ----------
    pour : RubberPour
        The pour.
    level : float or array
        Rubber level above the box's floor [m].
    density : float
        Of the liquid rubber [kg/m3].

    Returns
    -------
    array
        Upward force [N].
    """
    return np.asarray(density * STANDARD_GRAVITY * pour.immersed(level))


def sealed_push(pour: RubberPour, level: float | Array, density: float) -> Array:
    """Upward push on a master screwed down so tight that no rubber gets under it.

    Parameters
    ----------
    pour : RubberPour
        The pour.
    level : float or array
        Rubber level above the box's floor [m].
    density : float
        Of the liquid rubber [kg/m3].

    Returns
    -------
    array
        Buoyancy less the pressure missing under the contact face [N]; negative presses the
        master down. It is positive only where the master is wider above its contact face.
    """
    if pour.method == "hung":
        return buoyancy(pour, level, density)
    missing = density * STANDARD_GRAVITY * np.asarray(level) * contact_area(pour)
    return np.asarray(buoyancy(pour, level, density) - missing)


def contact_area(pour: RubberPour) -> float:
    """Area of the master's face on the base board.

    Parameters
    ----------
    pour : RubberPour
        The pour.

    Returns
    -------
    float
        Area [m2]; 0 for a hung master.
    """
    return 0.0 if pour.method == "hung" else pour.levels.area(pour.levels.top, below=True)


def hold_down(pour: RubberPour, choices: MoldChoices) -> HoldDown:
    """Find the worst level and what must hold the master there.

    Parameters
    ----------
    pour : RubberPour
        The pour.
    choices : MoldChoices
        Rubber, master, safety factor.

    Returns
    -------
    HoldDown
        Net force = buoyancy - weight where the master is just drowned, since the lift grows with
        the level up to there; weight needed = safety factor * net force / g.

    Notes
    -----
    A screwed master is reckoned as if rubber had crept under it, for that is when it comes loose.
    The push on one that is tight peaks at a level of its own, found among 512.
    """
    density = choices.rubber.density.value
    mass = choices.mass_of_master(pour.levels.total)
    worst = pour.drowned_level
    lift = float(buoyancy(pour, worst, density))
    levels = np.union1d(np.linspace(0.0, pour.level_wanted, _LEVELS), pour.ledges())
    net = max(lift - mass * STANDARD_GRAVITY, 0.0)
    screwed = choices.method == "screwed"
    return HoldDown(
        buoyancy=lift,
        sealed_force=float(sealed_push(pour, levels, density).max()),
        master_mass=mass,
        net_force=net,
        worst_level=worst,
        safety_factor=choices.safety_factor,
        weight_needed=choices.safety_factor * net / STANDARD_GRAVITY,
        screws_needed=screws_for(choices.safety_factor * net) if screwed else None,
        bar_load=0.0 if screwed else mass * STANDARD_GRAVITY,
    )


def screws_for(force: float) -> int:
    """Count wood screws for an upward force.

    Parameters
    ----------
    force : float
        With its safety factor [N].

    Returns
    -------
    int
        At least four, or the master rocks.

    Examples
    --------
    >>> screws_for(100.0), screws_for(1300.0)
    (4, 6)
    """
    needed = math.ceil(force / DEFAULTS["screw_allowable"].value)
    return max(needed, int(DEFAULTS["least_screws"].value))
