"""What is taken for granted about hollow pieces and their cores."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

HOLLOW: Mapping[str, Sourced] = MappingProxyType(
    {
        "thin_wall": Sourced(
            0.015, "m", 0.010, 0.020, Kind.PRACTICE, "common-practice", "least wall of a cast vessel"
        ),
        "usual_wall": Sourced(
            0.020, "m", 0.015, 0.030, Kind.PRACTICE, "common-practice", "wall that bears knocks"
        ),
        "thick_wall": Sourced(
            0.030, "m", 0.020, 0.050, Kind.PRACTICE, "common-practice", "wall that bears a person"
        ),
        "foam_density": Sourced(
            35.0, "kg/m3", 28.0, 45.0, Kind.MEMORY, "families-from-memory", "extruded polystyrene foam"
        ),
        "foam_limit": Sourced(
            348.15, "K", 343.15, 353.15, Kind.MEMORY, "families-from-memory",
            "extruded polystyrene foam is used up to about 75 degC and softens soon after",
        ),
    }
)  # fmt: skip
"""Values in SI."""
WALLS = ("thin_wall", "usual_wall", "thick_wall")
"""Walls that are offered."""
