"""Lights for cracks and halos as a part of the plan; how to cool it, when to open it, how its tops sink."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite, isnan
from string import ascii_uppercase

from pourwright.app.document.crack_words import reason, remedy, small, where
from pourwright.app.setup import Setup
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_mass,
    format_share,
    format_temperature,
    format_temperature_difference,
)
from pourwright.jobs import plan_cracks as part
from pourwright.jobs.plan_soft import WarmBox
from pourwright.planner.decide import Decision
from pourwright.pour.bearing import Kind, Light
from pourwright.pour.crack_places import Found
from pourwright.pour.cracks import Cracks, Warmed, after_warm_box
from pourwright.pour.sink import Sink
from pourwright.pour.site import Site

HOUR = 3600.0
LIGHTS = (Light.GREEN, Light.AMBER, Light.RED)
BY_ITSELF = 10.0 / HOUR
"""Faster than this no heated shop cools [K/s]."""
MUCH = 0.0005
"""Sinking by less is not seen [m]."""
DEEP = 10.0
"""A cover deeper than so many grains is a neat band of its own."""
_MEMORY = (
    "These lights are an indication, not a prediction. How far such resin stretches before it breaks is from "
    "memory and differs from product to product; flaws, bubbles and the stress of the first hours are not "
    "known. Green: even towards the poor end of the numbers it holds. Red: not even the likely ones do."
)
_HELD = (
    "Each place is judged as if all around it held it fast; a casting free to shrink is stretched less. Soft "
    "resin is taken to give way between grains, glassy resin not."
)
_BETTER = "The elongation at break of your data sheet, in the shop's own record, makes this far surer."
NOTES = (_MEMORY, _HELD, _BETTER)


def cracks_part(
    setup: Setup, site: Site, decision: Decision, box: WarmBox | None = None
) -> part.Cracks | None:
    """Write the lights of a plan.

    Parameters
    ----------
    setup : Setup
        Piece, fill and units.
    site : Site
        With its materials.
    decision : Decision
        With the final run.
    box : plan_soft.WarmBox, optional
        Where one is planned.

    Returns
    -------
    plan_cracks.Cracks or None
        None where the run was not looked at for cracks.
    """
    seen, last = decision.final.cracks, decision.final.pours[-1]
    if seen is None:
        return None
    cover, grain = _cover(setup)
    tops = [_top(setup, sink, last=sink.pour == len(seen.sinks)) for sink in seen.sinks]
    worst = max((found.light for found in seen.places), key=LIGHTS.index)
    return part.Cracks(
        light=worst.value,
        places=[_place(setup, seen, found, number) for number, found in enumerate(seen.places)],
        shop_degC=seen.shop - ZERO_CELSIUS,
        cooling=_cooling(setup, seen),
        opening=_opening(setup, seen, last.start, decision.final.ready),
        warm_box=None if box is None else _after_warm_box(setup, site, seen, box),
        tops=tops,
        cover_m=cover,
        grain_m=grain,
        cover_text=_cover_words(setup, cover, grain, tops[-1].sink_most_m),
        notes=list(NOTES),
    )


def cracks_warnings(found: part.Cracks | None) -> Iterator[str]:
    """Warn of every red place, and of the amber ones in one sentence.

    Parameters
    ----------
    found : plan_cracks.Cracks or None
        Of the plan.

    Yields
    ------
    str
        Nothing where all is green.
    """
    places = [] if found is None else found.places
    for place in places:
        if place.light == "red":
            yield f"Expect a crack or a halo: {place.where}. {place.reason} {place.remedy}"
    amber = [place.where for place in places if place.light == "amber"]
    if amber:
        yield f"Cool it slowly and look for cracks and halos: {'; '.join(amber)}."


def _place(setup: Setup, seen: Cracks, found: Found, number: int) -> part.CrackPlace:
    # skins and corners are judged by core against skin, all others by what they shrink
    shrinks = found.kind not in (Kind.SKIN, Kind.CORNER)
    apart = max(found.case.apart_soft, found.case.apart_glass)
    return part.CrackPlace(
        mark=_letter(number),
        kind=found.kind.value,
        pour=found.pour,
        where=where(found, setup.system, setup.piece.frame),
        place_m=found.place,
        light=found.light.value,
        load=found.load.value,
        load_low=found.load.low,
        load_high=found.load.high,
        soft_shrinkage=found.soft if shrinks else None,
        glass_shrinkage=found.glass if shrinks else None,
        hottest_degC=_celsius(found.hottest),
        glass_at_degC=_celsius(found.glass_at),
        core_above_skin_K=None if shrinks else apart,
        reason=reason(found, seen.shop, setup.resin.peak_limit.value, setup.system),
        remedy=remedy(found, setup.system),
    )


def _celsius(kelvin: float) -> float | None:
    return None if isnan(kelvin) else kelvin - ZERO_CELSIUS


def _letter(number: int) -> str:
    more, here = divmod(number, len(ascii_uppercase))
    return (ascii_uppercase[more - 1] if more else "") + ascii_uppercase[here]


def _cooling(setup: Setup, seen: Cracks) -> part.Cooling:
    apart_now = max(found.case.apart_glass for found in seen.places if found.kind is Kind.SKIN)
    rate, apart, now = (
        format_temperature_difference(value, setup.system, digits=digits)
        for value, digits in ((seen.rate * HOUR, 0), (seen.difference, 0), (apart_now, 1))
    )
    easy = seen.rate > BY_ITSELF and all(found.light is Light.GREEN for found in seen.places)
    text = (
        f"Nothing here asks for slow cooling: it would bear {rate} an hour."
        if easy
        else f"Let it cool no faster than {rate} an hour: then the core stays within {apart} of the skin."
    )
    return part.Cooling(
        most_K_per_h=seen.rate * HOUR,
        core_above_skin_K=seen.difference,
        lag_h=seen.lag / HOUR,
        mind=not easy,
        text=f"{text} As planned the core is at most {now} warmer than the skin once that is glass.",
    )


def _opening(setup: Setup, seen: Cracks, start: float, ready: float) -> part.Opening:
    within = format_temperature_difference(seen.open_within, setup.system)
    rule = f"the core must be within {within} of the shop"
    if not isfinite(seen.cool_at):
        text = f"Do not open while it is warm: {rule}; it was not yet when the reckoning ended."
        return part.Opening(within_K=seen.open_within, cool_after_h=None, text=text)
    after = max(seen.cool_at - start, 0.0)
    decides = "it is hard only later" if ready > seen.cool_at else "it is hard before that"
    text = f"Do not open before {format_duration(after)} after the last pour: {rule}; {decides}."
    if after < HOUR:
        text = f"The core stays within {within} of the shop: open it as soon as it is hard."
    return part.Opening(within_K=seen.open_within, cool_after_h=after / HOUR, text=text)


def _after_warm_box(setup: Setup, site: Site, seen: Cracks, box: WarmBox) -> part.AfterWarmBox | None:
    warmed = Warmed(
        hold=box.hold_degC + ZERO_CELSIUS,
        peak=box.peak_degC + ZERO_CELSIUS,
        glass_from=box.glass_transition_from_degC + ZERO_CELSIUS,
        glass_to=box.glass_transition_to_degC + ZERO_CELSIUS,
        cured=box.cured_to,
    )
    worst = after_warm_box(seen, site, warmed)
    if worst is None:
        return None
    place = where(worst, setup.system, setup.piece.frame)
    ramp, hold = format_temperature_difference(box.ramp_K_per_h, setup.system), worst.glass_at
    used, low, high = (format_share(each) for each in (worst.load.value, worst.load.low, worst.load.high))
    kept = [(each.kind, each.place) for each in seen.places]
    text = (
        f"The warm box softens it once more: glass from {format_temperature(hold, setup.system)} on, "
        f"{place} then uses {used} ({low} to {high}), {worst.light}. Keep to the box's {ramp} an hour on the "
        "way down."
    )
    return part.AfterWarmBox(
        mark=_letter(kept.index((worst.kind, worst.place))),
        light=worst.light.value,
        load=worst.load.value,
        load_low=worst.load.low,
        load_high=worst.load.high,
        text=text,
    )


def _top(setup: Setup, sink: Sink, *, last: bool) -> part.TopSinks:
    missing = max(sink.most_lost, 0.0) * setup.resin.density.value
    return part.TopSinks(
        pour=sink.pour,
        sink_m=sink.depth,
        sink_most_m=sink.most,
        after_gel_m=sink.after,
        missing_kg=missing,
        text=_sink_words(setup, sink, missing, last=last),
    )


def _sink_words(setup: Setup, sink: Sink, missing: float, *, last: bool) -> str:
    likely, most = (small(each, setup.system) for each in (sink.depth, sink.most))
    if not last:
        return f"Pour {sink.pour}: the top sinks by at most {most} until it gels; the next pour fills it up."
    text = f"Pour {sink.pour}: the top sinks by {likely} until it gels, at most {most}."
    if sink.depth < MUCH:
        text = (
            f"Pour {sink.pour}: its own warmth swells it as much as curing shrinks it; gelled cold, the top "
            f"sinks by up to {most}."
        )
    if setup.fill.choices.overfill > 0.0:
        return f"{text} {_overfilled(setup, sink.most)}"
    keep = f"keep {format_mass(missing, setup.system)} of the mix ready and top it up while it is liquid"
    if setup.mold.rim - setup.piece.frame.height < sink.most:
        return f"{text} No wall stands above its level: {keep}."
    return f"{text} Pour it {most} over, or {keep}; then plane the face."


def _overfilled(setup: Setup, most: float) -> str:
    """What becomes of the overfill that is mixed."""
    over = setup.fill.choices.overfill
    stands, sinks = small(over, setup.system), small(most, setup.system)
    walls = setup.mold.rim - setup.piece.frame.height >= over
    around = "" if walls else " Set a sealed strip around the opening first: no wall stands above it."
    if over < most:
        return f"The overfill of {stands} is mixed, but sinks below the face: it wants {sinks}.{around}"
    return f"Pour it {stands} over: that is mixed; plane the rest off once it is hard.{around}"


def _cover(setup: Setup) -> tuple[float | None, float | None]:
    """Neat resin over the topmost glass, and the largest grain under it [m]."""
    bands = setup.fill.bands
    under = [band for band in bands if band.grade is not None]
    if not under:
        return None, None
    grade = setup.fill.choices.glass.grade(str(under[-1].grade))
    return bands[-1].upper - under[-1].upper, grade.sieve_to.value


def _cover_words(setup: Setup, cover: float | None, grain: float | None, sink: float) -> str:
    if cover is None or grain is None or cover > DEEP * grain:
        return ""
    left = cover - max(sink, 0.0)
    deep, wide, least, better = (
        small(each, setup.system) for each in (cover, grain, max(left, 0.0), grain + max(sink, 0.0))
    )
    text = f"The neat cover is {deep} deep, the largest grain under it {wide}."
    if left >= grain:
        return f"{text} Sunk by the most, it still covers the glass."
    return (
        f"{text} Sunk by the most, {least} are left over the glass: make the cover {better} deep "
        "(neat_cover), or top it up."
    )
