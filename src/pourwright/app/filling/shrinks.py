"""What a fill shrinks by, how far its top sinks, what is planed and sanded off, as part of its document."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from pourwright.app.document.notes import general_cautions
from pourwright.app.filling.look import FillLook
from pourwright.app.filling.shrink_words import notes, warnings
from pourwright.app.setup import Setup
from pourwright.app.shaping.sizes.defaults import DEFAULTS as SIZES
from pourwright.app.shaping.sizes.numbers import (
    Numbers,
    Values,
    ends,
    gels_at,
    likely,
    shop_temperature,
    spread,
)
from pourwright.fill.parts import FillBand
from pourwright.fill.shrinking import FINISH, Contracting, last_poured, liquid_layers, overfill_wanted
from pourwright.foundation.notation import UnitSystem
from pourwright.foundation.progress import Progress
from pourwright.geometry.levels import LevelVolume
from pourwright.jobs.fill_shrinks import BandShrinks, Sanded, Shrinks
from pourwright.physics.permeability import mean_grain
from pourwright.physics.wall_layer import bared_share, skin_over_grains
from pourwright.pour.sink import liquid_loss, sink_depth

SAND_DEPTHS = {
    UnitSystem.METRIC: (0.0003, 0.0005, 0.001, 0.002),
    UnitSystem.US: (0.0254 / 64, 0.0254 / 32, 0.0254 / 16),
}
"""Depths of sanding that are told [m]."""


def shrinks_look(look: FillLook, progress: Progress) -> Shrinks | None:
    """Tell what shrinks, sinks, is planed and sanded.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Shrinks or None
        None for a casting material mixed with water.
    """
    del progress
    setup = look.setup
    if setup is None:
        return None
    told = _told(setup)
    words = list(notes(setup, told))
    return told.model_copy(
        update={"notes": words, "warnings": list(warnings(setup, told)), "cautions": [general_cautions()[3]]}
    )


def _told(setup: Setup) -> Shrinks:
    fill, numbers = setup.fill, shrinking_numbers(setup)
    last = last_poured(fill.bands)
    least, sink, most = sinks(setup, last)
    planing = 0.0 if setup.job.sizes.sand_open_face is not None else FINISH["planing"].value
    face = float(fill.levels.area(fill.levels.top, below=True))
    wanted, density = overfill_wanted(most, planing), setup.resin.density.value
    hours, depths = FINISH["glass_hours"], _depths(setup)
    cover = next((band for band in reversed(fill.bands) if not band.neat), None)
    return Shrinks(
        cure_shrinkage=numbers["cure_shrinkage"].value,
        gel_conversion=numbers["gel_conversion"].value,
        bands=[_band(setup, numbers, band) for band in fill.bands],
        sinks_of=[band.name for band in last],
        sink_m=sink,
        sink_least_m=least,
        sink_most_m=most,
        sink_all_m=sinks(setup, fill.bands)[2],
        face_m2=face,
        planing_m=planing,
        overfill_m=fill.choices.overfill,
        overfill_kg=fill.ledger.overfill,
        wanted_m=wanted,
        wanted_kg=wanted * face * density,
        planed_least_m=wanted - max(most, 0.0),
        planed_most_m=wanted - max(least, 0.0),
        wall_m=setup.mold.rim - setup.piece.frame.height,
        cover_m=None if cover is None else fill.levels.top - cover.upper,
        cover_grain_m=None if cover is None else fill.choices.glass.grade(str(cover.grade)).sieve_to.value,
        sand_depths_m=list(depths),
        sanded=list(_sanded(setup, depths)),
        glass_hours=hours.value,
        glass_hours_low=ends(hours)[0],
        glass_hours_high=ends(hours)[1],
        notes=[],
    )


def shrinking_numbers(setup: Setup) -> Numbers:
    """What shrinking is reckoned from, with ranges and sources.

    Parameters
    ----------
    setup : Setup
        Resin and glass.

    Returns
    -------
    mapping
        By name.
    """
    resin = setup.resin
    return {
        "cure_shrinkage": resin.cure_shrinkage,
        "gel_conversion": resin.cure.gel_conversion,
        "cure_reached": SIZES["cure_reached"],
        "expansion_glass": resin.solid.expansion_glass,
        "touching": SIZES["touching"],
        "gels_at": gels_at(setup.job, resin),
    }


def contracting(setup: Setup, values: Values) -> Contracting:
    """Resin and glass for one set of numbers.

    Parameters
    ----------
    setup : Setup
        Resin, glass and shop.
    values : mapping
        As `shrinking_numbers` names them.

    Returns
    -------
    Contracting
    """
    solid, glass = setup.resin.solid, setup.fill.choices.glass
    return Contracting(
        cure_shrinkage=values["cure_shrinkage"],
        gel_conversion=values["gel_conversion"],
        cure_reached=values["cure_reached"],
        cooling=values["gels_at"] - shop_temperature(setup.job),
        resin_expansion=values["expansion_glass"],
        grain_expansion=glass.expansion.value,
        resin_modulus=solid.modulus.value,
        resin_poisson=solid.poisson_ratio.value,
        grain_modulus=glass.modulus.value,
        grain_poisson=glass.poisson_ratio.value,
        touching=values["touching"],
    )


def _band(setup: Setup, numbers: Numbers, band: FillBand) -> BandShrinks:
    solid = 0.0 if band.neat else 1.0 - band.void_fraction
    stirred = setup.job.fill.method != "over-dry-glass"

    def banded(answer: Callable[[Contracting], float]) -> tuple[float, float, float]:
        return spread(numbers, lambda values: answer(contracting(setup, values)))

    volume = banded(lambda it: it.by_volume(solid))
    length = banded(lambda it: it.stirred_in(solid) if stirred or band.neat else it.as_a_bed(solid))
    gaps = (0.0, 0.0, 0.0) if stirred else banded(lambda it: it.gaps(solid))
    likely_one = contracting(setup, likely(numbers))
    return BandShrinks(
        band=band.name,
        poured="neat" if band.neat else "stirred" if stirred else "bed",
        solid_fraction=solid,
        by_volume=volume[0],
        by_volume_low=volume[1],
        by_volume_high=volume[2],
        before_gel=likely_one.before_gel(solid),
        by_length=length[0],
        by_length_low=length[1],
        by_length_high=length[2],
        stirred_in=likely_one.stirred_in(solid),
        gaps=gaps[0],
        gaps_high=gaps[2],
    )


def sinks(
    setup: Setup, bands: tuple[FillBand, ...], levels: LevelVolume | None = None
) -> tuple[float, float, float]:
    """How far the open face sinks until it gels, where these bands are poured together [m].

    Parameters
    ----------
    setup : Setup
        Fill and resin.
    bands : tuple of FillBand
        The topmost ones, from below.
    levels : LevelVolume, optional
        V(z) of another body than the piece.

    Returns
    -------
    tuple of float
        Least (the family's least shrinkage, gelled as warm as may be), likely, most (its greatest
        shrinkage, gelled no warmer than poured); below 0 where warmth swells it more.
    """
    thickness, liquid = liquid_layers(bands, levels or setup.fill.levels)
    shrinks, warm = setup.resin.cure_shrinkage, gels_at(setup.job, setup.resin)
    start = setup.job.casting.start_temperature
    poured = shop_temperature(setup.job) if start is None else start.si
    cases = (
        (ends(shrinks)[0], max(ends(warm)[1] - poured, 0.0)),
        (shrinks.value, max(warm.value - poured, 0.0)),
        (ends(shrinks)[1], 0.0),
    )
    least, likely_one, most = (
        sink_depth(thickness, liquid, _lost(setup, liquid.sum(), shrinkage, warming))
        for shrinkage, warming in cases
    )
    return least, likely_one, most


def _lost(setup: Setup, liquid: float, shrinkage: float, warming: float) -> float:
    return liquid_loss(
        np.array([liquid]),
        np.array([warming]),
        gel_conversion=setup.resin.cure.gel_conversion.value,
        cure_shrinkage=shrinkage,
        expansion=setup.resin.solid.expansion_soft.value,
    )


def _depths(setup: Setup) -> tuple[float, ...]:
    """Usual depths of sanding, and those of the job."""
    sizes = setup.job.sizes
    own = [depth.si for depth in (sizes.sand_sides, sizes.sand_floor) if depth is not None and depth.si > 0.0]
    return tuple(sorted({*SAND_DEPTHS[setup.system], *own}))


def _sanded(setup: Setup, depths: tuple[float, ...]) -> Iterator[Sanded]:
    glass = setup.fill.choices.glass
    for name in dict.fromkeys(band.grade for band in setup.fill.bands if band.grade):
        grade = glass.grade(name)
        grain = mean_grain(grade.sieve_from.value, grade.sieve_to.value)
        yield Sanded(
            grade=name,
            grain_m=grain,
            skin_m=skin_over_grains(grain),
            glass_shares=[float(bared_share(depth, grain)) for depth in depths],
        )
