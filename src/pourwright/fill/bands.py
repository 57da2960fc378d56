"""Bands as chosen become bands as they lie in the piece."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from pourwright.fill.choices import BandChoice, FillChoices
from pourwright.fill.parts import FillBand, Voids
from pourwright.fill.voids import in_the_mold, void_fraction_of
from pourwright.fill.wetted import WettedArea
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.geometry.levels import LevelVolume

NEAT = Voids(1.0, 1.0, 1.0, "no glass")
_TOUCH = 1e-9


def lay_bands(choices: FillChoices, levels: LevelVolume, wetted: WettedArea) -> tuple[FillBand, ...]:
    """Lay the bands into the cavity, the neat cover last.

    Parameters
    ----------
    choices : FillChoices
        Bands from the floor up.
    levels : LevelVolume
        V(z) of the cavity.
    wetted : WettedArea
        Of its walls: grains lie looser along them.

    Returns
    -------
    tuple of FillBand
        They fill the cavity without gap; volumes are differences of V(z).

    Raises
    ------
    UserError
        Bands that do not ascend, leave the piece or are thinner than the cover.
    """
    edges = tuple(_with_cover(choices, tuple(_edges(choices, levels))))
    return tuple(_lay(band, lower, upper, choices, levels, wetted) for band, lower, upper in edges)


def _edges(choices: FillChoices, levels: LevelVolume) -> Iterator[tuple[BandChoice, float, float]]:
    if not choices.bands:
        raise UserError("no band is given", todo="add one [[band]] for each height of one grade and colour")
    lower, top = levels.bottom, levels.top
    for number, band in enumerate(choices.bands, 1):
        upper = top if band.to is None else min(band.to, top) if band.to < top + _TOUCH else band.to
        if number == len(choices.bands) and abs(upper - top) < _TOUCH:
            upper = top
        _refuse_misplaced(band, lower, upper, top, choices.units)
        yield replace(band, name=band.name or f"band {number}"), lower, upper
        lower = upper
    if lower < top:
        raise UserError(
            f"the bands end at {format_length(lower, choices.units)}, the piece at "
            f"{format_length(top, choices.units)}",
            where=choices.bands[-1].where,
            todo='give the last band to = "top"',
        )


def _refuse_misplaced(band: BandChoice, lower: float, upper: float, top: float, units: UnitSystem) -> None:
    if upper > top:
        raise UserError(
            f"a band goes to {format_length(upper, units)}, above the piece",
            where=band.where,
            allowed=f"up to {format_length(top, units)}",
            todo='write to = "top" or a height inside the piece',
        )
    if upper <= lower + _TOUCH:
        raise UserError(
            f"a band ends at {format_length(upper, units)}, the one below at {format_length(lower, units)}",
            where=band.where,
            allowed="bands in ascending order from the mold's floor",
            todo="put the bands in order, lowest first",
        )


def cover_wanted(choices: FillChoices) -> float:
    """Say how deep the neat resin over the topmost glass must be.

    Parameters
    ----------
    choices : FillChoices
        A stated cover, else one largest grain of the topmost band; a neat band needs none.

    Returns
    -------
    float
        Depth [m].
    """
    grade = choices.bands[-1].grade
    if grade is None:
        return 0.0
    if choices.neat_cover is not None:
        return choices.neat_cover
    return choices.glass.grade(grade).sieve_to.value


def _with_cover(
    choices: FillChoices, edges: tuple[tuple[BandChoice, float, float], ...]
) -> Iterator[tuple[BandChoice, float, float]]:
    cover = cover_wanted(choices)
    yield from edges[:-1]
    band, lower, top = edges[-1]
    if cover <= _TOUCH:
        yield band, lower, top
        return
    if top - cover <= lower + _TOUCH:
        raise UserError(
            f"the topmost band is {format_length(top - lower, choices.units)} deep, its neat cover "
            f"{format_length(cover, choices.units)}",
            where=band.where,
            allowed="a band deeper than the neat cover over it",
            todo="make the topmost band deeper, take a finer grade, or state a smaller neat_cover",
        )
    yield band, lower, top - cover
    yield BandChoice(name="neat cover", where=band.where), top - cover, top


def _lay(
    band: BandChoice,
    lower: float,
    upper: float,
    choices: FillChoices,
    levels: LevelVolume,
    wetted: WettedArea,
) -> FillBand:
    volume = float(levels.volume(upper)) - float(levels.volume(lower))
    bulk = NEAT if band.grade is None else void_fraction_of(band, choices.glass)
    voids = bulk
    if band.grade is not None:
        voids = in_the_mold(bulk, band, choices.glass, wetted.between(lower, upper), volume)
    return FillBand(
        name=band.name,
        lower=lower,
        upper=upper,
        grade=band.grade,
        colour=band.colour if band.grade else None,
        volume=volume,
        void_fraction=voids.value,
        void_low=voids.low,
        void_high=voids.high,
        void_source=voids.source,
        void_in_bucket=bulk.value,
        blend=band.blend,
        glass_mass=volume * (1 - voids.value) * choices.glass.density.value if band.grade else 0.0,
        resin_mass=volume * voids.value * choices.resin.density.value,
    )
