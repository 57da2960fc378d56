"""Glass stirred into resin, for one band."""

from __future__ import annotations

from math import inf, isfinite

from pourwright.app.filling.filled_band import Filled
from pourwright.app.setup import Setup, tools
from pourwright.fill.ways.choice import Strain, sinking_borne, strain
from pourwright.fill.ways.defaults import WAYS
from pourwright.fill.ways.stirred import Mix
from pourwright.fill.ways.work import Work, stirred_work
from pourwright.jobs.fill_ways import StirredWay
from pourwright.materials.batches import MIXING_TIME
from pourwright.pour.defaults import DEFAULTS as POUR

HOUR = 3600.0


def stirred_way(filled: Filled) -> tuple[StirredWay, tuple[Strain, ...]]:
    """Reckon glass stirred in, as much as goes in by hand.

    Parameters
    ----------
    filled : Filled
        The band.

    Returns
    -------
    StirredWay
        As told.
    tuple of Strain
        What strains it.
    """
    setup, band, mix = filled.setup, filled.band, filled.mix
    choices, limit = setup.fill.choices, _limit(filled)
    glass = band.volume * mix.glass_share * mix.glass
    more = band.volume * (1.0 - mix.glass_share - band.void_fraction) * mix.resin
    more *= (1.0 + choices.allowance) / (1.0 - choices.bucket_loss)
    mixed = setup.fill.resin_between(band.lower, band.upper).total + more
    volume = mixed / mix.resin + glass / mix.glass
    work = stirred_work(glass, volume, setup.batches(mixed), limit, tools(setup.job))
    strains = _strains(filled, mix, work, limit)
    worst = max(strains, key=lambda each: each.ratio)
    thick = filled.down.flows.viscosity_at(MIXING_TIME.value + WAYS["stirring_time"].value)
    way = StirredWay(
        possible=mix.glass_share > 0.0,
        glass_share=mix.glass_share,
        viscosity_Pa_s=thick if isfinite(thick) else None,
        glass_kg=glass,
        resin_kg=mixed,
        more_resin_kg=more,
        costs_more=_costs_more(setup, more, glass - band.glass_mass),
        air=mix.air_left,
        bubbles_from_m=mix.bubbles_from,
        sinks_m=mix.sinks,
        to_a_bed=mix.falls >= mix.clear_at_most,
        batches=work.batches,
        batch_h=work.batch_time / HOUR,
        batch_limit_h=limit / HOUR,
        work_h=work.time / HOUR,
        strain=worst.ratio,
        strained_by=worst.what,
    )
    return way, strains


def _strains(filled: Filled, mix: Mix, work: Work, limit: float) -> tuple[Strain, ...]:
    if mix.glass_share <= 0.0:
        return (strain("time", inf, limit),)
    return (
        strain("air", mix.air_left, WAYS["bears_air"].value),
        strain("time", work.batch_time, limit),
        strain("sinking", mix.sinks, sinking_borne(filled.depth, filled.largest)),
    )


def _limit(filled: Filled) -> float:
    """When a batch with glass in it must be in the mold [s] from mixing."""
    resin = filled.setup.resin
    return min(0.5 * resin.pot_life.value, POUR["pail_time"].value, filled.down.flows.limit)


def _costs_more(setup: Setup, resin: float, glass: float) -> float | None:
    prices = setup.job.prices
    if prices is None or prices.resin is None:
        return None
    per_glass = 0.0 if prices.glass is None else prices.glass.si
    return resin * prices.resin.si + glass * per_glass
