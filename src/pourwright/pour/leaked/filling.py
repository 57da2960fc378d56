"""What is in the mold when its level stands at a height, with all that is in doubt about it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from pourwright.pour.leaked.evidence import Case, Level

Array = NDArray[np.float64]
COMMON = 5
"""Doubts besides those of the beds: poured, cavity, film, held back, shrunk."""


def likely(case: Case) -> Array:
    """What is in doubt, at its likeliest values.

    Parameters
    ----------
    case : Case
        The pour.

    Returns
    -------
    array (5 + beds,)
        Poured [kg], cavity over shape [-], film [kg], held back [-], shrinkage over the likely one [-],
        then the voids of each bed [-].
    """
    common = [case.poured.mass, 1.0, case.film.mass, case.held_back, 1.0]
    return np.array([*common, *case.column.voids])


def doubts(case: Case) -> Array:
    """Standard deviations of `likely`.

    Parameters
    ----------
    case : Case
        The pour.

    Returns
    -------
    array (5 + beds,)
    """
    common = [case.poured.doubt, case.cavity_doubt, case.film.doubt, case.held_back_doubt, case.shrunk_doubt]
    return np.array([*common, *case.column.doubts])


def mass_at(case: Case, height: ArrayLike, time: float, values: Array | None = None) -> Array:
    """Resin in the mold when its level stands at a height.

    Parameters
    ----------
    case : Case
        The pour.
    height : float or array
        Level from the mold's floor [m].
    time : float
        After the pour began [s].
    values : array (5 + beds,), optional
        In the place of `likely`.

    Returns
    -------
    array
        [kg]

    Notes
    -----
    m = rho / (1 - s) (L(z) + h (G(z0) - G(z))) + film, with L the liquid below the level, G the same in beds
    of glass only, z0 the level of all that was poured, h what grains hold back, s the shrinkage so far.
    """
    poured, cavity, film, held, shrinks, *rest = likely(case) if values is None else values
    column, voids = case.column, cavity * np.array(rest)
    glass = np.where(column.glass, voids, 0.0)
    full = column.level((poured - film) / case.density, voids)
    wet = np.maximum(column.liquid(full, glass) - column.liquid(height, glass), 0.0)
    now = case.density / (1.0 - shrinks * case.shrunk(time))
    return np.asarray(now * (column.liquid(height, voids) + held * wet) + film)


def level_of(case: Case, mass: ArrayLike, time: float) -> Array:
    """Level at which the mold holds a mass.

    Parameters
    ----------
    case : Case
        The pour.
    mass : float or array
        Resin in the mold [kg].
    time : float
        After the pour began [s].

    Returns
    -------
    array
        Height from the mold's floor [m]; the ground where there is less than clings to the grains.
    """
    heights = case.column.heights
    held = np.maximum.accumulate(mass_at(case, heights, time))
    return np.asarray(np.interp(np.asarray(mass, dtype=float), held, heights))


def slope_at(case: Case, height: float, time: float) -> float:
    """How much more the mold holds for each metre of level.

    Parameters
    ----------
    case : Case
        The pour.
    height : float
        Level [m].
    time : float
        After the pour began [s].

    Returns
    -------
    float
        [kg/m]
    """
    column = case.column
    step = (column.top - column.ground) / 400.0
    around = np.clip([height - step, height + step], column.ground, column.top)
    low, high = mass_at(case, around, time)
    return float((high - low) / (around[1] - around[0]))


def sensitivities(case: Case, level: Level) -> Array:
    """How the mass that has run out follows from what is in doubt.

    Parameters
    ----------
    case : Case
        The pour.
    level : Level
        A reading.

    Returns
    -------
    array (5 + beds,)
        Change of the mass that has run out for one standard deviation of each [kg].
    """
    middle, spread = likely(case), doubts(case)

    def out(values: Array) -> float:
        return float(values[0] - mass_at(case, level.height, level.time, values))

    rows = np.diag(spread)
    return np.array([(out(middle + row) - out(middle - row)) / 2.0 for row in rows])
