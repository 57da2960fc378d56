"""What choosing a way up takes for granted, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

WAYS: Mapping[str, Sourced] = MappingProxyType(
    {
        "small_pocket": Sourced(
            0.001, "", 0.0, 0.005, Kind.PRACTICE, _PRACTICE,
            "share of the piece: less caught air is knocked loose with a stick, or filled afterwards",
        ),
        "near_undercut": Sourced(
            0.10, "", 0.05, 0.20, Kind.PRACTICE, _PRACTICE,
            "share of the surface: ways that differ by less come out of the rubber equally well",
        ),
        "stretch_margin": Sourced(
            3.0, "", 2.0, 4.0, Kind.PRACTICE, _PRACTICE,
            "elongation at break over what rubber is stretched in use: nicks, old rubber, uneven pull",
        ),
        "steepest_tilt": Sourced(
            0.35, "rad", 0.17, 0.52, Kind.PRACTICE, _PRACTICE,
            "a filled mold is blocked up by no more than 20 degrees",
        ),
        "slender": Sourced(
            2.5, "", 2.0, 4.0, Kind.PRACTICE, _PRACTICE,
            "height over least width from which a full box wants bracing",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""
