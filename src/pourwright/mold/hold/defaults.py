"""What is taken of bars and screws where the job does not say it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

HOLD: Mapping[str, Sourced] = MappingProxyType(
    {
        "bend_limit": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE,
            "the open face moves by as much against the rubber's level: more is seen at the mouth",
        ),
        "bar_share": Sourced(
            1 / 3, "", 0.25, 0.4, Kind.PRACTICE, _PRACTICE, "of the stress that breaks it: knots, slope",
        ),
        "screw": Sourced(0.004, "m", 0.0035, 0.0045, Kind.PRACTICE, _PRACTICE, "wood screw up to 70 mm long"),
        "long_screw": Sourced(0.005, "m", 0.0045, 0.006, Kind.PRACTICE, _PRACTICE, "one over 70 mm long"),
        "screw_depth": Sourced(
            0.020, "m", 0.015, 0.040, Kind.PRACTICE, _PRACTICE, "of thread that a screw should have to hold",
        ),
        "screw_cover": Sourced(
            0.005, "m", 0.003, 0.010, Kind.PRACTICE, _PRACTICE, "of wood left in front of a screw's point",
        ),
        "screw_edge": Sourced(
            0.020, "m", 0.015, 0.030, Kind.PRACTICE, _PRACTICE, "between a screw and the nearest edge",
        ),
        "screw_pitch": Sourced(
            0.040, "m", 0.030, 0.060, Kind.PRACTICE, _PRACTICE, "between two: ten times their diameter",
        ),
    }
)  # fmt: skip
"""Default of each number, SI."""

LENGTHS = (0.025, 0.030, 0.035, 0.040, 0.045, 0.050, 0.060, 0.070, 0.080, 0.090, 0.100, 0.120, 0.140)
"""Wood screws as sold [m]; common practice, no source."""
LONG = 0.070
"""Longer ones are thicker [m]."""
SECTIONS = ((0.045, 0.045), (0.045, 0.070), (0.045, 0.095), (0.045, 0.120), (0.045, 0.145), (0.045, 0.170))
"""Planed laths and boards as sold, set on edge: width and height [m]; common practice, no source."""
MOST_BARS = 6
