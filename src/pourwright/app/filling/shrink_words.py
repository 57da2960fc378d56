"""What is said in words of shrinking, sinking, planing and sanding."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.setup import Setup
from pourwright.foundation.notation import UnitSystem, format_bend, format_mass, format_share
from pourwright.jobs.fill_shrinks import Shrinks

BED = (
    "Grains that are poured in dry touch: the bed keeps its height. What the resin loses before gel comes "
    "down from the top, through the bed; what it loses after gel stretches it between the grains, and where "
    "it lets go of the glass a hairline gap is left, the white halo. The volume rule is for glass that was "
    "stirred in."
)
STIRRED = (
    "Grains stirred in lie apart: they keep their own size, so the mix shrinks by the resin's share of the "
    "volume. Glass that sinks and packs at the floor is a bed there, and neat over it."
)
ABRASIVES = (
    "Glass is harder than the common papers: sand into it wet, with diamond pads, or silicon carbide paper "
    "that is soon blunt; aluminium oxide hardly cuts it, and digs out the resin between the grains. A grit "
    "too coarse tears grains out, and each leaves a hole. Common practice, no source."
)
AROUND = (
    "No wall stands so high: set a strip of board or tape around the opening, sealed, or the resin runs out "
    "over the rubber."
)


def notes(setup: Setup, told: Shrinks) -> Iterator[str]:
    """Say what the numbers come to.

    Parameters
    ----------
    setup : Setup
        For the words.
    told : Shrinks
        The numbers.

    Yields
    ------
    str
        One sentence or two each.
    """
    poured = {band.poured for band in told.bands}
    if "bed" in poured:
        yield BED
    if "stirred" in poured:
        yield STIRRED
    yield _sinks(setup, told)
    yield _overfill(setup, told)
    yield from _cover(setup, told)
    if told.sanded:
        yield _hours(told)
        yield ABRASIVES


def warnings(setup: Setup, told: Shrinks) -> Iterator[str]:
    """Say what must be minded.

    Parameters
    ----------
    setup : Setup
        For the words.
    told : Shrinks
        The numbers.

    Yields
    ------
    str
    """
    if 0.0 < told.overfill_m < told.sink_most_m:
        over, most = (format_bend(each, setup.system) for each in (told.overfill_m, told.sink_most_m))
        yield (
            f"The overfill of {over} is less than the top may sink, {most}: the open face ends hollow. Write "
            f"fill.overfill = {written(told.wanted_m, setup.system)}."
        )


def written(length: float, system: UnitSystem) -> str:
    """A length of a few millimetres as the job file holds it.

    Parameters
    ----------
    length : float
        [m]
    system : UnitSystem
        The maker's.

    Returns
    -------
    str
        With its quotes.

    Examples
    --------
    >>> written(0.0025, UnitSystem.METRIC), written(0.0025, UnitSystem.US)
    ('"2.5 mm"', '"0.1 in"')
    """
    return f'"{length * 1e3:.1f} mm"' if system is UnitSystem.METRIC else f'"{length / 0.0254:.2g} in"'


def _sinks(setup: Setup, told: Shrinks) -> str:
    most, whole = (format_bend(each, setup.system) for each in (told.sink_most_m, told.sink_all_m))
    of = " and ".join(told.sinks_of)
    if told.sink_m > 0.0:
        likely = format_bend(told.sink_m, setup.system)
        text = f"The open face sinks by {likely} until it gels, at most {most}"
    else:
        text = f"Warmth swells the open face as much as curing sinks it; gelled cold it sinks by up to {most}"
    together = f", where {of} {'are' if len(told.sinks_of) > 1 else 'is'} the last pour"
    if len(told.sinks_of) == len(told.bands):
        return f"{text}{together}."
    return f"{text}{together}; the whole fill in one pour: at most {whole}."


def _overfill(setup: Setup, told: Shrinks) -> str:
    wanted = format_bend(told.wanted_m, setup.system)
    planing = format_bend(told.planing_m, setup.system)
    planes = (
        f"and {planing} to plane flat" if told.planing_m else "what you plane off stands in the mold already"
    )
    mass = format_mass(told.wanted_kg, setup.system)
    text = f"Pour it {wanted} over: {format_bend(told.sink_most_m, setup.system)} that may sink, {planes}."
    if told.wall_m < told.wanted_m:
        text = f"{text} {AROUND}"
    if told.overfill_m:
        return f"{text} The job mixes {format_bend(told.overfill_m, setup.system)} of it."
    key = f"fill.overfill = {written(told.wanted_m, setup.system)}"
    return f"{text} That is {mass} of resin, mixed only once the job says {key}."


def _cover(setup: Setup, told: Shrinks) -> Iterator[str]:
    if told.cover_m is None or told.cover_grain_m is None or told.cover_m > 10 * told.cover_grain_m:
        return
    left = max(told.cover_m - max(told.sink_most_m - told.overfill_m, 0.0), 0.0)
    lengths = (told.cover_m, left, told.cover_grain_m)
    deep, left_text, wide = (format_bend(each, setup.system) for each in lengths)
    text = f"The neat cover is {deep} deep, the largest grain under it {wide}"
    if told.cover_m <= 0.0:
        yield f"There is no neat cover: planing goes straight into the glass, {wide} at the largest."
    elif left < told.cover_grain_m:
        yield f"{text}; sunk by the most, {left_text} are left: high grains come through as it is planed."
    else:
        yield f"{text}; sunk by the most, {left_text} are left: it can be planed without glass."


def _hours(told: Shrinks) -> str:
    low, high = f"{told.glass_hours_low:g}", f"{told.glass_hours_high:g}"
    deep = max(max(each.glass_shares) for each in told.sanded)
    return (
        f"Sanded through the skin, up to {format_share(deep)} of a side is cut glass, as in terrazzo. "
        f"Reckon {low} to {high} times the hours of resin alone (common practice). Crushed grains lie flat "
        "against the mold and show sooner than the round ones that this is reckoned with."
    )
