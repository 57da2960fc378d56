"""What holds for stiffness, expansion and change of size where a record does not give them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_FAMILY = "families-from-memory"

SOLID: Mapping[str, Sourced] = MappingProxyType(
    {
        "expansion_soft": Sourced(
            180e-6, "1/K", 150e-6, 220e-6, Kind.MEMORY, _FAMILY, "gelled, above its glass transition",
        ),
        "expansion_glass": Sourced(
            65e-6, "1/K", 50e-6, 80e-6, Kind.MEMORY, _FAMILY, "cured, below its glass transition",
        ),
        "modulus": Sourced(2.8e9, "Pa", 2.0e9, 3.4e9, Kind.MEMORY, _FAMILY, "cured, 23 degC"),
        "poisson_ratio": Sourced(0.37, "", 0.34, 0.40, Kind.MEMORY, _FAMILY, "cured, 23 degC"),
        "strain_at_break": Sourced(
            0.03, "", 0.015, 0.06, Kind.MEMORY, _FAMILY,
            "pulled slowly, cured, 23 degC; data sheets call it elongation at break",
        ),
        "strain_at_break_soft": Sourced(
            0.05, "", 0.025, 0.12, Kind.MEMORY, _FAMILY, "gelled, above its glass transition",
        ),
    }
)  # fmt: skip
"""A casting epoxy of no particular family, SI; expansions by length."""

GLASS: Mapping[str, Sourced] = MappingProxyType(
    {
        "expansion": Sourced(9.0e-6, "1/K", 8.5e-6, 9.5e-6, Kind.PUBLISHED, "en-572-1", "soda lime glass"),
        "modulus": Sourced(70e9, "Pa", 68e9, 74e9, Kind.PUBLISHED, "en-572-1", "soda lime glass"),
        "poisson_ratio": Sourced(0.2, "", 0.2, 0.24, Kind.PUBLISHED, "en-572-1", "soda lime glass"),
    }
)  # fmt: skip
"""Soda lime glass, SI; expansion by length."""

RUBBER: Mapping[str, Sourced] = MappingProxyType(
    {
        "expansion": Sourced(
            280e-6, "1/K", 200e-6, 330e-6, Kind.MEMORY, "polymer-data-handbook-1999",
            "by length; unfilled silicone 9.2e-4 /K by volume, fillers lower it",
        ),
        "tensile_strength": Sourced(3.5e6, "Pa", 2.0e6, 5.5e6, Kind.MEMORY, _FAMILY, "cured, a "
        "fresh test piece"),
        "tear_strength": Sourced(
            18e3, "N/m", 10e3, 25e3, Kind.MEMORY, _FAMILY,
            "of an angle or crescent, as data sheets print it; torn like trousers it is a fraction",
        ),
        "bulk_modulus": Sourced(
            1.2e9, "Pa", 0.8e9, 1.6e9, Kind.MEMORY, "polymer-data-handbook-1999", "much stiffer than soft",
        ),
    }
)  # fmt: skip
"""A silicone mold rubber, SI."""

MINERAL: Mapping[str, Sourced] = MappingProxyType(
    {
        "setting_shrinkage": Sourced(
            0.0, "", -0.003, 0.001, Kind.MEMORY, _FAMILY,
            "by length, set and dry; gypsum grows, concrete shrinks, the record does not say which it is",
        ),
    }
)  # fmt: skip
"""A casting material mixed with water; below 0 it grows."""

BOARD: Mapping[str, Sourced] = MappingProxyType(
    {
        "bending_modulus": Sourced(
            1.6e9, "Pa", 1.2e9, 2.5e9, Kind.MEMORY, "en-312",
            "of the weakest board in use, furniture particleboard; the record does not give its own",
        ),
        "bending_strength": Sourced(
            11e6, "Pa", 9e6, 20e6, Kind.MEMORY, "en-312",
            "of the weakest board in use, furniture particleboard; the record does not give its own",
        ),
        "creep_factor": Sourced(
            2.25, "", 1.5, 3.0, Kind.MEMORY, "en-1995-1-1",
            "k_def: bends by 1 + this times as much when the load stays; dry room",
        ),
        "sheet_length": Sourced(
            2.44, "m", 2.4, 2.8, Kind.PRACTICE, "common-practice", "a whole sheet, 8 ft"
        ),
        "sheet_width": Sourced(
            1.22, "m", 1.2, 2.07, Kind.PRACTICE, "common-practice", "a whole sheet, 4 ft"
        ),
    }
)  # fmt: skip
"""A board of no particular kind, on the safe side, SI."""
