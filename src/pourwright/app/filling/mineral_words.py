"""What is said in words of gypsum and concrete: how it is mixed, what goes wrong, what hurts."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.filling.look import FillLook
from pourwright.app.setup import ANY_DAY, climate
from pourwright.fill.mineral_batches import MineralBatches
from pourwright.fill.mineral_defaults import DUST, MINERALS
from pourwright.fill.setting import Setting
from pourwright.foundation.notation import (
    format_duration,
    format_share,
    format_temperature,
    format_temperature_difference,
)
from pourwright.materials import Mineral as Record

GYPSUM_HAND = (
    "Never put a hand or an arm into setting plaster, and never cast a living body in it: it gets hot "
    "enough to burn deep, stays so for long, and cannot be pulled off. Fingers have been lost."
)
WET_CEMENT = (
    "Wet cement is caustic: it burns skin, slowly and at first without pain, and blinds eyes. Goggles, "
    "waterproof gloves, wet clothes off at once; rinse with much water, eyes for a quarter of an hour, "
    "then a doctor."
)
DRAIN = (
    "Nothing of it down the drain: what is left sets in the pipe. Let it harden in the pail and throw it "
    "away dry."
)
ALKALI = (
    "Glass in concrete: where it stays damp the cement's alkali eats the glass, and the gel that forms "
    "swells and cracks the piece over years. Take a cement low in alkali, put a pozzolan or very fine "
    "glass powder in the place of a fifth of the cement, keep the piece dry. Nothing outdoors, nothing "
    "that bears a load or hangs over people, unless a licensed engineer has tested and signed for this "
    "very mix."
)


def mixing_steps(look: FillLook, record: Record, made: MineralBatches | None) -> list[str]:
    """Say how it is mixed and filled, in order.

    Parameters
    ----------
    look : FillLook
        With its mix.
    record : Mineral
        The casting material.
    made : MineralBatches or None
        Its batches.

    Returns
    -------
    list of str
    """
    if made is None:
        return ["As its data sheet says: the record has no times."]
    return list(_gypsum(look) if record.binder == "gypsum" else _cement(look))


def _minutes(name: str) -> str:
    return format_duration(MINERALS[name].value)


def _gypsum(look: FillLook) -> Iterator[str]:
    yield "Cold clean water into a clean pail first; the clock starts with the first powder."
    yield "Sprinkle the powder in evenly, never water onto powder, until it stands as an island for a moment."
    yield (
        f"Leave it {_minutes('gypsum_soaking')} to soak, then stir {_minutes('gypsum_stirring')} below the "
        "surface: no air."
    )
    if look.mix is not None and look.mix.aggregate:
        yield (
            "Stir the glass in last, dry and free of dust, and pour before it sinks: it settles in thin "
            "gypsum."
        )
    yield "Pour in one thin stream into one low place and let it rise; knock the box, not the piece."


def _cement(look: FillLook) -> Iterator[str]:
    yield (
        "Three quarters of the water into the pail, the powder into it, then the rest of the water as it "
        "asks for it."
    )
    yield (
        f"Mix {_minutes('cement_stirring')} slowly until nothing is dry, rest "
        f"{_minutes('cement_soaking')}, stir once more. Water added later makes it weak."
    )
    if look.mix is not None and look.mix.aggregate:
        yield "Stir the glass in last, washed: sugar left in bottles keeps cement from setting."
    yield "Fill in layers as deep as a hand, knock or vibrate each until no bubbles come, then go on."
    yield (
        "Cover it with foil at once. Keep it moist for a week after demolding: it hardens by water, not by "
        "drying."
    )


def mineral_warnings(
    look: FillLook, record: Record, made: MineralBatches | None, found: Setting | None
) -> Iterator[str]:
    """Say what of this mix may go wrong.

    Parameters
    ----------
    look : FillLook
        With its mix.
    record : Mineral
        The casting material.
    made : MineralBatches or None
        Its batches.
    found : Setting or None
        Its heat.

    Yields
    ------
    str
    """
    mix = look.mix
    assert mix is not None
    yield from _water(record, mix.water_ratio)
    coldest, least = min(climate(look.job, ANY_DAY).hourly), MINERALS["coldest"].value
    if coldest < least:
        yield (
            f"{format_temperature(coldest, look.system)} in the shop is too cold for it: below "
            f"{format_temperature(least, look.system)} it hardens hardly or not at all, and frost bursts it."
        )
    share = look.job.fill.aggregate or 0.0
    if not share and any(band.grade for band in look.job.band):
        yield "The bands are left out: they are for resin. Glass is stirred in with fill.aggregate = 0.3."
    if share >= MINERALS["stiff_from"].value:
        yield (
            f"Glass in {format_share(share)} of the volume makes a mix that hardly flows: try a small "
            "batch first."
        )
    if made is not None:
        yield from _joints(record, made)
    if (
        record.binder == "cement"
        and not look.heat
        and found is not None
        and found.rise > MINERALS["core_to_face"].value
    ):
        limit = format_temperature_difference(MINERALS["core_to_face"].value, look.system)
        yield (
            f"A thick piece of this mix may get warmer inside than at its faces by more than {limit}, "
            "which cracks them: see --heat; leave it in the mold until it has cooled."
        )


def _water(record: Record, ratio: float) -> Iterator[str]:
    low, high = record.water_ratio.low, record.water_ratio.high
    if low is None or high is None or low <= ratio <= high:
        return
    does = (
        "stiff: it may not run into corners" if ratio < low else "weak and soft, and it shrinks or dusts more"
    )
    yield (
        f"{100 * ratio:.0f} of water to 100 of powder is outside what its record knows ({100 * low:.0f} to "
        f"{100 * high:.0f}): {does}."
    )


def _joints(record: Record, made: MineralBatches) -> Iterator[str]:
    if len(made.each) < 2 or record.working_time is None:
        return
    every, time = format_duration(made.apart), format_duration(record.working_time.value)
    count = len(made.each)
    if made.apart < record.working_time.value:
        yield (
            f"{count} batches, one every {every}: each must be in before the one below is stiff, {time}; "
            "have all of them weighed."
        )
        return
    yield (
        f"{count} batches, one every {every} by one person, and the one below is stiff after {time}: it "
        "shows as a line. Mix in a larger pail, or with more people at once."
    )


def mineral_cautions(look: FillLook, record: Record) -> Iterator[str]:
    """Say what hurts.

    Parameters
    ----------
    look : FillLook
        With its mix.
    record : Mineral
        The casting material.

    Yields
    ------
    str

    Notes
    -----
    Limits for dust are those of the United States [osha-1910-1053], [osha-1910-1000].
    """
    if record.binder != "cement":
        yield GYPSUM_HAND
    if record.binder != "gypsum":
        yield WET_CEMENT
    yield _dust(record)
    if look.mix is not None and look.mix.aggregate and record.binder != "gypsum":
        yield ALKALI
    yield DRAIN
    yield "The bag's safety data sheet and local rules come before all of this."


def _dust(record: Record) -> str:
    silica, action, all_of_it, fine = (
        f"{DUST[name].value:g} {DUST[name].unit.replace('m3', 'm³').replace('ug', 'µg')}"
        for name in ("silica", "silica_action", "nuisance", "nuisance_fine")
    )
    if record.binder == "gypsum":
        return (
            f"Gypsum and glass dust: {all_of_it} in all and {fine} of the fine part over a shift is the "
            "limit at work in the United States (29 CFR 1910.1000). Open bags low, pour powder slowly, "
            "mask of class P2 or N95."
        )
    return (
        f"Cement and sand hold crystalline silica, which scars lungs for good: {silica} over a shift is "
        f"the limit at work in the United States, {action} the level from which it is measured (29 CFR "
        "1910.1053). Mask of class P3 or N100 at the bag, wet sanding and cutting only, vacuum with a "
        "HEPA filter, never a broom."
    )
