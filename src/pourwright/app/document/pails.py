"""How long a mixed batch may stand, as part of the plan document."""

from __future__ import annotations

from math import isfinite

from pourwright.app.setup import Setup, tools
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_mass,
    format_temperature_difference,
)
from pourwright.jobs import plan
from pourwright.pour.bucket import WATCH, Pail, pail_of
from pourwright.pour.climate import Climate
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.pour.rehearse import PourSeen

HOUR = 3600.0


def pail_at(setup: Setup, pour: PourSeen, climate: Climate) -> Pail:
    """Look at the largest batch of a pour, mixed when the pour starts.

    Parameters
    ----------
    setup : Setup
        With its resin and its pail.
    pour : PourSeen
        Levels, start and temperature of the mix.
    climate : Climate
        The shop by the hour.

    Returns
    -------
    Pail
        Reckoned once for each mass and temperature.
    """
    made = setup.batches(setup.fill.resin_between(pour.lower, pour.upper).total)
    mass = max(batch.mass for batch in made)
    shop = climate.temperature(pour.start)
    return pail_of(setup.resin, mass, tools(setup.job).pail, pour.poured_at, shop)


def standing_part(pail: Pail) -> plan.Standing:
    """Write how long a batch may stand.

    Parameters
    ----------
    pail : Pail
        One batch.

    Returns
    -------
    plan.Standing
        Times in hours from mixing; None for what does not happen while it is watched.
    """
    depth, spread = pail.spread
    left, warmed = pail.standing, pail.prewarmed
    return plan.Standing(
        batch_kg=pail.mass,
        pail_m3=pail.pail,
        mixed_at_degC=pail.mixed_at - ZERO_CELSIUS,
        watched_h=WATCH / HOUR,
        warming_K=POUR["pail_warming"].value,
        warm_after_h=_hours(left.warm),
        thick_after_h=_hours(left.thick),
        hot_degC=left.hot_limit - ZERO_CELSIUS,
        hot_after_h=_hours(left.hot),
        hot_stirred_after_h=_hours(pail.stirred.hot),
        tray_depth_m=depth,
        tray_hot_after_h=_hours(spread.hot),
        tray_peak_degC=spread.hottest - ZERO_CELSIUS,
        prewarmed_by_K=POUR["prewarming"].value,
        prewarmed_until_h=_hours(warmed.pours_until),
        prewarmed_hot_after_h=_hours(warmed.hot),
    )


def _hours(seconds: float) -> float | None:
    return seconds / HOUR if isfinite(seconds) else None


def why_within(setup: Setup, pails: list[Pail]) -> str:
    """Say where the time from mixing to the mold comes from.

    Parameters
    ----------
    setup : Setup
        For the units.
    pails : list of Pail
        One batch of each pour.

    Returns
    -------
    str
        The shortest of three, for the batch that has the least time.
    """
    worst = min(pails, key=lambda pail: (pail.work_within, pail.standing.pours_until))
    warm = format_temperature_difference(POUR["pail_warming"].value, setup.system)
    mass = format_mass(worst.mass, setup.system)
    until = worst.standing.pours_until
    left = f"after {format_duration(until)}" if isfinite(until) else "not in a day and a night"
    return (
        "the shortest of three: half the pot life of the record, an hour by common practice, and the pail "
        f"itself, reckoned as a body that heats: {mass} are {warm} warmer, or too thick to pour, {left}"
    )
