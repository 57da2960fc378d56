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
        "grains_in_wall": Sourced(
            3.0, "", 3.0, 5.0, Kind.PRACTICE, "common-practice",
            "largest grains side by side in the narrowest wall: fewer of them jam",
        ),
    }
)  # fmt: skip
"""Values in SI."""
WALLS = ("thin_wall", "usual_wall", "thick_wall")
"""Walls that are offered."""
