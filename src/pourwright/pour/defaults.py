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
        "pail_slenderness": Sourced(
            1.0, "", 0.9, 1.4, Kind.PRACTICE, "common-practice", "height of a pail over its diameter",
        ),
        "pail_wall": Sourced(
            0.002, "m", 0.001, 0.003, Kind.PRACTICE, "common-practice", "wall of a plastic pail",
        ),
        "pail_conductivity": Sourced(
            0.22, "W/(m K)", 0.2, 0.5, Kind.MEMORY, "en-iso-10456",
            "polypropylene; polyethylene conducts more",
        ),
        "bench_conductivity": Sourced(
            0.13, "W/(m K)", 0.1, 0.18, Kind.PUBLISHED, "en-iso-10456", "plywood or soft wood",
        ),
        "pail_warming": Sourced(
            5.0, "K difference", 3.0, 8.0, Kind.PRACTICE, "common-practice",
            "a pour is planned with resin as warm as it was mixed; a pail warmer than that is too late",
        ),
        "pourable_viscosity": Sourced(
            5.0, "Pa s", 3.0, 10.0, Kind.PRACTICE, "common-practice",
            "thinner than honey; thicker, it neither levels nor lets go of its bubbles",
        ),
        "flow_activation_energy": Sourced(
            50000.0, "J/mol", 40000.0, 70000.0, Kind.MEMORY, "families-from-memory",
            "how viscosity falls with warmth",
        ),
        "viscosity_exponent_a": Sourced(
            1.5, "", 1.0, 2.5, Kind.MEMORY, "families-from-memory",
            "how viscosity rises with cure, first exponent",
        ),
        "viscosity_exponent_b": Sourced(
            1.0, "", 0.0, 3.0, Kind.MEMORY, "families-from-memory", "the same, second exponent",
        ),
        "tray_depth": Sourced(
            0.010, "m", 0.005, 0.015, Kind.PRACTICE, "common-practice",
            "resin left over, spread to harden in peace",
        ),
        "tray_margin": Sourced(
            10.0, "K difference", 5.0, 20.0, Kind.PRACTICE, "common-practice",
            "near run-away a little less depth is far cooler: a tray is to stay this far below the limit",
        ),
        "prewarming": Sourced(
            10.0, "K difference", 5.0, 15.0, Kind.PRACTICE, "common-practice",
            "what makers warm resin by so that it runs better",
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
