"""What the size ledger assumes where the job says nothing, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

DEFAULTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "warm_share": Sourced(
            0.75, "", 0.5, 1.0, Kind.PRACTICE, _PRACTICE,
            "of the resin's warmth as it gels, that the rubber around it has on average in its box",
        ),
        "held": Sourced(
            0.5, "", 0.0, 1.0, Kind.PRACTICE, _PRACTICE,
            "how far panels keep warm rubber from sliding up: 0 waxed boards, 1 rubber that sticks",
        ),
        "rim_rises": Sourced(
            0.0, "", 0.0, 0.5, Kind.PRACTICE, _PRACTICE,
            "how far the level is that of the rubber's own rim: dips count from the panels, which stay",
        ),
        "touching": Sourced(
            0.5, "", 0.0, 1.0, Kind.PRACTICE, _PRACTICE,
            "a poured bed between grains apart and grains that are one body: they touch, not grown together",
        ),
        "cure_reached": Sourced(
            0.92, "", 0.82, 1.0, Kind.MEMORY, "families-from-memory",
            "how far a casting resin cures in weeks in a shop; a cool shop leaves it lower",
        ),
        "gel_warmth": Sourced(
            0.35, "", 0.0, 0.8, Kind.PRACTICE, _PRACTICE,
            "temperature at gel, from the shop up to the resin's limit: thin pours gel cold, deep ones warm",
        ),
        "mineral_warmth": Sourced(
            5.0, "K difference", 0.0, 15.0, Kind.PRACTICE, _PRACTICE,
            "gypsum and concrete warm up mostly after they have set",
        ),
        "caliper": Sourced(
            0.0002, "", 0.0001, 0.0005, Kind.PRACTICE, _PRACTICE,
            "a shrinkage measured with a long caliper: a tenth of a millimetre on half a metre",
        ),
        "thermometer": Sourced(
            3.0, "K difference", 1.0, 5.0, Kind.PRACTICE, _PRACTICE, "one place for the whole of a pour",
        ),
    }
)  # fmt: skip
"""Default of each number, SI; ``low`` and ``high`` are its range."""
