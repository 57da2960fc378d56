"""What crushing, washing and drying of bottles take where the job says nothing, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_MEMORY = "families-from-memory"
_HOUR, _MINUTE = 3600.0, 60.0


def _practice(value: float, unit: str, low: float, high: float, why: str) -> Sourced:
    return Sourced(value, unit, low, high, Kind.PRACTICE, _PRACTICE, why)


BOTTLES: Mapping[str, Sourced] = MappingProxyType(
    {
        "label": _practice(
            1 * _MINUTE, "s", 0.5 * _MINUTE, 3 * _MINUTE,
            "one bottle: label, glue and neck ring off after a night in warm water and washing soda, rinsed",
        ),
        "soak": _practice(
            12 * _HOUR, "s", 8 * _HOUR, 24 * _HOUR, "a night in warm water and soda: labels slide off",
        ),
        "soaking": _practice(
            15 * _MINUTE, "s", 10 * _MINUTE, 30 * _MINUTE, "bottles into tubs, warm water and soda on them",
        ),
        "crushing": _practice(
            3 * _MINUTE, "s", 1 * _MINUTE, 10 * _MINUTE,
            "a kilogram of bottles by hand in a bag or under water; a crusher takes less",
        ),
        "sieving": _practice(
            2 * _MINUTE, "s", 1 * _MINUTE, 5 * _MINUTE, "a kilogram through stacked sieves, wet",
        ),
        "washing": _practice(
            2 * _MINUTE, "s", 1 * _MINUTE, 4 * _MINUTE,
            "a kilogram of a grade in a sieve, rinsed until the water stays clear",
        ),
        "drying": _practice(
            1 * _MINUTE, "s", 0.5 * _MINUTE, 2 * _MINUTE, "a kilogram spread, turned, weighed; not the wait",
        ),
        "change": _practice(
            15 * _MINUTE, "s", 5 * _MINUTE, 30 * _MINUTE,
            "a colour: crusher, sieves and tubs made clean before the next",
        ),
        "mass_error": _practice(
            0.02, "", 0.003, 0.03, "share of the glass that may be lost between two weighings, mostly dust",
        ),
        "least_yield": _practice(
            0.005, "", 0.001, 0.02, "a grade that less of the glass ends in is not worth crushing for",
        ),
        "constant": _practice(
            0.001, "", 0.0005, 0.002, "share that a tray may still lose in an hour and count as dry",
        ),
        "weigh_every": _practice(1 * _HOUR, "s", 0.5 * _HOUR, 2 * _HOUR, "between two weighings of a tray"),
        "tray": _practice(
            2.0, "kg", 1.0, 3.0, "on 400 by 300 mm, a finger's breadth deep: it dries through",
        ),
        "water_film": _practice(
            30e-6, "m", 10e-6, 50e-6,
            "clings to drained glass: about what wet gravel (1 %) and wet sand (4 %) hold by weight",
        ),
        "damp_room": _practice(0.7, "", 0.6, 0.8, "relative humidity above which a room dries trays slowly"),
        "cookware_expansion": Sourced(
            3.3e-6, "1/K", 3.2e-6, 4.0e-6, Kind.MEMORY, _MEMORY, "heat-proof borosilicate glass, by length",
        ),
        "crystal_density": Sourced(
            2950.0, "kg/m3", 2900.0, 3100.0, Kind.MEMORY, _MEMORY, "crystal with a quarter of lead oxide",
        ),
    }
)  # fmt: skip
"""Times of one person, for the unit named; SI. ``low`` and ``high`` are the usual range."""

DRYING: Mapping[str, Sourced] = MappingProxyType(
    {
        "room": _practice(
            24 * _HOUR, "s", 12 * _HOUR, 72 * _HOUR, "thin on trays in a heated room, air moving"
        ),
        "warm air": _practice(
            6 * _HOUR,
            "s",
            4 * _HOUR,
            12 * _HOUR,
            "a fan heater or a warm box, hot to the hand, the damp air let out",
        ),
        "oven": _practice(
            2 * _HOUR,
            "s",
            1 * _HOUR,
            4 * _HOUR,
            "a workshop oven just above the boiling of water, metal trays; then cooled down",
        ),
    }
)
"""How long trays take to constant weight, by the way they are dried."""

_INVENTED = "invented"
KINDS: Mapping[str, Sourced] = MappingProxyType(
    {
        name: Sourced(mass, "kg", low, high, Kind.INVENTED, _INVENTED, "empty, without cap; weigh your own")
        for name, mass, low, high in (
            ("wine 0.75 l", 0.45, 0.35, 0.60),
            ("sparkling wine 0.75 l", 0.85, 0.80, 0.95),
            ("beer 0.5 l", 0.36, 0.30, 0.40),
            ("beer 0.33 l", 0.22, 0.18, 0.30),
            ("jar 0.37 l", 0.19, 0.16, 0.24),
        )
    }
)
"""Empty bottles to start from, invented."""
