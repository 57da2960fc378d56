"""What is not known exactly, number by number, as a part of the plan document."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.doubting import BAND, CastingDoubt
from pourwright.app.setup import Setup
from pourwright.calibration import NORMAL_P90, PARAMETERS, find_prior, unstretched
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.foundation.sources import Kind
from pourwright.jobs.plan_chances import Doubtful

FITTED = "fitted"


def doubt_parts(setup: Setup, doubt: CastingDoubt) -> list[Doubtful]:
    """Write every number that is in doubt, with its band.

    Parameters
    ----------
    setup : Setup
        The job.
    doubt : CastingDoubt
        What is not known exactly.

    Returns
    -------
    list of Doubtful
        Resin, films, voids, shop, mix.
    """
    return [*_of_resin(doubt), *_of_voids(setup, doubt), *_of_shop(doubt)]


def _of_resin(doubt: CastingDoubt) -> Iterator[Doubtful]:
    numbers = find_prior(doubt.resin.family).numbers
    for place, parameter in enumerate(PARAMETERS):
        width = NORMAL_P90 * doubt.scale * doubt.resin.covariance[place][place] ** 0.5
        middle = doubt.resin.mean[place]
        low, value, high = (unstretched(parameter.name, middle + by) for by in (-width, 0.0, width))
        number = numbers[parameter.name]
        yield Doubtful(
            name=parameter.name,
            words=parameter.words,
            unit=number.unit,
            value=value,
            value_p10=low,
            value_p90=high,
            kind=FITTED if doubt.origin == "fit" else number.kind.value,
        )


def _of_voids(setup: Setup, doubt: CastingDoubt) -> Iterator[Doubtful]:
    for number, (band, deviation) in enumerate(zip(setup.fill.bands, doubt.voids, strict=True), 1):
        if deviation > 0.0:
            half = deviation * BAND / 2.0
            yield Doubtful(
                name=f"voids_{number}",
                words=f"how much of band {number} is left to the resin",
                unit="",
                value=band.void_fraction,
                value_p10=band.void_fraction - half,
                value_p90=band.void_fraction + half,
                kind=band.void_source.partition(":")[0],
            )


def _of_shop(doubt: CastingDoubt) -> Iterator[Doubtful]:
    site = doubt.likely
    shop = site.climate.mean - ZERO_CELSIUS
    half = NORMAL_P90 * doubt.shop
    own = site.resin_temperature
    mixed = shop if own is None else own - ZERO_CELSIUS
    yield Doubtful(
        name="shop", words="the shop's temperature, on average", unit="degC", value=shop,
        value_p10=shop - half, value_p90=shop + half, kind=Kind.PRACTICE.value,
    )  # fmt: skip
    half = NORMAL_P90 * doubt.mixed
    yield Doubtful(
        name="mixed", words="how warm the resin is mixed", unit="degC", value=mixed,
        value_p10=mixed - half, value_p90=mixed + half, kind=Kind.PRACTICE.value,
    )  # fmt: skip
