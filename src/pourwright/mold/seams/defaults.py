"""What is taken of gaps and liquids where the job does not say it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE, _FAMILY = "common-practice", "families-from-memory"

SEAMS: Mapping[str, Sourced] = MappingProxyType(
    {
        "paper": Sourced(0.0001, "m", 0.00008, 0.00012, Kind.PRACTICE, _PRACTICE, "a sheet of office paper"),
        "gap_box": Sourced(
            0.0002, "m", 0.0001, 0.0005, Kind.PRACTICE, _PRACTICE,
            "sawn edge against a panel, screwed: two sheets of paper go in here and there",
        ),
        "gap_cut": Sourced(
            0.00005, "m", 0.00001, 0.0001, Kind.PRACTICE, _PRACTICE,
            "a clean cut put back mark to mark and pressed shut by the box: no paper goes in",
        ),
        "gap_line": Sourced(
            0.0001, "m", 0.00005, 0.0003, Kind.PRACTICE, _PRACTICE,
            "where two halves meet: as thick as the flash that is scraped off",
        ),
        "leak_share": Sourced(
            0.01, "", 0.005, 0.02, Kind.PRACTICE, _PRACTICE,
            "of what is poured of a liquid: a smear to wipe up, and the spare mixed on top still covers it",
        ),
        "doublings": Sourced(
            1.0, "", 1.0, 2.0, Kind.PRACTICE, _PRACTICE,
            "how often a rubber has got twice as thick when its working time is over",
        ),
        "water_tension": Sourced(
            0.0728, "N/m", 0.070, 0.073, Kind.MEMORY, _FAMILY, "clean water against air at 20 degC"
        ),
        "water_angle": Sourced(
            107.0, "deg", 100.0, 115.0, Kind.MEMORY, _FAMILY, "at which clean water meets cured silicone"
        ),
        "soapy_tension": Sourced(
            0.030, "N/m", 0.025, 0.040, Kind.MEMORY, _FAMILY, "water with a drop of washing-up liquid a litre"
        ),
        "soapy_angle": Sourced(
            60.0, "deg", 30.0, 80.0, Kind.MEMORY, _FAMILY, "at which soapy water meets cured silicone"
        ),
        "bleed": Sourced(
            0.02, "", 0.005, 0.05, Kind.PRACTICE, _PRACTICE,
            "share of its mixing water that gypsum or concrete gives off before it sets",
        ),
        "mineral_sets": Sourced(
            3600.0, "s", 900.0, 14400.0, Kind.PRACTICE, _PRACTICE,
            "until no water comes out any more: gypsum a quarter of an hour, concrete some hours",
        ),
        "yield_stress": Sourced(
            15.0, "Pa", 5.0, 100.0, Kind.MEMORY, _FAMILY, "of gypsum or fine concrete that is poured"
        ),
        "marks": Sourced(
            24.0, "", 12.0, 30.0, Kind.PRACTICE, _PRACTICE, "marks of a water test that one still fills in"
        ),
        "first_look": Sourced(
            600.0, "s", 300.0, 900.0, Kind.PRACTICE, _PRACTICE, "a leak that matters shows in ten minutes"
        ),
        "test_time": Sourced(
            3600.0, "s", 1800.0, 7200.0, Kind.PRACTICE, _PRACTICE,
            "longer and what the air takes up counts too: some 0.1 mm an hour",
        ),
        "seen": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE, "fall of a level that a ruler shows"
        ),
        "dries": Sourced(
            43200.0, "s", 14400.0, 86400.0, Kind.PRACTICE, _PRACTICE,
            "rubber wiped dry, cut held open, a fan on it: overnight",
        ),
        "rod": Sourced(
            0.010, "m", 0.006, 0.016, Kind.PRACTICE, _PRACTICE, "rod through the floor that holds a core"
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""
