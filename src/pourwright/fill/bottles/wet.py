"""Water on washed glass: how much a film holds, and the trays it dries on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.fill.parts import GlassLot
from pourwright.physics.permeability import mean_grain

WATER = 998.0
"""Density [kg/m3]."""


@dataclass(frozen=True)
class WetGrade:
    """A grade of wet glass.

    Parameters
    ----------
    surface : float
        Of its grains, by mass [m2/kg].
    water : float
        In the film on them, by mass of glass [-].
    of_resin : float
        The same water by mass of the resin between the grains [-].
    """

    surface: float
    water: float
    of_resin: float


def wet_grade(
    sieve_from: float, sieve_to: float, density: float, film: float, *, void_fraction: float, resin: float
) -> WetGrade:
    """Reckon the water on a grade.

    Parameters
    ----------
    sieve_from, sieve_to : float
        Openings the grade lies between [m].
    density : float
        Of the grains [kg/m3].
    film : float
        Thickness of the water [m].
    void_fraction : float
        Of the bed [-].
    resin : float
        Density of the resin [kg/m3].

    Returns
    -------
    WetGrade
        As balls, 6 / (d rho); crushed grains have more surface.

    Examples
    --------
    >>> wet = wet_grade(0.00315, 0.0063, 2500.0, 30e-6, void_fraction=0.45, resin=1100.0)
    >>> f"{wet.surface:.3f} m2/kg, {1000 * wet.water:.1f} g/kg, {wet.of_resin:.3f}"
    '0.550 m2/kg, 16.5 g/kg, 0.046'
    """
    surface = 6.0 / (mean_grain(sieve_from, sieve_to) * density)
    water = surface * film * WATER
    around = void_fraction * resin / ((1.0 - void_fraction) * density)
    return WetGrade(surface, water, water / around)


@dataclass(frozen=True)
class Tray:
    """One tray of glass to dry.

    Parameters
    ----------
    number : int
        Counted through.
    grade, colour : str
        Never two on one tray.
    mass : float
        Of the glass, dry [kg].
    """

    number: int
    grade: str
    colour: str
    mass: float


def trays(lots: Sequence[GlassLot], most: float) -> tuple[Tray, ...]:
    """Share the glass out to trays.

    Parameters
    ----------
    lots : sequence of GlassLot
        By grade and colour.
    most : float
        On one tray [kg].

    Returns
    -------
    tuple of Tray
        As few as hold it, alike for one lot.
    """
    found: list[Tray] = []
    for lot in lots:
        count = math.ceil(lot.mass / most * (1 - 1e-12))
        found += [Tray(len(found) + n + 1, lot.grade, lot.colour, lot.mass / count) for n in range(count)]
    return tuple(found)
