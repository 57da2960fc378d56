"""What the pour room assumes where the job says nothing, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

DEFAULTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "bench_thickness": Sourced(
            0.04, "m", 0.02, 0.08, Kind.PRACTICE, "common-practice", "a wooden bench top under the mold",
        ),
        "pail_time": Sourced(
            3600.0, "s", 1800.0, 7200.0, Kind.PRACTICE, "common-practice",
            "a mixed pail is poured at once; its own heat shortens the pot life of a small cup",
        ),
        "open_emissivity": Sourced(
            0.9, "", 0.85, 0.95, Kind.MEMORY, "families-from-memory", "resin, rubber, wood in infrared",
        ),
        "room": Sourced(
            293.15, "K", 288.15, 298.15, Kind.PRACTICE, "common-practice",
            "a piece must be hard in any ordinary room, not only in a cold shop",
        ),
        "stall_after": Sourced(
            21 * 86400.0, "s", 14 * 86400.0, 28 * 86400.0, Kind.PRACTICE, "common-practice",
            "a piece not hard after three weeks is warmed, not waited for",
        ),
    }
)  # fmt: skip
"""Default of each assumption, SI; ``low`` and ``high`` are the usual range."""
