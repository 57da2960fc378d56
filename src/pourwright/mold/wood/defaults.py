"""What is taken of a saw and of stock where the job does not say it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

WOOD: Mapping[str, Sourced] = MappingProxyType(
    {
        "kerf": Sourced(
            0.003, "m", 0.0015, 0.004, Kind.PRACTICE, _PRACTICE, "the blade of a circular saw, tips included"
        ),
        "trim": Sourced(
            0.010, "m", 0.005, 0.020, Kind.PRACTICE, _PRACTICE,
            "edges of a sheet arrive bruised and out of square",
        ),
        "oversize": Sourced(
            0.005, "m", 0.002, 0.010, Kind.PRACTICE, _PRACTICE, "room to trim a part flush once it is glued"
        ),
        "bar_length": Sourced(2.400, "m", 2.0, 4.0, Kind.PRACTICE, _PRACTICE, "a lath as sold"),
        "strip": Sourced(
            0.150, "m", 0.100, 0.200, Kind.PRACTICE, _PRACTICE,
            "laid across a joint end to end, half on either side"
        ),
    }
)  # fmt: skip
