"""Void fraction of a band: measured in the shop's bucket, stated, or the grade's range; looser at walls."""

from __future__ import annotations

from math import pi

from pourwright.fill.choices import BandChoice, BucketTest
from pourwright.fill.defaults import DEFAULTS, HIGHEST_VOID, LOWEST_UNTESTED_VOID, LOWEST_VOID
from pourwright.fill.parts import Voids
from pourwright.foundation.errors import UserError
from pourwright.materials.records import Glass, Grade
from pourwright.physics.packing import void_content
from pourwright.physics.permeability import mean_grain
from pourwright.physics.wall_layer import disturbed_share, looser_at_walls

WATER = 998.0


def void_fraction_of(band: BandChoice, glass: Glass) -> Voids:
    """Choose the void fraction of a glass band, as a bucket of it has.

    Parameters
    ----------
    band : BandChoice
        With a grade; a bucket test wins over a stated value, that over the grade's record.
    glass : Glass
        For the density of the grains and the grade's record.

    Returns
    -------
    Voids
        Value and band [-].

    Raises
    ------
    UserError
        Outside 0.2 to 0.7, or below 0.40 without a bucket test.
    """
    if band.bucket_test is not None:
        return _measured(band.bucket_test, glass, band)
    if band.void_fraction is not None:
        return _stated(band.void_fraction, band)
    grade = glass.grade(band.grade or "")
    return _tapped(grade, blended=bool(band.blend)) if band.tapped else _recorded(grade)


def in_the_mold(voids: Voids, band: BandChoice, glass: Glass, area: float, volume: float) -> Voids:
    """Carry a void fraction from its bucket into the mold, whose walls are others.

    Parameters
    ----------
    voids : Voids
        As a bucket has it.
    band : BandChoice
        Its grade, and the bucket's volume where one was measured.
    glass : Glass
        The record.
    area : float
        Of the mold's walls along the band [m2].
    volume : float
        Of the band [m3].

    Returns
    -------
    Voids
        Looser where the mold is narrower than the bucket, closer where it is wider.
    """
    grade = glass.grade(band.grade or "")
    grain = mean_grain(grade.sieve_from.value, grade.sieve_to.value)
    bucket = DEFAULTS["reference_bucket"].value if band.bucket_test is None else band.bucket_test.volume
    there = looser_at_walls(0.5, disturbed_share(bucket_walls(bucket), bucket, grain))
    here = looser_at_walls(0.5, disturbed_share(area, volume, grain))
    low, value, high = (
        min(1.0 - (1.0 - void) * here / there, HIGHEST_VOID) for void in (voids.low, voids.value, voids.high)
    )
    return Voids(value, low, high, voids.source)


def bucket_walls(volume: float) -> float:
    """Wall and floor of a bucket as high as it is wide [m2]."""
    width = (4.0 * volume / pi) ** (1.0 / 3.0)
    return float(pi * width**2 * 1.25)


def _recorded(grade: Grade) -> Voids:
    record = grade.void_fraction
    low = record.value if record.low is None else record.low
    high = record.value if record.high is None else record.high
    return Voids(record.value, low, high, f"{record.kind}: {record.source}")


def _tapped(grade: Grade, *, blended: bool) -> Voids:
    """One grade tapped down; a mixture gets closer by as much."""
    tapped = DEFAULTS["tapped"]
    assert tapped.low is not None  # the table gives both ends
    assert tapped.high is not None
    source = f"{tapped.kind}: {tapped.source}, tapped"
    if not blended:
        return Voids(tapped.value, tapped.low, tapped.high, source)
    poured = _recorded(grade)
    closer = (1.0 - tapped.value) / (1.0 - DEFAULTS["void_fraction"].value)
    low, value, high = (
        max(1.0 - (1.0 - each) * closer, LOWEST_VOID) for each in (poured.low, poured.value, poured.high)
    )
    return Voids(value, low, high, source)


def _measured(test: BucketTest, glass: Glass, band: BandChoice) -> Voids:
    if test.mass is None:
        assert test.water is not None  # one of the two was measured
        value, error = test.water / test.volume, DEFAULTS["water_test_error"].value
        return _within(value, error, band, "measured here: bucket filled up with water")
    bulk = test.mass / test.volume
    if not LOWEST_VOID <= 1 - bulk / glass.density.value <= HIGHEST_VOID:
        raise UserError(
            f"the bucket test gives a bulk density of {bulk:.0f} kg/m3",
            where=band.where,
            allowed=f"{(1 - HIGHEST_VOID) * glass.density.value:.0f} to "
            f"{(1 - LOWEST_VOID) * glass.density.value:.0f} kg/m3",
            todo="weigh the glass without the bucket and measure the bucket's volume with water",
        )
    value = float(void_content(bulk, glass.density.value / WATER, water_density=WATER))
    return _within(value, DEFAULTS["bucket_test_error"].value, band, "measured here: bucket test")


def _within(value: float, error: float, band: BandChoice, source: str) -> Voids:
    if not LOWEST_VOID <= value <= HIGHEST_VOID:
        raise UserError(
            f"the bucket test gives a void fraction of {value:.2f}",
            where=band.where,
            allowed=f"{LOWEST_VOID:.2f} to {HIGHEST_VOID:.2f}",
            todo="measure the bucket's volume with water, then the water that it takes up full of dry glass",
        )
    return Voids(value, value - error, value + error, source)


def _stated(value: float, band: BandChoice) -> Voids:
    if not LOWEST_UNTESTED_VOID <= value <= HIGHEST_VOID:
        raise UserError(
            f"a void fraction of {value:g}",
            where=band.where,
            allowed=f"{LOWEST_UNTESTED_VOID:.2f} to {HIGHEST_VOID:.2f} without a bucket test",
            todo="fill a bucket of known volume with dry glass, weigh it, and write bucket_test",
        )
    error = DEFAULTS["stated_error"].value
    return Voids(value, value - error, value + error, "stated in the job, not measured")
