"""What is said in words about bottles: crush or buy, what is left over, steps, warnings, cautions.

Limits for dust are those of the United States [osha-1910-1000].
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pourwright.app.crushing import Crushing
from pourwright.app.filling.look import FillLook
from pourwright.fill.bottles.defaults import BOTTLES
from pourwright.fill.mineral_defaults import DUST
from pourwright.foundation.notation import (
    UnitSystem,
    format_duration,
    format_mass,
    format_money,
    format_share,
)
from pourwright.jobs.fill_bottles import ColourBottles, Drying
from pourwright.jobs.job import Job

_HOUR = 3600.0
PLAIN_DUST = ("nuisance", "nuisance_fine")
LEAST_LEFT = 0.05
"""Less than this is not worth a bucket of its own [kg]."""
BAD_FIT = 0.03
"""Share that the law misses a weighing by, from which on it is told."""

STEPS = (
    "Collect one colour at a time; sort out what the list names.",
    "Soak over night in warm water and washing soda; labels, glue, caps and rings off; rinse.",
    "Crush wet, under water or in a stout bag, never open to the air.",
    "Stack the sieves, the widest on top; sieve wet, in small lots; what stays on top is crushed again.",
    "Rinse each grade on its sieve until the water stays clear.",
    "Spread it on trays, one grade and one colour to a tray; dry and weigh until it keeps its weight.",
    "Into lidded buckets while it is dry; colour, grade and date on the lid.",
)


def recommended(colours: Sequence[ColourBottles], job: Job) -> str:
    """Say whether to crush or to buy.

    Parameters
    ----------
    colours : sequence of ColourBottles
        With their work and prices.
    job : Job
        For its currency.

    Returns
    -------
    str
        One recommendation.
    """
    open_ones = [each for each in colours if not each.bought]
    settled = [each.colour for each in colours if each.bought]
    if not open_ones:
        return f"Bought graded, as the job says: {', '.join(settled)}."
    told = _between(open_ones, "" if job.prices is None else job.prices.currency)
    return f"{told} As the job says, {', '.join(settled)} comes graded." if settled else told


def _between(colours: Sequence[ColourBottles], currency: str) -> str:
    hours = sum(each.total_h for each in colours)
    work = format_duration(hours * _HOUR)
    own, bought = _sum([each.work_price for each in colours]), _sum([each.bought_price for each in colours])
    if own is not None and bought is not None:
        return " ".join(_priced(colours, currency))
    if bought is not None:
        turns = format_money(bought / hours, currency)
        return (
            f"Buy it graded, {format_money(bought, currency)}, unless an hour of work is worth less than "
            f"{turns} to you: crushing it takes {work}. Set prices.hour to have it weighed."
        )
    if own is not None:
        return (
            f"Crush it, {work} or {format_money(own, currency)} of work, unless graded glass in these "
            "colours costs less than that. Set prices.glass to have it weighed."
        )
    return f"Crush it: {work} of work. Set prices.glass and prices.hour to weigh that against graded glass."


def _sum(amounts: Sequence[float | None]) -> float | None:
    known = [amount for amount in amounts if amount is not None]
    return sum(known) if len(known) == len(amounts) else None


def _priced(colours: Sequence[ColourBottles], currency: str) -> Iterator[str]:
    for take, verb in (("buy", "Buy"), ("crush", "Crush")):
        named = [each for each in colours if each.take == take]
        if not named:
            continue
        own = format_money(sum(each.work_price or 0.0 for each in named), currency)
        bought = format_money(sum(each.bought_price or 0.0 for each in named), currency)
        turns = format_money(
            sum(each.bought_price or 0.0 for each in named) / sum(each.total_h for each in named), currency
        )
        names = " and ".join(each.colour for each in named)
        then = "; then name it in bottles.bought" if take == "buy" else ""
        yield (
            f"{verb} {names}: {bought} graded against {own} of work; both cost the same at {turns} "
            f"an hour{then}."
        )


def left_words(colours: Sequence[ColourBottles], system: UnitSystem) -> str:
    """Say what is left over once the bands have their glass.

    Parameters
    ----------
    colours : sequence of ColourBottles
        With their grades.
    system : UnitSystem
        Of the masses.

    Returns
    -------
    str
        One line.
    """
    told = [_left(each, system) for each in colours if not each.bought and each.bottles]
    return "; ".join(text for text in told if text)


def _left(each: ColourBottles, system: UnitSystem) -> str:
    parts = {grade.grade: grade.left_kg for grade in each.grades}
    parts |= {"too coarse, to crush again": each.over_kg, "fines and dust": each.rest_kg}
    amounts = [f"{format_mass(mass, system)} {name}" for name, mass in parts.items() if mass >= LEAST_LEFT]
    return f"{each.colour} {', '.join(amounts)}" if amounts else ""


def water_does(family: str) -> str:
    """Say what a film of water does to a resin.

    Parameters
    ----------
    family : str
        Of the resin.

    Returns
    -------
    str
        In the maker's words.
    """
    plain = "A film of water keeps the resin off the grain: cloudy white borders, bubbles, no grip."
    if "urethane" in family.lower():
        return f"{plain} Isocyanate and water make gas: it foams."
    if "polyester" in family.lower():
        return f"{plain} Polyester stays soft and cloudy where it is wet."
    return (
        f"{plain} The hardener's amine takes up water and the air's carbonic acid: blush, a greasy white "
        "bloom, and soft skins around the grains. (A polyurethane would foam.)"
    )


def bottle_warnings(
    look: FillLook, crushing: Crushing, colours: Sequence[ColourBottles], drying: Drying
) -> Iterator[str]:
    """List what the maker should think about.

    Parameters
    ----------
    look : FillLook
        The fill.
    crushing : Crushing
        Yields.
    colours : sequence of ColourBottles
        Bottles.
    drying : Drying
        Trays.

    Yields
    ------
    str
    """
    sizes = crushing.yields.sizes
    if sizes is not None and sizes.residual > BAD_FIT:
        yield (
            f"The law of sizes misses a weighed sieve by {format_share(sizes.residual)}: yields "
            "of grades whose own two sieves were not weighed are rough; weigh those sieves too."
        )
    yield from _overlapping(
        crushing, {grade.grade for each in colours for grade in each.grades if grade.wanted_kg}
    )
    lightest = min(tray.glass_kg for tray in drying.trays)
    if lightest < drying.least_on_scale_kg * (1 - 1e-9):
        least = format_mass(drying.least_on_scale_kg, look.system)
        yield (
            f"The scale is too coarse to tell {format_share(drying.constant, digits=1)} of the lightest tray:"
            f" weigh trays of {least} or more, or put several on the scale together."
        )
    if look.job.bottles.dried == "room" and look.job.shop.humidity > BOTTLES["damp_room"].value:
        damp = format_share(look.job.shop.humidity)
        yield f"At {damp} humidity trays dry slowly in the room: warm air, or count on days."


def _overlapping(crushing: Crushing, wanted: set[str]) -> Iterator[str]:
    """Grades that want the same grains are counted as if each had its own."""
    grades = sorted((crushing.glass.grade(name) for name in wanted), key=lambda grade: grade.sieve_from.value)
    for finer, coarser in pairwise(grades):
        if coarser.sieve_from.value < finer.sieve_to.value * (1 - 1e-9):
            yield (
                f"{finer.id} and {coarser.id} share sieve sizes: their bottles are counted as if each had "
                "grains of its own; collect more."
            )


def bottle_cautions(dried: str) -> Iterator[str]:
    """List what may hurt at the bottles.

    Parameters
    ----------
    dried : str
        How the trays are dried.

    Yields
    ------
    str
    """
    total, lungs = (f"{DUST[name].value:g} mg/m³" for name in PLAIN_DUST)
    yield (
        "Breaking bottles throws splinters: closed safety glasses, cut-proof gloves and sleeves, stout "
        "shoes; in a bag or under water, nobody else near."
    )
    yield (
        f"Glass dust: {total} of air in all and {lungs} of what reaches the lungs over a shift is the "
        "limit at work in the United States (29 CFR 1910.1000 Table Z-1); local rules may be stricter. Crush "
        "and sieve wet: it keeps the dust down. Sweep wet, no air gun; mask of class P2 or N95."
    )
    yield (
        "Keep wet glass slurry off drains: let it settle in a tub, pour off the clear water, dry the rest "
        "and give it to the waste. Washing soda is caustic: gloves and glasses."
    )
    if dried == "oven":
        yield (
            "Oven: a workshop oven, never one for food; no plastic trays; let the glass cool to the shop's "
            "temperature before resin touches it, warm glass shortens the pot life."
        )
