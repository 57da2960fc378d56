"""What a shop near or below freezing does that no heat run sees."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from pourwright.app.defaults import DEFAULTS
from pourwright.app.setup import Setup
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_duration, format_temperature
from pourwright.planner.decide import Decision
from pourwright.pour.defaults import DEFAULTS as POUR

FREEZING = 273.15


def cold_words(coldest: float, system: UnitSystem) -> Iterator[str]:
    """Say what a cold shop means.

    Parameters
    ----------
    coldest : float
        Lowest temperature of the air [K].
    system : UnitSystem
        For the words.

    Yields
    ------
    str
        Nothing from some 10 degC on.
    """
    limit = DEFAULTS["cold_shop"].value
    if coldest >= limit:
        return
    here, least = format_temperature(coldest, system), format_temperature(limit, system)
    text = f"{here} in the shop is below what data sheets of casting resins allow, mostly {least} or more"
    if coldest < FREEZING:
        text += "; frost on glass and mold, and its water in the resin, are not reckoned"
    yield f"{text}; warm the shop, or pour on another day"


def refuse_unset(setup: Setup, decision: Decision) -> None:
    """Refuse a plan whose resin stays liquid.

    Parameters
    ----------
    setup : Setup
        With its shop.
    decision : Decision
        The plan as it was run.

    Raises
    ------
    UserError
        For the first pour that has places not gelled after three weeks.
    """
    for number, pour in enumerate(decision.final.pours, 1):
        if not isfinite(max(pour.gel_first, pour.gel_last, pour.bonds_from)):
            key = "shop.temperature" if setup.job.shop.temperature else "shop.night_temperature"
            weeks = format_duration(POUR["stall_after"].value)
            raise UserError(
                f"pour {number} does not set in this shop: {weeks} later places in it are still liquid",
                where=setup.job.where(key),
                todo="warm the shop or build a warm box, as the data sheet allows; or take a faster resin",
            )
