"""What is said of the water test of a mold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite

from pourwright.app.learnt.in_force import mold_name
from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.seams_found import seams_of
from pourwright.foundation.notation import (
    UnitSystem,
    format_cut_length,
    format_duration,
    format_length,
    format_mass,
    format_volume,
)
from pourwright.mold.lifting import people_to_lift
from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.seams.water_test import Fall, held_shut

MOST_OF_IT = 0.1
"""Share of the cavity that runs out in the first look: a fall that says nothing about the casting."""
NEAR_MOUTH = {UnitSystem.METRIC: 0.05, UnitSystem.US: 0.0508}
"""Depth for which it is told too what plain water stays out of [m]."""


def step_words(look: MoldLook, step: float, density: float) -> Iterator[str]:
    """Say how the test is done.

    Parameters
    ----------
    look : MoldLook
        The mold.
    step : float
        Water between two marks [m3].
    density : float
        Of the water [kg/m3].

    Yields
    ------
    str
        One step.
    """
    system = look.system
    jug, weight = _amount(step, system), format_mass(step * density, system)
    first, whole = (format_duration(SEAMS[name].value) for name in ("first_look", "test_time"))
    yield (
        "Close the finished mold as for casting, empty, in its box, level where it will be cast: once full "
        "it is not moved. Seal bare wood first: MDF swells where it gets wet."
    )
    yield _soap_words(look)
    yield (
        f"Pour water in by {jug} ({weight} each: a scale is sooner right than a jug). After each, dip from "
        "the rim and write down what you read; tap the rubber and wait until the bubbles are up."
    )
    yield (
        "Enter all that is in by then and the dip, once the job has a plan, and the next plan knows what the "
        f'mold really holds: pourwright log {mold_name(look.job)} water "{format_volume(step, system)}" '
        '--dip "..".'
    )
    yield (
        f"Full: mark the level on a strip of tape at the mouth. Read after {first} and after {whole}; look "
        "along the foot of the box for drops, and mark where they come."
    )
    yield (
        "Empty it by a hose or a cup, not by tipping it; rinse with clean water: soap spoils a casting's "
        "face."
    )


def _soap_words(look: MoldLook) -> str:
    deep, shallow = (
        format_cut_length(held_shut(depth), look.system) for depth in (look.piece.size[2], near_mouth(look))
    )
    near = format_length(near_mouth(look), look.system)
    return (
        "A drop of washing-up liquid in it: plain water does not wet silicone and stays out of gaps below "
        f"{deep} at the floor and {shallow} at {near} below its level, which a casting finds. "
        "Soapy water goes in everywhere (surface tension, from memory)."
    )


def near_mouth(look: MoldLook) -> float:
    """Depth near the mouth, round in the maker's units [m]."""
    return NEAR_MOUTH[look.system]


def _amount(volume: float, system: UnitSystem) -> str:
    text = format_volume(volume, system)
    return {"1.00 l": "the litre", "1.00 qt": "the quart"}.get(text, text)


def reading_words(look: MoldLook, falls: Sequence[Fall], times: float | None) -> Iterator[str]:
    """Say what the readings mean.

    Parameters
    ----------
    look : MoldLook
        The mold.
    falls : sequence of Fall
        With the widest gaps that the casting allows.
    times : float, optional
        Water lost in the last of these times over what is lost of the casting.

    Yields
    ------
    str
    """
    yield (
        "Level above its mark: the cavity holds less than the shape, by the height too much times the water "
        "of a small step there. Air is caught (tilt and tap; if the level drops, a vent belongs there), or "
        "the box presses the rubber in."
    )
    yield (
        "Level below its mark at once, and then still: the box bulges or the mold is larger than the shape; "
        "that much more casting goes in. Level below its mark and falling: a leak."
    )
    yield "Off by the same from the first mark on: the rim was read wrong, or the mold stands askew."
    yield from _allowed(look, falls, times)


def _allowed(look: MoldLook, falls: Sequence[Fall], times: float | None) -> Iterator[str]:
    cast = seams_of(look).cast
    if not cast.sure:
        yield "No seam of this mold is reached by what is cast: the level must not fall at all."
        return
    if cast.liquid.kind == "resin" and not isfinite(cast.widest):
        return
    if not falls or times is None:
        gap = format_cut_length(cast.widest, look.system)
        yield (
            f"The slurry rests in gaps below {gap}: single drops of water do no harm; close whatever runs in "
            "a thread."
        )
        return
    first, last = falls[0], falls[-1]
    seen = SEAMS["seen"].value
    if first.volume > MOST_OF_IT * look.piece.levels.total:
        yield (
            f"The {cast.liquid.name} gels so soon that through any gap it minds water would run out as you "
            f"watch: let the level fall by no more than {format_length(seen, look.system)} in "
            f"{format_duration(first.time)}; that is stricter than it needs."
        )
        return
    told = (
        f"{format_length(max(each.drop, seen), look.system)} ({format_volume(each.volume, look.system)}) in "
        f"{format_duration(each.time)}"
        for each in falls
    )
    may = format_mass(cast.allowed, look.system)
    yield (
        f"It may fall by {' and by '.join(told)}: the gaps are then narrow enough for {may} of "
        f"{cast.liquid.name} to be lost at most. In {format_duration(last.time)} water loses "
        f"{_times(times)} the volume that the {cast.liquid.name} loses until it gels."
    )


def _times(times: float) -> str:
    return f"{times:.0f} times" if times >= 1.5 else f"{times:.1f} times"


def drying_words(look: MoldLook) -> Iterator[str]:
    """Say how the mold is dried.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Yields
    ------
    str
    """
    if look.fill is None:
        yield (
            f"{look.casting.name} is mixed with water itself: wipe puddles out, that is all. Between "
            "castings let the cut dry, or it smells."
        )
        return
    dries, low, high = (
        format_duration(value)
        for value in (SEAMS["dries"].value, SEAMS["dries"].low or 0.0, SEAMS["dries"].high or 0.0)
    )
    yield (
        f"Take the box off, {_opened(look)}wipe, and let a fan blow on it: {dries} ({low} to "
        f"{high}; common practice). Water sits behind the rubber{_in_cut(look)} long after the cavity is dry."
    )
    yield (
        "It is dry when a paper towel pressed in deep, and behind the rubber, stays dry, and two "
        "weighings an hour apart show the same to the scale's step."
    )
    yield (
        "Resin on damp rubber or wet wood foams and stays cloudy or sticky there; let box boards dry apart, "
        "flat, with air on both sides."
    )


def _or_more(look: MoldLook) -> str:
    return " and what skin and shell weigh" if look.mold.choices.way == "skin" else ""


def _opened(look: MoldLook) -> str:
    return "open the cut with a stick, " if seams_of(look).cast.sure else ""


def _in_cut(look: MoldLook) -> str:
    return " and in the cut" if seams_of(look).cast.sure else ""


def water_cautions(look: MoldLook, mass: float) -> Iterator[str]:
    """Warn of the weight of the mold full of water.

    Parameters
    ----------
    look : MoldLook
        The mold.
    mass : float
        With the water [kg].

    Yields
    ------
    str
    """
    if people_to_lift(mass) > 1:
        told = format_mass(mass, look.system)
        yield (
            f"Full of water the mold weighs {told}{_or_more(look)}: fill it and empty it where it stands, on "
            "a bench or floor that bears it, away from sockets and cords."
        )
