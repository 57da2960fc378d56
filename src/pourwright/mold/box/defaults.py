"""What is taken of a box where the job does not say it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

BOX: Mapping[str, Sourced] = MappingProxyType(
    {
        "bulge_limit": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE, "what an eye sees on a flat side"
        ),
        "batten_width": Sourced(0.045, "m", 0.035, 0.050, Kind.PRACTICE, _PRACTICE, "a lath as sold, planed"),
        "batten_depth": Sourced(
            0.070, "m", 0.060, 0.095, Kind.PRACTICE, _PRACTICE, "set on edge against the panel"
        ),
    }
)
"""Default of each number, SI."""
