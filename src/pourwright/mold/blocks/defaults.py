"""What is taken of the screws and boards of space blocks where the job does not say it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_INCH = 0.0254

BLOCKS: Mapping[str, Sourced] = MappingProxyType(
    {
        "screw_diameter": Sourced(0.004, "m", 0.0035, 0.005, Kind.PRACTICE, _PRACTICE, "predrilled"),
        "screw_grip": Sourced(
            0.020, "m", 0.015, 0.030, Kind.PRACTICE, _PRACTICE, "thread in a block that is thick enough"
        ),
        "screw_cover": Sourced(
            0.004, "m", 0.003, 0.006, Kind.PRACTICE, _PRACTICE, "wood left before the tip of a screw"
        ),
        "screw_spacing": Sourced(
            0.25, "m", 0.20, 0.30, Kind.PRACTICE, _PRACTICE,
            "one for so much of either side, so that no gap opens for rubber to creep behind",
        ),
        "least_screws": Sourced(2.0, "", 2.0, 4.0, Kind.PRACTICE, _PRACTICE, "on one the block turns"),
    }
)  # fmt: skip
"""Default of each number, SI."""

LENGTHS_METRIC = tuple(mm / 1000 for mm in (20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120))
LENGTHS_US = tuple(inch * _INCH for inch in (0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0, 3.5, 4.0))
"""Lengths of wood screws as sold [m]."""
