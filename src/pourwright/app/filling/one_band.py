"""Both ways of filling one band."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite

from pourwright.app.filling.ways_reason import reason
from pourwright.app.setup import Setup, tools
from pourwright.fill import FillBand
from pourwright.fill.ways.choice import Choice, Strain, choose, sinking_borne, strain
from pourwright.fill.ways.defaults import WAYS
from pourwright.fill.ways.dry_air import AirLeft, DryBed, air_in_dry_bed
from pourwright.fill.ways.low_point import tube_fill
from pourwright.fill.ways.stirred import Mix, glass_that_goes_in
from pourwright.fill.ways.work import Work, dry_work, stirred_work
from pourwright.jobs.fill_ways import BandWays, DryWay, StirredWay
from pourwright.materials.batches import MIXING_TIME
from pourwright.physics.infiltration import reached_after
from pourwright.physics.permeability import mean_grain
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.pour.site import Site
from pourwright.pour.soaking import AIR, Front, front, smallest_bubble

HOUR = 3600.0
MINUTE = 60.0
SURE = 1.0
"""Margin of the front that is enough: its law is known within a factor of two."""
SHOWN = 13
"""Points of the front's way down that are written down."""


@dataclass(frozen=True)
class Filled:
    """One band with all that both ways need.

    Parameters
    ----------
    setup : Setup
        The job.
    band : FillBand
        With glass.
    down : Front
        Through it, dry.
    bubbles : float
        Smallest loose bubble that comes up in resin alone [m].
    """

    setup: Setup
    band: FillBand
    down: Front
    bubbles: float

    @property
    def depth(self) -> float:
        """Of the band [m]."""
        return self.band.upper - self.band.lower

    @property
    def grain(self) -> float:
        """Mean size of its grains by surface [m]."""
        grade = self.setup.fill.choices.glass.grade(self.band.grade or "")
        return mean_grain(grade.sieve_from.value, grade.sieve_to.value)

    @property
    def largest(self) -> float:
        """Largest grain [m]."""
        return self.setup.fill.choices.glass.grade(self.band.grade or "").sieve_to.value

    @property
    def resin(self) -> float:
        """Density of the resin [kg/m3]."""
        return self.setup.resin.density.value

    @property
    def bed(self) -> DryBed:
        """The band as a dry bed."""
        return DryBed(
            self.depth,
            self.band.void_fraction,
            POUR["sphericity"].value * self.grain,
            self.down.layers[0].permeability,
            self.resin - AIR,
            POUR["surface_tension"].value,
        )

    @property
    def mix(self) -> Mix:
        """The band as a mix, with as much glass as goes in."""
        flows, packed = self.down.flows, 1.0 - self.band.void_fraction
        ready = MIXING_TIME.value + WAYS["stirring_time"].value
        share = glass_that_goes_in(flows.viscosity_at(ready), packed)
        glass = self.setup.fill.choices.glass.density.value
        return Mix(self.depth, packed, share, self.grain, self.resin, glass, AIR, flows.until_gel)


def told_band(setup: Setup, at: Site, band: FillBand, start: float) -> BandWays:
    """Reckon both ways for one band.

    Parameters
    ----------
    setup : Setup
        The job.
    at : Site
        Its mold on the bench.
    band : FillBand
        With glass.
    start : float
        When it is poured [s after the climate's zero].

    Returns
    -------
    BandWays
    """
    down = front(at, band.lower, band.upper, start)
    assert down is not None  # a band of glass knows its grain
    filled = Filled(setup, band, down, smallest_bubble(at, band.lower, band.upper, start))
    dry, strain_dry = _dry(filled)
    stirred, strain_stirred = _stirred(filled)
    choice = choose(strain_dry, strain_stirred)
    return BandWays(
        band=band.name,
        grade=band.grade or "",
        depth_m=filled.depth,
        voids=band.void_fraction,
        dry=dry,
        stirred=stirred,
        recommended=choice.way,
        good=choice.good,
        reason=reason(choice, dry, stirred, setup.system),
        **_curve(down),
    )


def _curve(down: Front) -> dict[str, list[float]]:
    """The front's way down, as far as it comes."""
    end = down.depth_at(down.flows.limit)
    depths = [end * number / (SHOWN - 1) for number in range(SHOWN)]
    return {"front_h": [down.after(depth) / HOUR for depth in depths], "front_m": depths}


def _dry(filled: Filled) -> tuple[DryWay, tuple[Strain, ...]]:
    down, band, setup = filled.down, filled.band, filled.setup
    flows, needed = down.flows, float(down.needed[-1])
    after, margin = down.after(filled.depth), flows.until(flows.limit) / needed - 1.0
    air = air_in_dry_bed(filled.bed, down.depth_at(flows.limit), max(flows.until_gel - needed, 0.0))
    mixed = setup.fill.resin_between(band.lower, band.upper).total
    work = dry_work(band.glass_mass, setup.batches(mixed))
    strains = (
        strain("air", air.total, WAYS["bears_air"].value),
        strain("time", 1.0 + SURE, max(1.0 + margin, 1e-9)),
    )
    return _dry_way(filled, after, margin, air, work, mixed, strains), strains


def _dry_way(
    filled: Filled,
    after: float,
    margin: float,
    air: AirLeft,
    work: Work,
    mixed: float,
    strains: tuple[Strain, ...],
) -> DryWay:
    limit, tube = filled.down.flows.limit, _tube(filled)
    worst = max(strains, key=lambda each: each.ratio)
    return DryWay(
        down_after_h=after / HOUR if after <= limit else None,
        limit_h=limit / HOUR,
        margin=margin,
        air=air.total,
        air_dry=air.dry,
        air_held=air.held,
        air_late=air.late,
        bubbles_from_m=filled.bubbles,
        glass_kg=filled.band.glass_mass,
        resin_kg=mixed,
        batches=work.batches,
        work_h=work.time / HOUR,
        tube_h=None if tube is None else tube[0] / HOUR,
        tube_kg_per_min=None if tube is None else tube[1] * MINUTE,
        strain=worst.ratio,
        strained_by=worst.what,
    )


def _tube(filled: Filled) -> tuple[float, float] | None:
    """Time [s] and rate [kg/s] of filling from one low point; None where it is too thick before."""
    band, flows = filled.band, filled.down.flows
    bed = filled.bed
    tube = tube_fill(band.volume, filled.depth, bed.voids, bed.permeability, filled.resin)
    ends = reached_after(tube.needed, flows.times, flows.fluidity)
    if ends > flows.limit:
        return None
    takes = ends - MIXING_TIME.value
    return ends, tube.volume * filled.resin / takes


def _stirred(filled: Filled) -> tuple[StirredWay, tuple[Strain, ...]]:
    setup, band, mix = filled.setup, filled.band, filled.mix
    choices, limit = setup.fill.choices, _limit(filled)
    glass = band.volume * mix.glass_share * mix.glass
    more = band.volume * (1.0 - mix.glass_share - band.void_fraction) * mix.resin
    more *= (1.0 + choices.allowance) / (1.0 - choices.bucket_loss)
    mixed = setup.fill.resin_between(band.lower, band.upper).total + more
    volume = mixed / mix.resin + glass / mix.glass
    work = stirred_work(glass, volume, setup.batches(mixed), limit, tools(setup.job))
    strains = _stirred_strains(filled, mix, work, limit)
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


def _stirred_strains(filled: Filled, mix: Mix, work: Work, limit: float) -> tuple[Strain, ...]:
    if mix.glass_share <= 0.0:
        return (strain("time", inf, limit),)
    return (
        strain("air", mix.air_left, WAYS["bears_air"].value),
        strain("time", work.batch_time, limit),
        strain("sinking", mix.sinks, sinking_borne(filled.largest)),
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


__all__ = ["Choice", "Filled", "told_band"]
