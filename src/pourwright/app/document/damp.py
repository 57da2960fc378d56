"""Dew by the hour, and what it means for each pour, as parts of the plan document."""

from __future__ import annotations

from math import isnan

from pourwright.app.document.moments import iso
from pourwright.app.setup import Setup
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_moment,
    format_share,
    format_temperature,
    format_temperature_difference,
)
from pourwright.jobs import plan_soft as plan
from pourwright.pour.climate import Climate
from pourwright.pour.damp import DAY, HOUR, Damp, Hours, PourDamp
from pourwright.pour.defaults import DEFAULTS

RULES = "ISO 8502-4 and ISO 12944-7 for paint on steel, as quoted on secondary pages"


def damp_part(setup: Setup, found: Damp, starts: list[float]) -> plan.Damp:
    """Write the damp of a plan.

    Parameters
    ----------
    setup : Setup
        For the units.
    found : Damp
        As reckoned.
    starts : list of float
        Of the pours [s].

    Returns
    -------
    plan_soft.Damp
        Hours counted from the start of the first pour.
    """
    air = found.air
    return plan.Damp(
        dew_point_degC=air.dew - ZERO_CELSIUS,
        humidity_given=air.share,
        given_at_degC=air.climate.warmest - ZERO_CELSIUS,
        highest_humidity=max(found.hours.humidity),
        margin_K=DEFAULTS["dew_margin"].value,
        most_humidity=DEFAULTS["damp_air"].value,
        hours=_hours(found.hours, starts[0]),
        pours=[
            _pour(setup, air.climate, number, start, each, last=number == len(starts))
            for number, (start, each) in enumerate(zip(starts, found.pours, strict=True), 1)
        ],
        text=_air_words(setup, found),
    )


def _hours(hours: Hours, first: float) -> plan.DampHours:
    def celsius(values: tuple[float, ...]) -> list[float]:
        return [round(value - ZERO_CELSIUS, 2) for value in values]

    return plan.DampHours(
        time_h=[round((time - first) / HOUR, 4) for time in hours.time],
        air_degC=celsius(hours.air),
        humidity=[round(share, 4) for share in hours.humidity],
        mold_degC=celsius(hours.mold),
        top_degC=[None if isnan(value) else round(value - ZERO_CELSIUS, 2) for value in hours.top],
        too_close=list(hours.too_close),
    )


def _pour(
    setup: Setup, climate: Climate, number: int, start: float, each: PourDamp, *, last: bool
) -> plan.PourDamp:
    return plan.PourDamp(
        number=number,
        surface_degC=each.surface - ZERO_CELSIUS,
        humidity=each.humidity,
        dry=each.dry,
        dry_from=iso(climate.moment(each.dry_from)) if each.dry else None,
        dry_until=iso(climate.moment(each.dry_until)) if each.dry else None,
        warm_to_degC=each.warm_to - ZERO_CELSIUS,
        dry_below=each.dry_below,
        damp_h=each.damp_hours / HOUR,
        blushes=each.blushes,
        text=_pour_words(setup, climate, number, start, each),
        wash=_wash_words(each, last=last),
    )


def _air_words(setup: Setup, found: Damp) -> str:
    system, air = setup.system, found.air
    warm, dew = (format_temperature(value, system) for value in (air.climate.warmest, air.dew))
    margin = format_temperature_difference(DEFAULTS["dew_margin"].value, system)
    text = f"Air of {warm} and {format_share(air.share)} humidity has its dew point at {dew}."
    coolest = min(air.climate.hourly)
    if coolest < air.climate.warmest:
        night = format_share(max(found.hours.humidity))
        cool = format_temperature(coolest, system)
        text += f" Its water stays in it while it cools, so at {cool} by night it has {night}."
    return (
        f"{text} Mold, glass and tops stay {margin} above the dew point, and the air below "
        f"{format_share(DEFAULTS['damp_air'].value)} ({RULES})."
    )


def _pour_words(setup: Setup, climate: Climate, number: int, start: float, each: PourDamp) -> str:
    if not each.dry:
        return f"Pour {number}: too damp at its start. {_remedy(setup, each)}"
    margin = each.surface - each.warm_to + DEFAULTS["dew_margin"].value
    above = format_temperature_difference(margin, setup.system, digits=1)
    when = _dry_words(setup, climate, start, each)
    return f"Pour {number}: dry enough {when}; at its start {above} above the dew point."


def _dry_words(setup: Setup, climate: Climate, start: float, each: PourDamp) -> str:
    if each.dry_until - each.dry_from >= 2 * DAY - HOUR:
        return "all day before and after its start"
    begin, end = (
        format_moment(climate.moment(time), setup.system) for time in (each.dry_from, each.dry_until)
    )
    if each.dry_from < start:
        return f"from {begin} to {end}"
    return f"from its start to {end}" if each.dry_until > start else "at its start, not an hour later"


def _remedy(setup: Setup, each: PourDamp) -> str:
    dry = f"dry the air below {format_share(max(each.dry_below - 0.005, 0.0))}, read while the shop is warm"
    if each.humidity > DEFAULTS["damp_air"].value:
        return f"The air itself has {format_share(each.humidity)}: {dry}, before you pour."
    warm = format_temperature(each.warm_to + 0.5, setup.system)
    return f"Warm mold and glass to {warm}, or {dry}, before you pour."


def _wash_words(each: PourDamp, *, last: bool) -> str:
    if not each.blushes:
        return ""
    damp = format_duration(each.damp_hours)
    told = f"Its top is damp for {damp} while it sets, so it blushes: a greasy or white film of the hardener."
    if last:
        return f"{told} Wash the open face with warm water and dry it before you sand it."
    return (
        f"{told} Wash it with warm water, dry it, then sand it before the next pour: the bond window is void."
    )
