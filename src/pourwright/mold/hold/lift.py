"""How hard the liquid rubber lifts a master, at every level, and at which level most."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar

from pourwright.mold.rubber import RubberPour
from pourwright.physics.constants import STANDARD_GRAVITY

Array = NDArray[np.float64]
EVENLY = 512
MOST_KNOTS = 4096
HAIR = 1e-12


@dataclass(frozen=True, slots=True)
class Worst:
    """Greatest push upward [N] and the lowest level of rubber above the box's floor that has it [m]."""

    level: float
    force: float


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


def levels_of(pour: RubberPour) -> Array:
    """Levels at which a push is looked at [m]: evenly up to the wanted one, and wherever the section changes.

    Parameters
    ----------
    pour : RubberPour
        The pour.

    Returns
    -------
    array
        Rising, above the box's floor; horizontal faces always, heights of corners unless there are thousands.
    """
    knots = pour.levels.knots - pour.levels.bottom
    heights = pour.base + knots if pour.method == "hung" else pour.master_height - knots
    corners = heights if heights.size <= MOST_KNOTS else np.empty(0)
    found = np.unique(np.concatenate([np.linspace(0.0, pour.level_wanted, EVENLY), pour.ledges(), corners]))
    return found[(found >= 0.0) & (found <= pour.level_wanted)]


def worst_of(push: Callable[[float | Array], Array], levels: Array) -> Worst:
    """Find the greatest push over all levels, also between those listed.

    Parameters
    ----------
    push : callable
        Upward force [N] at a level or at many [m].
    levels : array
        Rising; the push is smooth between two of them.

    Returns
    -------
    Worst
        Of equal ones the lowest level, for the master must be held from there on.
    """
    forces = push(levels)
    most = float(forces.max())
    first = int(np.argmax(forces >= most - HAIR * max(abs(most), float(np.abs(forces).max()))))
    low, high = levels[max(first - 1, 0)], levels[min(first + 1, levels.size - 1)]
    between = minimize_scalar(
        lambda level: -float(push(level)), bounds=(low, high), method="bounded", options={"xatol": 1e-9}
    )
    if -between.fun > most * (1.0 + HAIR) + HAIR:
        return Worst(float(between.x), float(-between.fun))
    return Worst(float(levels[first]), float(forces[first]))


def worst_tight(pour: RubberPour, density: float) -> Worst:
    """The worst for a master that no rubber gets under; for a hung one, for which rubber is all round."""
    return worst_of(lambda level: sealed_push(pour, level, density), levels_of(pour))


def floats_from(pour: RubberPour, mass: float, density: float) -> float | None:
    """Level from which a master with rubber all round is lifted off.

    Parameters
    ----------
    pour : RubberPour
        The pour.
    mass : float
        Of the master [kg].
    density : float
        Of the liquid rubber [kg/m3].

    Returns
    -------
    float or None
        Where the rubber it displaces weighs as much as it does, above the box's floor [m]; None if it sinks.
    """
    wet = mass / density
    levels = pour.levels
    if wet >= levels.total:
        return None
    if pour.method == "hung":
        return pour.base + levels.height(wet) - levels.bottom
    return levels.top - levels.height(levels.total - wet)
