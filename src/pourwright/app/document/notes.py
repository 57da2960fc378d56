"""What is said in words: cautions, warnings, the go/no-go list, reasons."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import date, datetime
from functools import cache
from importlib.resources import files
from typing import Any

from pourwright.app.cold import cold_words
from pourwright.app.crushing import pace, waits
from pourwright.app.defaults import DEFAULTS
from pourwright.app.document.pails import pail_at, why_within
from pourwright.app.heights import in_both
from pourwright.app.setup import Setup
from pourwright.app.timing import Beginning, curing, next_working_hour, pour_hours
from pourwright.foundation.notation import (
    format_clock,
    format_duration,
    format_length,
    format_mass,
    format_moment,
    format_share,
    format_temperature,
    format_temperature_difference,
)
from pourwright.jobs import plan
from pourwright.materials import Resin
from pourwright.materials.batches import HANDLING_RATE, MIXING_TIME
from pourwright.materials.plausible import heat_range
from pourwright.mold import lifting_caution
from pourwright.physics.humidity import dew_point
from pourwright.planner.decide import Decision
from pourwright.planner.model import Failure
from pourwright.pour.climate import Climate

# a dew point needs some water in the air
DRIEST = 0.01


@cache
def _words() -> dict[str, Any]:
    return tomllib.loads(files("pourwright").joinpath("data", "words.toml").read_text("utf8"))


def general_cautions() -> tuple[str, ...]:
    """Give the cautions that hold for every casting."""
    return tuple(_words()["cautions"])


def cautions(setup: Setup) -> list[str]:
    """List the cautions, with the lifting of the filled mold and of the piece where they are heavy."""
    lifts = (
        ("The filled mold", setup.mold.filled_mass(setup.in_mold)),
        ("The piece", setup.piece_mass),
    )
    heavy = [lifting_caution(name, mass, setup.system) for name, mass in lifts]
    return [text for text in heavy if text] + list(general_cautions())


def go_no_go(setup: Setup) -> list[plan.Check]:
    """List what must be true before part A meets part B."""
    lines = [line for line in _words()["go_no_go"] if setup.fill.glass or not line.get("glass")]
    known = {"humid": format_share(DEFAULTS["damp_air"].value), "dew": _dew_words(setup)}
    return [plan.Check(text=line["text"].format_map(known), why=line["why"]) for line in lines]


def _dew_words(setup: Setup) -> str:
    """Dew point of the shop's air when it is warmest, which is when it holds most water."""
    shop = setup.job.shop
    warmest = max(
        value.si for value in (shop.temperature, shop.day_temperature, shop.night_temperature) if value
    )
    share = min(max(shop.humidity, DRIEST), 1.0)
    dew, air = (
        format_temperature(value, setup.system) for value in (float(dew_point(warmest, share)), warmest)
    )
    return f"{dew} in air of {air} and {format_share(share)} humidity"


def warnings(setup: Setup, decision: Decision, climate: Climate, limit: float) -> list[str]:
    """List what the maker should think about before spending."""
    found = [*setup.mold.warnings, *setup.fill.warnings, *_near_limit(setup, decision, limit)]
    found += [*_coarse_scale(setup, decision), *odd_heat(setup.resin)]
    if climate.mean < DEFAULTS["cool_shop"].value:
        cool = format_temperature(climate.mean, setup.system)
        found.append(
            f"The shop is cool, {cool} on average: cure is slow and may stall; warm it, or build a warm box "
            "around the mold as the data sheet allows."
        )
    found += [f"{text[:1].upper()}{text[1:]}." for text in cold_words(min(climate.hourly), setup.system)]
    if setup.job.shop.humidity > DEFAULTS["damp_air"].value:
        damp = format_share(setup.job.shop.humidity)
        found.append(
            f"The air is damp ({damp}): dry it before you pour; what it does to each pour is told under damp."
        )
    if decision.choice.trial.ready is None:
        found.append(
            "The least-cured place does not get hard in this shop within three weeks: warm the mold."
        )
    return found


def odd_heat(resin: Resin) -> Iterator[str]:
    """Warn of a record whose heat no epoxy of its ratio has.

    Parameters
    ----------
    resin : Resin
        A family's, or the shop's own.

    Yields
    ------
    str
        One warning, or none.
    """
    least, most = heat_range(resin)
    heat = resin.heat_of_reaction.value
    if "epoxy" in resin.family.lower() and not least <= heat <= most:
        ratio = f"{resin.parts_a.value:g} : {resin.parts_b.value:g}"
        yield (
            f"The record of '{resin.id}' gives {heat / 1000:.0f} kJ/kg at {ratio}; an epoxy of that ratio "
            f"sets free {least / 1000:.0f} to {most / 1000:.0f} kJ/kg: check heat and ratio."
        )


def _coarse_scale(setup: Setup, decision: Decision) -> Iterator[str]:
    """Warn where rounding to the scale's step spoils the ratio of a batch."""
    pours = decision.final.pours
    made = [setup.batches(setup.fill.resin_between(pour.lower, pour.upper).total) for pour in pours]
    worst = max((abs(batch.ratio_error) for batches in made for batch in batches), default=0.0)
    if worst > DEFAULTS["ratio_error"].value:
        off = format_share(worst)
        yield (
            f"The scale's step is too coarse for these batches: part B is off by up to {off}, and resin off "
            "its ratio stays soft. Weigh on a finer scale and set shop.scale_step."
        )


def _near_limit(setup: Setup, decision: Decision, limit: float) -> Iterator[str]:
    system = setup.system
    for number, (pour, error) in enumerate(zip(decision.final.pours, decision.grid_errors, strict=True), 1):
        left = limit - pour.peak
        if left < max(DEFAULTS["near_limit"].value, error):
            below = format_temperature_difference(left, system, digits=1)
            yield (
                f"Pour {number} peaks only {below} below its limit. Near run-away a few per cent in rate "
                "move the peak by far more: keep to the level, the temperature and the mix."
            )


def too_late_warning(setup: Setup, late: plan.Event | None, beginning: Beginning) -> list[str]:
    """Warn of a start that leaves too little time for what comes before it.

    Parameters
    ----------
    setup : Setup
        For the clock.
    late : plan.Event or None
        What should have been begun already.
    beginning : Beginning
        Now, and when everything can be ready.

    Returns
    -------
    list of str
        One warning, or none.
    """
    if late is None:
        return []
    system, zone = setup.system, beginning.now.tzinfo
    begun = format_moment(datetime.fromisoformat(late.start).astimezone(zone), system)
    ready = format_moment(beginning.ready.astimezone(zone), system)
    name = late.title.partition(",")[0].lower()
    text = (
        f"The start leaves too little time: '{name}' should have begun by {begun}, which is past. Begun at "
        f"the next working hour, mold and glass are ready by {ready}: move the start there, or leave it out."
    )
    return [text]


def reasons(setup: Setup, decision: Decision, beginning: Beginning, climate: Climate) -> list[plan.Reason]:
    """Say why: the number of pours, the first pour, the time in the pail, defaults kept."""
    pails = [pail_at(setup, pour, climate) for pour in decision.final.pours]
    found = [
        plan.Reason(key="pours", text=_why_so_many(setup, decision)),
        plan.Reason(key="pours[].start", text=_why_then(setup, beginning)),
        plan.Reason(key="pours[].work_within_h", text=why_within(setup, pails)),
        plan.Reason(key="calendar", text=_why_so_long(setup)),
    ]
    found += [plan.Reason(key=key, text=text) for key, text in setup.mold.reasons]
    found.append(plan.Reason(key="fill.bands", text=_why_voids(setup)))
    if not decision.choice.proven:
        found.append(
            plan.Reason(key="search", text="the search for an earlier finish stopped at its limit of trials")
        )
    return found


def _why_then(setup: Setup, beginning: Beginning) -> str:
    """Why the first pour is when it is."""
    system, zone = setup.system, beginning.now.tzinfo
    if beginning.stated is None:
        work = format_moment(next_working_hour(setup, beginning.now), system)
        cure = format_duration(curing(setup).total_seconds())
        glass = ""
        if setup.fill.glass:
            glass = f", glass dried {format_duration(waits(setup.job))} and laid in"
        return (
            f"no start is given, so the work starts at the next working hour, {work}; the first pour comes "
            f"once the master is sealed and tried, the rubber is poured and has cured {cure}, the mold is "
            f"tested{glass}, all in working hours"
        )
    hours = pour_hours(setup)
    asked = format_moment(beginning.stated.astimezone(zone), system)
    first, last = (
        format_clock(datetime.combine(date.min, wall), system) for wall in (hours.opens, hours.closes)
    )
    rule = (
        f"a pour starts from {first} to {last}: time for the glass and the list before it, to look after it"
    )
    if beginning.first == beginning.stated:
        return f"from the start that was given, {asked}; {rule}"
    return f"the first full hour for a pour from the start that was given, {asked}; {rule}"


def _why_so_long(setup: Setup) -> str:
    """What the lengths in the calendar are reckoned with."""
    mixing, rate = format_duration(MIXING_TIME.value), format_mass(HANDLING_RATE.value * 60, setup.system)
    look = format_duration(DEFAULTS["look"].value)
    laid = format_mass(DEFAULTS["laying_rate"].value * 60, setup.system)
    washed = format_mass(60 / max(pace(setup.job).washing, 1.0), setup.system)
    glass = f", {washed} of glass a minute to wash, {laid} a minute to lay in" if setup.fill.glass else ""
    return (
        f"lengths by common practice for one person: {mixing} to stir a batch, {rate} a minute to pour, "
        f"{look} to look after a pour{glass}"
    )


def _why_so_many(setup: Setup, decision: Decision) -> str:
    count = len(decision.final.pours)
    if not decision.choice.failed:
        return f"{count} {'pour' if count == 1 else 'pours'}: everything at once keeps all limits"
    fewer = "; ".join(failure_words(failure, setup) for failure in decision.choice.failed)
    kept = f"{100 * decision.request.probability:.3g} of 100 castings"
    limits = "" if decision.request.doubt is None else f", so that {kept} keep the limits"
    return f"{count} pours{limits}: {fewer}"


def failure_words(failure: Failure, setup: Setup) -> str:
    """Say what stopped a number of pours.

    Parameters
    ----------
    failure : Failure
        Count, constraint, amount.
    setup : Setup
        For the words: units, and how the piece lies.

    Returns
    -------
    str
        As in "with 2 pours, the hottest place goes over the limit by 18 °C or more".
    """
    system = setup.system
    name = "with 1 pour," if failure.count == 1 else f"with {failure.count} pours,"
    if failure.constraint == "peak":
        by = format_temperature_difference(failure.amount, system)
        return f"{name} the hottest place goes over the limit by {by} or more"
    if failure.constraint == "border":
        upper = in_both(setup.piece.frame, failure.place[1], system)
        return f"{name} glass would have to lie on liquid resin at {upper}"
    if failure.constraint == "head":
        by = format_length(failure.amount, system)
        return f"{name} liquid resin stands {by} deeper over the seams than it may"
    time = format_duration(failure.amount)
    words = {
        "bond": f"nobody is there while one still bonds: it stops {time} too early",
        "box": "the box gets too hot for its glue and seams",
        "chance": "too many castings go over the limit",
        "day": f"mixing and pouring one takes {time} longer than the shop is open",
        "soak": f"the resin is too thick after {1.0 - failure.amount:.0%} of its way through the glass",
    }
    return f"{name} {words[failure.constraint]}"


def _why_voids(setup: Setup) -> str:
    glass = [band for band in setup.fill.bands if not band.neat]
    if not glass:
        return "no glass: the piece is neat"
    band = glass[0]
    cover = format_length(setup.fill.neat_cover, setup.system)
    return (
        f"void fraction {band.void_fraction:.2f} ({band.void_low:.2f} to {band.void_high:.2f}): "
        f"{band.void_source}; neat cover {cover} at the open face"
    )
