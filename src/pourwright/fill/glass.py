"""Glass to have ready, and the bottles it comes from."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from pourwright.fill.choices import FillChoices
from pourwright.fill.parts import FillBand, GlassLot

NO_COLOUR = "any"


def bottles_for(mass: float, bottle_mass: float, crush_yield: float) -> int:
    """Count the bottles that yield a mass of one grade.

    Parameters
    ----------
    mass : float
        Glass of that grade [kg].
    bottle_mass : float
        Mass of one bottle [kg].
    crush_yield : float
        Share of a crushed bottle that ends in the grade [-].

    Returns
    -------
    int
        Whole bottles.

    Examples
    --------
    >>> bottles_for(6.0, 0.5, 0.4)
    30
    """
    return math.ceil(mass / (bottle_mass * crush_yield) * (1 - 1e-12))


def glass_lots(bands: Sequence[FillBand], choices: FillChoices) -> tuple[GlassLot, ...]:
    """Sum the glass by grade and colour.

    Parameters
    ----------
    bands : sequence of FillBand
        The fill.
    choices : FillChoices
        Glass record, bottle mass and crush yields.

    Returns
    -------
    tuple of GlassLot
        In order of first use.
    """
    masses: dict[tuple[str, str], float] = {}
    for band in bands:
        for grade, colour, mass in band.lots:
            key = (grade, colour or NO_COLOUR)
            masses[key] = masses.get(key, 0.0) + mass
    return tuple(glass_lot(*key, mass, choices) for key, mass in masses.items())


def glass_lot(grade_id: str, colour: str, mass: float, choices: FillChoices) -> GlassLot:
    """One grade in one colour, with the bottles that yield it.

    Parameters
    ----------
    grade_id, colour : str
        Of the glass.
    mass : float
        Dry [kg].
    choices : FillChoices
        Glass record, bottle mass and crush yields.

    Returns
    -------
    GlassLot
    """
    grade = choices.glass.grade(grade_id)
    usual = choices.glass.bottle_mass.value if choices.bottle_mass is None else choices.bottle_mass
    bottle = choices.bottle_masses.get(colour, usual)
    crush_yield = choices.crush_yield.get(grade_id, grade.crush_yield.value)
    return GlassLot(
        grade=grade_id,
        colour=colour,
        mass=mass,
        bottles=None if colour in choices.bought else bottles_for(mass, bottle, crush_yield),
        sieve_from=grade.sieve_from.value,
        sieve_to=grade.sieve_to.value,
    )


def bottles_by_colour(lots: Sequence[GlassLot]) -> Iterator[tuple[str, int]]:
    """Bottles to collect of each colour: one crushing yields every grade, so the scarcest counts.

    Parameters
    ----------
    lots : sequence of GlassLot
        By grade and colour.

    Yields
    ------
    tuple of (str, int)
        Colour, bottles.
    """
    for colour in dict.fromkeys(lot.colour for lot in lots):
        counts = [lot.bottles for lot in lots if lot.colour == colour and lot.bottles is not None]
        if counts:
            yield colour, max(counts)
