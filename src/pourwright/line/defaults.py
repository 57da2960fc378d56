"""What a line of work assumes where nobody said it, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_HOUR = 3600.0

LINE: Mapping[str, Sourced] = MappingProxyType(
    {
        "rest": Sourced(
            12 * _HOUR, "s", 0.0, 48 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "rubber gives off what it took up from the resin; molds that rest last longer",
        ),
        "pace": Sourced(
            0.20, "", 0.10, 0.35, Kind.PRACTICE, _PRACTICE,
            "by which the hours of a month differ from what was thought, two months of three",
        ),
        "curing": Sourced(
            0.10, "", 0.05, 0.20, Kind.PRACTICE, _PRACTICE,
            "by which the time until a casting may leave its mold differs, two castings of three",
        ),
        "kept": Sourced(0.90, "", 0.80, 0.95, Kind.PRACTICE, _PRACTICE, "how often a promised date holds"),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""
