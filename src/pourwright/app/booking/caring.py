"""What whoever lives with a piece must mind: heat, sun, load."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.foundation.notation import ZERO_CELSIUS, UnitSystem, format_temperature
from pourwright.jobs.plan import PlanDocument
from pourwright.mold.lifting import lifting_caution
from pourwright.pour.defaults import DEFAULTS

_SUN = "Out of direct sun: cured resin yellows, and a dark band grows warm behind glass."
_LOAD = (
    "What it bears was not reckoned. Load it by degrees with more than it is meant for, close to the floor,"
    " before anybody trusts it."
)
_CLEAN = "Water and a little soap. Solvents and alcohol leave it dull."
_FOOD = "Not for food or drink, unless the data sheet of the resin says so."
_WATER = {
    "gypsum": "Indoors and dry: gypsum grows soft where it stays wet, and dissolves slowly in the rain.",
    "cement": "It drinks what is spilled on it: oil, wine and coffee leave spots unless it is sealed.",
}
_WIPE = "A soft cloth, hardly damp. No vinegar and no other acid."
_FOOD_ON_MINERAL = "Not for food or drink."


@dataclass(frozen=True)
class Care:
    """One thing to mind.

    Parameters
    ----------
    word : str
        As Heat.
    text : str
        What, in a sentence or two.
    """

    word: str
    text: str


def care_of(plan: PlanDocument, mass_kg: float | None) -> tuple[Care, ...]:
    """Say what to mind of a piece.

    Parameters
    ----------
    plan : PlanDocument
        What it was cast by.
    mass_kg : float or None
        As weighed; else as planned.

    Returns
    -------
    tuple of Care
        Heat by the plan's own glass transition, weight by the lifting equation; the rest is common practice.
    """
    units = UnitSystem(plan.job.units)
    heavy = lifting_caution("It", plan.piece.mass_kg if mass_kg is None else mass_kg, units)
    cares = [Care("Heat", heat_words(plan, units)), Care("Sun", _SUN), Care("Load", _LOAD)]
    cares += [Care("Weight", heavy)] if heavy else []
    return (*cares, Care("Cleaning", _CLEAN), Care("Food", _FOOD))


def care_of_mineral(binder: str, mass_kg: float, units: UnitSystem) -> tuple[Care, ...]:
    """Say what to mind of a piece that was mixed with water.

    Parameters
    ----------
    binder : str
        "gypsum", "cement", or empty where it is not known.
    mass_kg : float
        Dry.
    units : UnitSystem
        To write in.

    Returns
    -------
    tuple of Care
        Weight by the lifting equation; the rest is common practice.
    """
    heavy = lifting_caution("It", mass_kg, units)
    cares = [Care("Water", _WATER.get(binder, _WATER["gypsum"])), Care("Load", _LOAD)]
    cares += [Care("Weight", heavy)] if heavy else []
    return (*cares, Care("Cleaning", _WIPE), Care("Food", _FOOD_ON_MINERAL))


def heat_words(plan: PlanDocument, units: UnitSystem) -> str:
    """Say what warmth a piece bears in use.

    Parameters
    ----------
    plan : PlanDocument
        What it was cast by.
    units : UnitSystem
        To write in.

    Returns
    -------
    str
        By the glass transition that it reaches in its shop; as far below as is common practice, where that
        leaves it an ordinary room.
    """
    softens = (
        plan.demold.glass_transition_degC if plan.soft is None else plan.soft.stall.glass_transition_degC
    )
    keep = softens - DEFAULTS["service_margin"].value
    if keep + ZERO_CELSIUS < DEFAULTS["summer_room"].value:
        above = format_temperature(softens + ZERO_CELSIUS, units)
        return (
            f"Cured in the shop it softens above {above}: nothing warm on it, no warm room, no car, no stove"
            " near it. Cured warm, as its data sheet says, it bears more."
        )
    warmest = format_temperature(keep + ZERO_CELSIUS, units)
    return f"Keep it below {warmest}: warmer it softens and bends. No hot pots, no candle, no stove near it."
