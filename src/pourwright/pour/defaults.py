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
        "sphericity": Sourced(
            0.65, "", 0.5, 0.75, Kind.MEMORY, "kunii-levenspiel-1991", "crushed glass against balls",
        ),
        "surface_tension": Sourced(
            0.040, "N/m", 0.035, 0.045, Kind.MEMORY, "families-from-memory", "epoxy as mixed",
        ),
        "contact_angle": Sourced(
            60.0, "deg", 30.0, 80.0, Kind.MEMORY, "families-from-memory",
            "resin on washed, dry glass, as it creeps in; dusty glass is wetted worse",
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
        "hard_within": Sourced(
            7 * 86400.0, "s", 3 * 86400.0, 14 * 86400.0, Kind.PRACTICE, "common-practice",
            "a mold is not kept waiting longer than a week for a thin place",
        ),
        "thinnest": Sourced(
            0.003, "m", 0.002, 0.005, Kind.PRACTICE, "common-practice", "thinnest layer or rib that is cast",
        ),
        "thickest": Sourced(
            0.096, "m", 0.05, 0.15, Kind.PRACTICE, "common-practice",
            "what is thicker is no thin place any more",
        ),
        "thin_share": Sourced(
            0.01, "", 0.005, 0.02, Kind.PRACTICE, "common-practice",
            "share of a surface that may be thinner: a scratch or a maker's mark is no section",
        ),
        "dew_margin": Sourced(
            3.0, "K difference", 3.0, 5.0, Kind.PUBLISHED, "iso-8502-4",
            "a surface is kept this far above the dew point; as quoted on secondary pages",
        ),
        "damp_air": Sourced(
            0.85, "", 0.80, 0.85, Kind.PUBLISHED, "iso-8502-4",
            "most relative humidity of the air; as quoted on secondary pages",
        ),
        "blush_after": Sourced(
            3600.0, "s", 1800.0, 7200.0, Kind.MEMORY, "families-from-memory",
            "damp for so long while it sets, the top of a resin with amine hardener turns greasy or white",
        ),
        "warm_box_after": Sourced(
            86400.0, "s", 43200.0, 172800.0, Kind.PRACTICE, "common-practice",
            "from the last gel to the warm box: cured that far, it cannot run hot",
        ),
        "warm_box_ramp": Sourced(
            5.0 / 3600.0, "K/s", 3.0 / 3600.0, 10.0 / 3600.0, Kind.PRACTICE, "common-practice",
            "5 K an hour up and down: mold and core follow; the data sheet decides",
        ),
        "warm_box_step": Sourced(
            5.0, "K difference", 5.0, 10.0, Kind.PRACTICE, "common-practice",
            "what a thermostat is set to in steps of",
        ),
        "warm_box_most": Sourced(
            323.15, "K", 313.15, 333.15, Kind.PRACTICE, "common-practice",
            "hottest that a box of insulation boards is kept without the data sheet saying so",
        ),
        "warm_box_margin": Sourced(
            10.0, "K difference", 5.0, 20.0, Kind.PRACTICE, "common-practice",
            "the box stays this far below the limits of resin and rubber",
        ),
        "warm_box_longest": Sourced(
            86400.0, "s", 43200.0, 172800.0, Kind.PRACTICE, "common-practice",
            "a heater is watched for a day and a night, not longer",
        ),
        "warm_box_short": Sourced(
            8.0, "K difference", 3.0, 12.0, Kind.PRACTICE, "common-practice",
            "the last kelvins of what a resin can reach take as long as all before",
        ),
        "open_within": Sourced(
            5.0, "K difference", 3.0, 10.0, Kind.PRACTICE, "common-practice",
            "a box is opened once the core is this near the shop: hot, a piece is soft and may crack",
        ),
        "service_margin": Sourced(
            10.0, "K difference", 5.0, 20.0, Kind.PRACTICE, "common-practice",
            "a piece in use stays this far below its glass transition",
        ),
        "summer_room": Sourced(
            303.15, "K", 301.15, 308.15, Kind.MEMORY, "families-from-memory", "a room in a hot summer",
        ),
        "parked_car": Sourced(
            333.15, "K", 323.15, 348.15, Kind.MEMORY, "families-from-memory", "a parked car in the sun",
        ),
        "hot_cup": Sourced(
            343.15, "K", 333.15, 353.15, Kind.MEMORY, "families-from-memory", "under a cup of tea",
        ),
        "crack_margin": Sourced(
            2.0, "", 1.5, 3.0, Kind.PRACTICE, "common-practice",
            "a resin that must last is not stretched beyond a half of what broke it once",
        ),
        "crack_halo": Sourced(
            0.0065, "", 0.005, 0.008, Kind.MEMORY, "asp-1996",
            "growth of volume at which epoxy held on all sides breaks, or lets go of the glass",
        ),
        "crack_held": Sourced(
            1.0, "", 0.55, 1.0, Kind.MEMORY, "families-from-memory",
            "share of its contraction that hard resin between touching grains is denied; between grains "
            "stirred in it is their share of the volume",
        ),
        "crack_corner_radius": Sourced(
            0.0005, "m", 0.0003, 0.001, Kind.PRACTICE, "common-practice",
            "an inner corner that nobody has rounded",
        ),
    }
)  # fmt: skip
"""Default of each assumption, SI; ``low`` and ``high`` are the usual range."""
