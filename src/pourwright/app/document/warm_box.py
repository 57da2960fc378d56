"""The plan for the warm box as part of the plan document."""

from __future__ import annotations

from datetime import datetime
from math import isfinite

from pourwright.app.document.moments import iso
from pourwright.app.setup import Setup, working_hours
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_moment,
    format_temperature,
    format_temperature_difference,
)
from pourwright.jobs import plan_soft as plan
from pourwright.pour.climate import Climate
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.warm_box import WarmBox

HOUR = 3600.0
CAUTIONS = (
    "The data sheet decides: never warmer, longer or faster than it allows; its own warm cure wins.",
    "No open flame, no heat gun: an electric heater with a thermostat, away from resin, board and foam.",
    "A smoke alarm above it, somebody in the building, nothing beside it that burns.",
    "Never an oven that is used for food: resin that is not fully cured gives off vapour.",
    "A second thermometer hangs in the air beside the mold: the dial of a heater is no thermometer.",
)


class _Clock:
    """Turns seconds into moments, the whole box moved to when somebody is there to begin it."""

    def __init__(self, setup: Setup, climate: Climate, begin: float) -> None:
        self.climate, self.system = climate, setup.system
        opens = working_hours(setup.job).next_open(climate.moment(begin))
        self.later = climate.seconds(opens) - begin

    def moment(self, time: float) -> datetime:
        return self.climate.moment(time + self.later)

    def words(self, time: float) -> str:
        return format_moment(self.moment(time), self.system)


def warm_box_part(
    setup: Setup, box: WarmBox, climate: Climate, opening: datetime | None, without: float
) -> plan.WarmBox:
    """Write the plan for the warm box.

    Parameters
    ----------
    setup : Setup
        For units and working hours.
    box : WarmBox
        As found.
    climate : Climate
        Of the shop.
    opening : datetime or None
        When the piece is demolded without it; None where it never hardens.
    without : float
        Glass transition then [K].

    Returns
    -------
    plan_soft.WarmBox
        Moved to the next working hour.
    """
    clock = _Clock(setup, climate, box.begin)
    return plan.WarmBox(
        begin=iso(clock.moment(box.begin)),
        shop_degC=box.shop - ZERO_CELSIUS,
        hold_degC=box.hold - ZERO_CELSIUS,
        ramp_K_per_h=box.ramp * HOUR,
        warm_at=iso(clock.moment(box.warm_at)),
        lag_h=box.lag / HOUR if isfinite(box.lag) else None,
        hold_h=box.hold_time / HOUR,
        cool_at=iso(clock.moment(box.cool_at)),
        shop_at=iso(clock.moment(box.air[0][-1])),
        open_at=iso(clock.moment(box.open_at)),
        open_within_K=DEFAULTS["open_within"].value,
        cured_from=box.cured_from,
        cured_to=box.cured_to,
        glass_transition_from_degC=box.glass_from - ZERO_CELSIUS,
        glass_transition_to_degC=box.glass_to - ZERO_CELSIUS,
        without_degC=without - ZERO_CELSIUS,
        peak_degC=box.peak - ZERO_CELSIUS,
        peak_limit_degC=box.peak_limit - ZERO_CELSIUS,
        hard_at=iso(clock.moment(box.hard_at)) if isfinite(box.hard_at) else None,
        time_h=[round((time - box.begin) / HOUR, 4) for time, _, _ in box.casting],
        hottest_degC=[round(hot - ZERO_CELSIUS, 2) for _, hot, _ in box.casting],
        coolest_degC=[round(cool - ZERO_CELSIUS, 2) for _, _, cool in box.casting],
        steps=_steps(setup, box, clock),
        gain=_gain(setup, box, clock, opening, without),
        cautions=list(CAUTIONS),
    )


def _steps(setup: Setup, box: WarmBox, clock: _Clock) -> list[str]:
    system = setup.system
    shop, hold, peak = (format_temperature(value, system) for value in (box.shop, box.hold, box.peak))
    pace = format_temperature_difference(box.ramp * HOUR, system)
    rise = format_duration(box.warm_at - box.begin)
    within = format_temperature_difference(DEFAULTS["open_within"].value, system)
    if isfinite(box.lag) and box.lag < box.hold_time:
        lag = f"The coldest place comes up {format_duration(max(box.lag, 0.0))} after the air."
    else:
        lag = "The coldest place does not come up all the way in that time."
    begin = (
        f"Begin on {clock.words(box.begin)} or later: all has gelled and cooled off. The piece stays in its "
        "mold, the box closed and clamped, since warm resin is soft."
    )
    cool = (
        f"From {clock.words(box.cool_at)} on let it cool, no faster than {pace} an hour. Do not open before "
        f"{clock.words(box.open_at)}: only then the core is within {within} of the shop."
    )
    warm = f"Warm the air around the mold from {shop} to {hold}, no faster than {pace} an hour: in {rise}."
    keep = f"Hold {hold} for {format_duration(box.hold_time)}. {lag} The piece gets no warmer than {peak}."
    return [begin, warm, keep, cool]


def _gain(setup: Setup, box: WarmBox, clock: _Clock, opening: datetime | None, without: float) -> str:
    soft, hard = (format_temperature(value, setup.system) for value in (without, box.glass_to))
    opened = f"warmed like this only above {hard}, and it may be opened from {clock.words(box.open_at)} on"
    if opening is None:
        return (
            "Without a warm box the piece never gets hard in this shop: its least-cured place stays soft "
            f"above {soft}; {opened}."
        )
    planned = format_moment(opening, setup.system)
    return (
        f"Without a warm box the piece leaves the mold on {planned}, its least-cured place soft above "
        f"{soft}; {opened}."
    )
