"""Gypsum or concrete of a job, as part of the fill's document."""

from __future__ import annotations

from typing import Any

from pourwright.app.filling.look import FillLook
from pourwright.app.filling.mineral_words import mineral_cautions, mineral_warnings, mixing_steps
from pourwright.app.mineral_mix import aggregate_grade
from pourwright.app.setup import ANY_DAY, climate, tools
from pourwright.fill.drying import Drying, drying
from pourwright.fill.mineral_batches import MineralBatches, split
from pourwright.fill.setting import Setting, at_temperature, setting_of
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.foundation.progress import Progress
from pourwright.foundation.sources import Sourced
from pourwright.jobs.fill_mineral import Dries, Mineral, MineralBatchStep
from pourwright.materials import Mineral as Record
from pourwright.physics.fresh_concrete import lateral_pressure
from pourwright.physics.plaster import WATER_DENSITY

DAY, HOUR = 86400.0, 3600.0
UNKNOWN = "its record does not say what sets in it (binder), with how much heat, and when"
BINDER = "not known: its record does not say what sets in it (binder)"
HOW = (
    "a wet face gives what still air of this temperature and humidity takes; then water leaves the inside "
    "as heat does, in the square of the thickness. Soonest: the slower of the two from the mean depth; "
    "latest: one after the other, as a block of the outer sizes. A fan or a dry warm room halves the first "
    "part"
)
KNOW = "weigh it every few days: dry is when two weighings a day apart differ by less than a thousandth"


def mineral_look(look: FillLook, progress: Progress) -> Mineral | None:
    """Tell all about a casting material mixed with water.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Mineral or None
        None for a resin.
    """
    del progress
    record, mix = look.casting, look.mix
    if mix is None or not isinstance(record, Record):
        return None
    made, set_ = _batches(look, record), _setting(look, record)
    return Mineral(
        name=record.name,
        binder=record.binder,  # type: ignore[arg-type]  # its record allows no other
        water_ratio=mix.water_ratio,
        water_ratio_from="record" if look.job.fill.water_ratio is None else "job",
        mixed_kg=mix.mixed,
        allowance=mix.mixed / mix.wet_mass - 1,
        wet_density_kg_m3=mix.wet_density,
        wet_kg=mix.wet_mass,
        dry_kg=mix.piece_mass,
        pressure_kPa=lateral_pressure(mix.wet_density, look.piece.frame.height) / 1e3,
        change_mm_per_m=-1e3 * record.setting_shrinkage.value,
        change_mm=-1e3 * record.setting_shrinkage.value * max(look.piece.size),
        drying=_dries(look, record),
        steps=mixing_steps(look, record, made),
        warnings=list(mineral_warnings(look, record, made, set_)),
        cautions=list(mineral_cautions(look, record)),
        **_masses(look, record),
        **_times(look, record),
        **_heat(look, set_),
        **_split(made),
    )


def _masses(look: FillLook, record: Record) -> dict[str, Any]:
    mix, job = look.mix, look.job
    assert mix is not None
    sand = mix.powder - mix.binder
    mixed = record.binder == "cement" and mix.binder > 0.0
    glass = look.materials.find("glass", job.fill.glass, job.where("fill.glass"))
    return {
        "powder_kg": mix.powder,
        "water_kg": mix.water,
        "aggregate_kg": mix.aggregate,
        "aggregate_share": job.fill.aggregate or 0.0,
        "aggregate_grade": aggregate_grade(job, glass).id if mix.aggregate else None,
        "cement_kg": mix.binder if mixed else None,
        "sand_kg": sand if mixed else None,
    }


def _times(look: FillLook, record: Record) -> dict[str, Any]:
    shop = climate(look.job, ANY_DAY).mean

    def hours(time: Sourced | None) -> float | None:
        if time is None or not record.binder:
            return None
        return roughly(at_temperature(time.value, record.binder, shop)) / HOUR

    return {
        "working_h": hours(record.working_time),
        "setting_h": hours(record.setting_time),
        "demold_h": hours(record.demold_time),
        "times_at_degC": shop - ZERO_CELSIUS,
    }


def roughly(time: float) -> float:
    """Round a time to what is known of it.

    Parameters
    ----------
    time : float
        [s]

    Returns
    -------
    float
        To a minute, five minutes, half an hour or an hour [s].

    Examples
    --------
    >>> roughly(2490.0) / 60, roughly(78000.0) / 3600
    (40.0, 22.0)
    """
    steps = ((HOUR / 4, 60.0), (3 * HOUR, 300.0), (12 * HOUR, HOUR / 2), (float("inf"), HOUR))
    step = next(step for most, step in steps if time < most)
    return max(round(time / step) * step, step)


def days_told(soonest: float, latest: float) -> str:
    """Say how long it dries, in days or weeks.

    Parameters
    ----------
    soonest, latest : float
        [days]

    Returns
    -------
    str

    Examples
    --------
    >>> days_told(3.2, 9.7), days_told(11.2, 64.8), days_told(76.0, 398.0)
    ('3 to 10 days', '2 to 9 weeks', '2 to 13 months')
    """
    longest = ((21.0, 1.0, "days"), (120.0, 7.0, "weeks"), (float("inf"), 30.4, "months"))
    unit, name = next((unit, name) for most, unit, name in longest if latest <= most)
    low, high = max(round(soonest / unit), 1), max(round(latest / unit), 2)
    return f"{low} to {high} {name}" if low < high else f"some {high} {name}"


def _setting(look: FillLook, record: Record) -> Setting | None:
    assert look.mix is not None
    glass = look.materials.find("glass", look.job.fill.glass, look.job.where("fill.glass"))
    return setting_of(record, look.mix, glass)


def _heat(look: FillLook, found: Setting | None) -> dict[str, Any]:
    if found is None:
        return {"heat_MJ": None, "adiabatic_rise_K": None, "heat_reason": UNKNOWN}
    assert look.mix is not None
    heat = found.heat * look.mix.volume / 1e6
    return {"heat_MJ": heat, "adiabatic_rise_K": found.rise, "heat_run": look.heat}


def _batches(look: FillLook, record: Record) -> MineralBatches | None:
    if record.working_time is None or not record.binder:
        return None
    assert look.mix is not None
    time = at_temperature(record.working_time.value, record.binder, climate(look.job, ANY_DAY).warmest)
    return split(look.mix, record.binder, time, tools(look.job))


def _split(made: MineralBatches | None) -> dict[str, Any]:
    if made is None:
        return {"most_kg": None, "most_by": None, "batches": []}
    steps = [
        MineralBatchStep(
            number=each.number,
            water_kg=each.water,
            powder_kg=each.powder,
            aggregate_kg=each.aggregate,
            in_after_h=each.in_after / HOUR,
        )
        for each in made.each
    ]
    return {"most_kg": made.most, "most_by": made.by, "batches": steps}


def _dries(look: FillLook, record: Record) -> Dries:
    mix, shop = look.mix, climate(look.job, ANY_DAY)
    assert mix is not None
    solid = look.piece.solid if look.hollow is None else look.hollow.solid
    found = Drying(mix.dries_out, None, None, 0.0)
    if record.binder:
        x, y, z = look.piece.size
        air = (shop.mean, look.job.shop.humidity)
        # round a core that stays no water gets out
        bare = look.piece.solid.area if look.hollow is not None and look.hollow.stays else solid.area
        found = drying(mix.dries_out, solid.volume, bare, (x, y, z), record.binder, air)
    never = "air so damp takes no water" if record.binder else BINDER
    return Dries(
        water_kg=found.water,
        water_m3=found.water / WATER_DENSITY,
        first_day_kg=found.first_day,
        soonest_days=None if found.soonest is None else found.soonest / DAY,
        latest_days=None if found.latest is None else found.latest / DAY,
        text=never if found.soonest is None else days_told(found.soonest / DAY, (found.latest or 0.0) / DAY),
        reason=never if found.soonest is None else None,
        air_degC=shop.mean - ZERO_CELSIUS,
        humidity=look.job.shop.humidity,
        how=HOW,
        know=KNOW,
    )
