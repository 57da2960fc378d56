"""What a costing assumes where nobody said it, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_HOUR, _MINUTE, _DAY = 3600.0, 60.0, 86_400.0

COSTING: Mapping[str, Sourced] = MappingProxyType(
    {
        "old_after": Sourced(
            180 * _DAY, "s", 90 * _DAY, 365 * _DAY, Kind.PRACTICE, _PRACTICE,
            "resin and rubber follow the price of their feedstock; a written offer rarely holds longer",
        ),
        "scrap": Sourced(0.10, "", 0.03, 0.25, Kind.PRACTICE, _PRACTICE, "pieces that fail"),
        "sanding": Sourced(
            30 * _MINUTE, "s/m2", 15 * _MINUTE, 60 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "a square metre with one grit, by machine and by hand in corners, dust wiped off",
        ),
        "change": Sourced(
            3 * _MINUTE, "s", 1 * _MINUTE, 10 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "each grit and each finish, however small the piece: change over, wipe off, look it over",
        ),
        "polishing": Sourced(
            60 * _MINUTE, "s/m2", 30 * _MINUTE, 120 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "a square metre with compound and wheel, two rounds",
        ),
        "satin": Sourced(
            30 * _MINUTE, "s/m2", 15 * _MINUTE, 60 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "a square metre rubbed with a fine pad, oiled or waxed, wiped off",
        ),
        "fixings": Sourced(
            15 * _MINUTE, "s", 5 * _MINUTE, 45 * _MINUTE, Kind.PRACTICE, _PRACTICE, "feet and fixings put on"
        ),
        "photos": Sourced(
            30 * _MINUTE, "s", 15 * _MINUTE, 90 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "set up, taken, chosen, put with the offer",
        ),
        "packing": Sourced(
            30 * _MINUTE, "s", 15 * _MINUTE, 60 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "wrapped, boxed, weighed, labelled",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""

GRITS: Mapping[str, tuple[int, ...]] = MappingProxyType(
    {
        "raw": (),
        "satin": (80, 120, 180, 240, 320, 400),
        "polished": (80, 120, 180, 240, 320, 400, 600, 800, 1500, 3000),
    }
)
"""Grits for each surface, common practice: none more than twice as fine as the one before."""
