"""Resin over dry glass, for one band."""

from __future__ import annotations

from pourwright.app.filling.filled_band import Filled
from pourwright.fill.ways.choice import Strain, strain
from pourwright.fill.ways.defaults import WAYS
from pourwright.fill.ways.dry_air import AirLeft, air_in_dry_bed
from pourwright.fill.ways.low_point import tube_fill
from pourwright.fill.ways.work import Work, dry_work
from pourwright.jobs.fill_ways import DryWay
from pourwright.materials.batches import HANDLING_RATE, MIXING_TIME
from pourwright.physics.infiltration import reached_after

HOUR = 3600.0
MINUTE = 60.0
SURE = 1.0
"""Margin of the front that is enough: its law is known within a factor of two."""


def dry_way(filled: Filled) -> tuple[DryWay, tuple[Strain, ...]]:
    """Reckon resin over dry glass.

    Parameters
    ----------
    filled : Filled
        The band.

    Returns
    -------
    DryWay
        As told.
    tuple of Strain
        What strains it.
    """
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
    return _told(filled, after, margin, air, work, mixed, strains), strains


def _told(
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
    mass = tube.volume * filled.resin
    takes = max(ends - MIXING_TIME.value, mass / HANDLING_RATE.value)
    return MIXING_TIME.value + takes, mass / takes
