"""Void fraction of a band: measured in the shop's bucket, stated, or the grade's range."""

from __future__ import annotations

from pourwright.fill.choices import BandChoice, BucketTest
from pourwright.fill.defaults import DEFAULTS, HIGHEST_VOID, LOWEST_UNTESTED_VOID, LOWEST_VOID
from pourwright.fill.parts import Voids
from pourwright.foundation.errors import UserError
from pourwright.materials.records import Glass
from pourwright.physics.packing import void_content

WATER = 998.0


def void_fraction_of(band: BandChoice, glass: Glass) -> Voids:
    """Choose the void fraction of a glass band.

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
        return _measured(band.bucket_test, glass, band.where)
    if band.void_fraction is not None:
        return _stated(band.void_fraction, band.where)
    record = glass.grade(band.grade or "").void_fraction
    low = record.value if record.low is None else record.low
    high = record.value if record.high is None else record.high
    return Voids(record.value, low, high, f"{record.kind}: {record.source}")


def _measured(test: BucketTest, glass: Glass, where: str) -> Voids:
    bulk = test.mass / test.volume
    if not LOWEST_VOID <= 1 - bulk / glass.density.value <= HIGHEST_VOID:
        raise UserError(
            f"the bucket test gives a bulk density of {bulk:.0f} kg/m3",
            where=where,
            allowed=f"{(1 - HIGHEST_VOID) * glass.density.value:.0f} to "
            f"{(1 - LOWEST_VOID) * glass.density.value:.0f} kg/m3",
            todo="weigh the glass without the bucket and measure the bucket's volume with water",
        )
    value = float(void_content(bulk, glass.density.value / WATER, water_density=WATER))
    error = DEFAULTS["bucket_test_error"].value
    return Voids(value, value - error, value + error, "measured here: bucket test")


def _stated(value: float, where: str) -> Voids:
    if not LOWEST_UNTESTED_VOID <= value <= HIGHEST_VOID:
        raise UserError(
            f"a void fraction of {value:g}",
            where=where,
            allowed=f"{LOWEST_UNTESTED_VOID:.2f} to {HIGHEST_VOID:.2f} without a bucket test",
            todo="fill a bucket of known volume with dry glass, weigh it, and write bucket_test",
        )
    error = DEFAULTS["stated_error"].value
    return Voids(value, value - error, value + error, "stated in the job, not measured")
