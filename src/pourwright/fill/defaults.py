"""What the fill room assumes where the job says nothing, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

DEFAULTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "film": Sourced(
            0.1e-3, "m", 0.05e-3, 0.3e-3, Kind.PRACTICE, _PRACTICE,
            "resin that clings to the mold's face, the funnel and the stick, per face area",
        ),
        "bucket_loss": Sourced(
            0.02, "", 0.01, 0.05, Kind.PRACTICE, _PRACTICE, "share of what is mixed that stays in the pail",
        ),
        "allowance": Sourced(
            0.05, "", 0.03, 0.10, Kind.PRACTICE, _PRACTICE,
            "a leak, a bed looser than thought, the top planed off; running short is worse",
        ),
        "void_fraction": Sourced(
            0.45, "", 0.42, 0.50, Kind.MEMORY, "families-from-memory",
            "poured crushed glass of one grade, where its record gives none; tapped 0.38 to 0.43",
        ),
        "tapped": Sourced(
            0.405, "", 0.38, 0.43, Kind.MEMORY, "families-from-memory",
            "void fraction of one grade of crushed glass, tapped down; poured it is 0.42 to 0.50",
        ),
        "settles": Sourced(
            0.3, "", 0.1, 0.6, Kind.PRACTICE, _PRACTICE,
            "share of what tapping moves that a poured bed goes by itself: the mold is moved, resin runs in",
        ),
        "shell_grains": Sourced(
            3.0, "", 3.0, 5.0, Kind.PRACTICE, _PRACTICE,
            "largest grains in the thickness of a shell of colour, or the core shows through",
        ),
        "core_grains": Sourced(
            3.0, "", 3.0, 6.0, Kind.PRACTICE, _PRACTICE,
            "largest grains across the core in a shell of colour, or nothing of it can be filled",
        ),
        "reference_bucket": Sourced(
            0.010, "m3", 0.005, 0.030, Kind.PRACTICE, _PRACTICE,
            "the bucket that void fractions are taken to be measured in, where none is named",
        ),
        "water_test_error": Sourced(
            0.02, "", 0.01, 0.03, Kind.PRACTICE, _PRACTICE,
            "half the band where the voids were filled with water: air stays between fine grains",
        ),
        "bucket_test_error": Sourced(
            0.01, "", 0.005, 0.02, Kind.PRACTICE, _PRACTICE,
            "scale to 1 % and bucket struck off level: half the band of a bucket test",
        ),
        "stated_error": Sourced(
            0.02, "", 0.01, 0.04, Kind.PRACTICE, _PRACTICE,
            "half the band of a void fraction written in the job without a test",
        ),
    }
)  # fmt: skip
"""Default of each choice, SI; ``low`` and ``high`` are the usual range."""

LOWEST_VOID = 0.20
LOWEST_UNTESTED_VOID = 0.40
HIGHEST_VOID = 0.70
