"""Under-cure and damp as part of the plan document."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from itertools import pairwise
from math import isfinite
from types import MappingProxyType

from pourwright.app.document.damp import damp_part
from pourwright.app.document.moments import iso
from pourwright.app.document.warm_box import warm_box_part
from pourwright.app.document.whereabouts import place_words
from pourwright.app.heights import in_both
from pourwright.app.setup import Setup
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_length,
    format_share,
    format_temperature,
    format_temperature_difference,
)
from pourwright.geometry.thin.thickness import MOST_RAYS
from pourwright.jobs import plan_soft as plan
from pourwright.jobs.plan import Event
from pourwright.physics.glass_transition import dibenedetto
from pourwright.planner.decide import Decision
from pourwright.planner.request import Request
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.rehearse import Rehearsal
from pourwright.pour.shallow import Form, Least, Verdict
from pourwright.pour.site import cure_law
from pourwright.pour.soft import Stall, Thin, Where, look_at_soft

HOUR = 3600.0
VERDICTS: Mapping[Verdict, str] = MappingProxyType(
    {Verdict.ANY: "any", Verdict.FROM: "from", Verdict.NONE: "none"}
)
HEATS: Mapping[str, str] = MappingProxyType(
    {
        "room": "in an ordinary room",
        "summer_room": "in a room in summer",
        "parked_car": "in a parked car in the sun",
        "hot_cup": "under a hot cup",
    }
)
"""Everyday warmth by its default, and how it is said; coolest first."""
NO_THIN = ": no thin place."
DENTS_BELOW = 10.0
"""Softening less than this above an ordinary room, resin takes the print of a nail [K]."""


def soft_part(setup: Setup, request: Request, decision: Decision, opening: datetime | None) -> plan.Soft:
    """Look for under-cure and damp and write them down.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    request : Request
        Site and limit.
    decision : Decision
        The plan as run on the final grid.
    opening : datetime or None
        When somebody is there to demold; None where it never hardens.

    Returns
    -------
    plan_soft.Soft
        Everything the maker is told about it.
    """
    site, final = request.site, decision.final
    found = look_at_soft(site, final, setup.job.shop.humidity, request.peak_limit)
    box = found.box
    return plan.Soft(
        places=list(_places(setup, request, final, found.places, opening)),
        stall=_stall(setup, found.stall, final),
        least=[_least(setup, each) for each in found.least],
        thin=[_thin(setup, each, found.least) for each in found.thin],
        warm_box=None
        if box is None
        else warm_box_part(setup, box, site.climate, opening, final.ready_glass_transition),
        damp=damp_part(setup, found.damp, [pour.start for pour in final.pours]),
        notes=_notes(setup),
    )


def _places(
    setup: Setup, request: Request, final: Rehearsal, places: tuple[Where, ...], opening: datetime | None
) -> Iterator[plan.SoftPlace]:
    """One for each pour as the next one comes, then one for each pour as all is hard."""
    site, pours = request.site, final.pours
    law = cure_law(site.resin.cure)
    rows = [
        (number, "next pour", after.start, pour.least_cured, pour.least_cured_place, places[number - 1])
        for number, (pour, after) in enumerate(pairwise(pours), 1)
    ]
    end = pours[-1].history.time[-1]
    at_end = final.ready if isfinite(final.ready) else end
    rows += [
        (number, "demold", at_end, soft.cured, soft.place, where)
        for number, (soft, where) in enumerate(zip(final.softest, places[len(pours) :], strict=True), 1)
    ]
    for number, moment, time, cured, place, where in rows:
        when = site.climate.moment(time) if moment == "next pour" else opening
        yield plan.SoftPlace.model_validate(
            {
                "pour": number,
                "moment": moment,
                "at": None if when is None else iso(when),
                "cured": cured,
                "glass_transition_degC": float(dibenedetto(min(cured, 1.0), *law.glass)) - ZERO_CELSIUS,
                "shop_degC": site.climate.temperature(time) - ZERO_CELSIUS,
                "place_m": place,
                "place": place_words(setup, where),
            }
        )


def _stall(setup: Setup, stall: Stall, final: Rehearsal) -> plan.Stall:
    return plan.Stall(
        shop_degC=stall.shop - ZERO_CELSIUS,
        cured=stall.cured,
        glass_transition_degC=stall.glass_transition - ZERO_CELSIUS,
        full_glass_transition_degC=stall.full - ZERO_CELSIUS,
        keep_below_degC=stall.keep_below - ZERO_CELSIUS,
        text=f"{_stall_words(setup, stall)} {_softens(setup, final.ready_glass_transition)}",
    )


def _stall_words(setup: Setup, stall: Stall) -> str:
    shop, glass, full = (
        format_temperature(value, setup.system) for value in (stall.shop, stall.glass_transition, stall.full)
    )
    if stall.cures_through:
        return f"At {shop}, the mean of day and night, this resin cures through: it is soft above {full}."
    return (
        f"At {shop}, the mean of day and night, this resin stalls at about {format_share(stall.cured)} "
        f"cured: from there on waiting hardly helps. Stalled it is soft above {glass}, fully cured above "
        f"{full}; {_kept(setup, stall)}."
    )


def _kept(setup: Setup, stall: Stall) -> str:
    """Say how warm it may stand in use, where the usual margin leaves it an ordinary room."""
    if stall.keep_below < DEFAULTS["summer_room"].value:
        return "the usual margin below that leaves it no ordinary room: cure it warm, as its data sheet says"
    return f"in use it should stay below {format_temperature(stall.keep_below, setup.system)}"


def _softens(setup: Setup, glass: float) -> str:
    """What a glass transition means in everyday life."""
    soft = format_temperature(glass, setup.system)
    where = [
        f"{words} ({format_temperature(DEFAULTS[key].value, setup.system)})"
        for key, words in HEATS.items()
        if DEFAULTS[key].value >= glass
    ]
    dents = " It dents under a fingernail." if glass < DEFAULTS["room"].value + DENTS_BELOW else ""
    text = f"At the end of this plan the least-cured place is soft above {soft}."
    return f"{text}{dents} It softens {_listed(where)}." if where else f"{text}{dents}"


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


FORMS: Mapping[Form, str] = MappingProxyType(
    {Form.LAYER: "layer on rubber", Form.RIB: "rib between rubber walls"}
)


def _least(setup: Setup, least: Least) -> plan.LeastThickness:
    after = least.at.hard_after
    return plan.LeastThickness.model_validate(
        {
            "form": str(least.form),
            "solid_fraction": least.solid_fraction,
            "verdict": VERDICTS[least.verdict],
            "thickness_m": least.at.thickness,
            "hard_after_h": after / HOUR if isfinite(after) else None,
            "within_h": DEFAULTS["hard_within"].value / HOUR,
            "text": _least_words(setup, least),
        }
    )


def _least_words(setup: Setup, least: Least) -> str:
    name = f"A {'glass-filled' if least.solid_fraction else 'neat'} {FORMS[least.form]}"
    within = format_duration(DEFAULTS["hard_within"].value)
    thick = format_length(least.at.thickness, setup.system)
    if least.verdict is Verdict.ANY:
        after = format_duration(least.at.hard_after)
        return f"{name} gets hard however thin it is: {thick} within {after}."
    if least.verdict is Verdict.FROM:
        return f"{name} must be {thick} or more to be hard within {within}; thinner, it may stall."
    hot = "" if least.at.thickness >= DEFAULTS["thickest"].value else "; thicker, it goes over the limit"
    return f"No {name[2:]} up to {thick} gets hard within {within} in this shop: it stalls{hot}."


def _thin(setup: Setup, thin: Thin, least: tuple[Least, ...]) -> plan.ThinPlace:
    after = None if thin.cured is None or not isfinite(thin.cured.hard_after) else thin.cured.hard_after
    return plan.ThinPlace.model_validate(
        {
            "form": str(thin.form),
            "pour": thin.number,
            "thickness_m": thin.thickness,
            "place_m": thin.place,
            "hard_after_h": None if after is None else after / HOUR,
            "text": f"{_thin_words(setup, thin)}{_too_thin(setup, thin, least)}",
        }
    )


def _thin_words(setup: Setup, thin: Thin) -> str:
    thick = format_length(thin.thickness, setup.system)
    if thin.place is None:
        name = f"The shallowest pour is number {thin.number}, {thick} deep"
    else:
        name = f"The thinnest section of this piece is {thick}, {_height(setup, thin.place)}"
    if thin.cured is None:
        return f"{name}{NO_THIN}"
    if not isfinite(thin.cured.hard_after):
        weeks = format_duration(DEFAULTS["stall_after"].value)
        return f"{name}. By itself it is not hard after {weeks}: it stalls {_stands(thin)}."
    return f"{name}. By itself it is hard after {format_duration(thin.cured.hard_after)}."


def _stands(thin: Thin) -> str:
    assert thin.cured is not None
    return f"at {format_share(thin.cured.cured)} cured"


def _height(setup: Setup, place: tuple[float, float, float]) -> str:
    frame = setup.piece.frame
    up = in_both(frame, place[2], setup.system, None if frame.upright else place)
    return f"{up} up from the mold's floor" if "(" not in up else f"up {up} from the mold's floor"


def _too_thin(setup: Setup, thin: Thin, least: tuple[Least, ...]) -> str:
    """Advice where it is thinner than what gets hard in time."""
    if thin.cured is None or thin.cured.hard_after <= DEFAULTS["hard_within"].value:
        return ""
    alike = [each for each in least if each.form is thin.form]
    nearest = min(alike, key=lambda each: abs(each.solid_fraction - thin.solid_fraction))
    help_ = "a warmer shop or a warm box"
    if nearest.verdict is Verdict.FROM and nearest.at.thickness > thin.thickness:
        help_ = f"{format_length(nearest.at.thickness, setup.system)} or more, {help_}"
    within = format_duration(DEFAULTS["hard_within"].value)
    return f" To be hard within {within} it takes {help_}."


def _notes(setup: Setup) -> list[str]:
    share = format_share(DEFAULTS["thin_share"].value)
    margin = format_temperature_difference(setup.resin.demold_margin.value, setup.system)
    measured = (
        f"Thickness is measured straight through from up to {MOST_RAYS} places, an edge is no section; "
        f"{share} of the surface may be thinner. Hard means soft only {margin} above the shop or an ordinary "
        "room, as for demolding."
    )
    glass = (
        "Glass that lies in the mold is taken to be as warm as the mold; glass brought in from the cold must "
        "first stand a day beside it."
    )
    return [measured, glass] if setup.fill.glass else [measured]


def soft_warnings(soft: plan.Soft) -> list[str]:
    """List what of it the maker should think about before spending.

    Parameters
    ----------
    soft : plan_soft.Soft
        As written.

    Returns
    -------
    list of str
        Damp starts, tops that blush, and thin places that are not hard in time.
    """
    damp = soft.damp.pours
    slow = [
        each for each in soft.thin if each.hard_after_h is None or each.hard_after_h > soft.least[0].within_h
    ]
    told = [each.text for each in damp if not each.dry]
    told += [f"Pour {each.number}: {each.wash[:1].lower()}{each.wash[1:]}" for each in damp if each.wash]
    return told + [each.text for each in slow if not each.text.endswith(NO_THIN)]


def with_washing(events: list[Event], soft: plan.Soft) -> list[Event]:
    """Say in the calendar where a top blushes, so that its bond is void.

    Parameters
    ----------
    events : list of Event
        The calendar.
    soft : plan_soft.Soft
        As written.

    Returns
    -------
    list of Event
        The same times.
    """
    blushed = [each.number for each in soft.damp.pours if each.blushes]
    bonds = {f"Pour {number + 1} bonds to pour {number}": number for number in blushed}
    return [
        event.model_copy(
            update={
                "title": f"Pour {bonds[event.title] + 1} may go on pour {bonds[event.title]}",
                "detail": "Its top blushes in this air: wash it with warm water, dry and sand it first.",
            }
        )
        if event.title in bonds
        else event
        for event in events
    ]
