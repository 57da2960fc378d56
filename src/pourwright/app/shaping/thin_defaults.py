"""What judging thin parts, corners and edges takes for granted, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

THIN: Mapping[str, Sourced] = MappingProxyType(
    {
        "told": Sourced(
            0.010, "m", 0.005, 0.015, Kind.PRACTICE, _PRACTICE,
            "thicker resin warms itself as it cures; thinner it is as cold as the mold",
        ),
        "no_wall": Sourced(
            0.001, "m", 0.0005, 0.0015, Kind.PRACTICE, _PRACTICE,
            "casting resin hardly runs into less, and what does tears as the rubber comes off",
        ),
        "slender": Sourced(
            6.0, "", 4.0, 10.0, Kind.PRACTICE, _PRACTICE,
            "height of a fin or pin by its thickness from which pulling the rubber off bends or breaks it",
        ),
        "rubber_told": Sourced(
            0.012, "m", 0.008, 0.015, Kind.PRACTICE, _PRACTICE, "thicker tongues of rubber bend and come out",
        ),
        "rubber_wall": Sourced(
            0.003, "m", 0.002, 0.005, Kind.PRACTICE, _PRACTICE,
            "thinner tongues of rubber tear, and bubbles stay in a space so narrow",
        ),
        "rubber_slender": Sourced(
            4.0, "", 3.0, 6.0, Kind.PRACTICE, _PRACTICE,
            "depth of a slot or hole by its width from which the rubber in it tears off as it is pulled out",
        ),
        "least_round": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE,
            "rubber fills and leaves it without a nick, and it does not chip in use",
        ),
        "most_round": Sourced(
            0.006, "m", 0.003, 0.010, Kind.PRACTICE, _PRACTICE, "more is seldom wanted for strength alone",
        ),
        "sharp": Sourced(
            0.0005, "m", 0.0002, 0.001, Kind.PRACTICE, _PRACTICE,
            "a radius below this is the edge of a tool, not a rounding",
        ),
        "knife": Sourced(
            1.05, "rad", 0.79, 1.22, Kind.PRACTICE, _PRACTICE,
            "outer edges below 60 degrees chip when touched",
        ),
        "left": Sourced(
            0.5, "", 0.3, 0.7, Kind.PRACTICE, _PRACTICE,
            "share of what a corner adds to the stress that the proposed rounding leaves",
        ),
        "grains_across": Sourced(
            3.0, "", 2.0, 4.0, Kind.PRACTICE, _PRACTICE,
            "largest grains side by side in a wall; with fewer they bridge and lie loose at the mold",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""
