"""What a shop near or below freezing does that no heat run sees."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.defaults import DEFAULTS
from pourwright.foundation.notation import UnitSystem, format_temperature

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
