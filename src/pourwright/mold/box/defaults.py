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
        "strength_safety": Sourced(
            3.0, "", 2.5, 4.0, Kind.PRACTICE, _PRACTICE,
            "bending strength over what is allowed: days under load, damp shop, knots and screw holes",
        ),
        "screw_corner": Sourced(
            0.070, "m", 0.050, 0.100, Kind.PUBLISHED, "mdf-screws",
            "nearer to a corner the edge of a board splits",
        ),
        "screw_spacing": Sourced(
            0.150, "m", 0.100, 0.200, Kind.PRACTICE, _PRACTICE, "farther apart the seam gapes and leaks"
        ),
        "screw_least_spacing": Sourced(
            0.040, "m", 0.030, 0.060, Kind.PRACTICE, _PRACTICE, "closer the edge splits along the row"
        ),
        "screw_share": Sourced(
            0.24, "", 0.20, 0.25, Kind.PRACTICE, _PRACTICE,
            "thickest screw for an edge, of the board's thickness; drilled first",
        ),
        "screw_again": Sourced(
            10.0, "", 5.0, 20.0, Kind.PRACTICE, _PRACTICE,
            "times that a screw can be taken out of the edge of a board and still holds",
        ),
        "clamp_force": Sourced(
            1000.0, "N", 500.0, 3000.0, Kind.PRACTICE, _PRACTICE, "a small screw clamp, tightened by hand"
        ),
        "clamp_spacing": Sourced(
            0.250, "m", 0.150, 0.300, Kind.PRACTICE, _PRACTICE, "farther apart the seam gapes and leaks"
        ),
        "clamp_safety": Sourced(
            1.5, "", 1.3, 2.0, Kind.PRACTICE, _PRACTICE, "clamps and bands work loose overnight"
        ),
        "friction": Sourced(
            0.3, "", 0.2, 0.5, Kind.PRACTICE, _PRACTICE, "wood on wood, and a band on wood; wet is less"
        ),
        "flange": Sourced(
            0.045, "m", 0.035, 0.060, Kind.PRACTICE, _PRACTICE, "what a clamp grips; a lath as sold"
        ),
        "gape": Sourced(
            0.0002, "m", 0.0001, 0.0003, Kind.PRACTICE, _PRACTICE,
            "most that a flange bends between two clamps: wider a seam leaks rubber",
        ),
        "band_pull": Sourced(
            500.0, "N", 300.0, 2000.0, Kind.PRACTICE, _PRACTICE, "a ratchet band 25 mm wide, by hand"
        ),
    }
)  # fmt: skip
"""Default of each number, SI."""
