"""What the way out takes for granted, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE, _FAMILY = "common-practice", "families-from-memory"

WAY_OUT: Mapping[str, Sourced] = MappingProxyType(
    {
        "margin": Sourced(
            3.0, "", 2.0, 4.0, Kind.PRACTICE, _PRACTICE,
            "what rubber bears over what it is asked for: nicks, old rubber, uneven pull",
        ),
        "hands": Sourced(
            250.0, "N", 150.0, 400.0, Kind.PRACTICE, _PRACTICE, "what one person pulls rubber open with",
        ),
        "hinge": Sourced(
            0.030, "m", 0.020, 0.050, Kind.PRACTICE, _PRACTICE,
            "rubber left uncut above the mold's floor: it holds the halves together, and the floor tight",
        ),
        "key_spacing": Sourced(
            0.060, "m", 0.040, 0.080, Kind.PRACTICE, _PRACTICE, "from one wave of the cut to the next",
        ),
        "key_size": Sourced(
            0.008, "m", 0.005, 0.012, Kind.PRACTICE, _PRACTICE, "the cut runs to and fro, so that it refits",
        ),
        "cut_end": Sourced(
            0.005, "m", 0.003, 0.008, Kind.PRACTICE, _PRACTICE,
            "hole punched where the cut ends, so that it does not run on",
        ),
        "nick": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE, "what a blade leaves in a cut edge unseen",
        ),
        "trousers_share": Sourced(
            0.25, "", 0.15, 0.50, Kind.MEMORY, _FAMILY,
            "tear strength torn like trousers over that of an angle or crescent on a data sheet",
        ),
        "modulus_spread": Sourced(
            0.30, "", 0.20, 0.40, Kind.MEMORY, _FAMILY,
            "by how much a real rubber differs from what its hardness says",
        ),
        "grip": Sourced(
            20e3, "Pa", 5e3, 60e3, Kind.MEMORY, _FAMILY,
            "what holds rubber in a slot of the piece, by area: it sticks a little, and rubs",
        ),
        "air_gap": Sourced(
            20e-6, "m", 5e-6, 100e-6, Kind.MEMORY, _FAMILY,
            "between the casting and rubber that was not loosened yet",
        ),
        "first_lift": Sourced(
            0.001, "m", 0.0005, 0.003, Kind.PRACTICE, _PRACTICE, "the piece is loose once it is up so far",
        ),
        "shell_gap": Sourced(
            0.0005, "m", 0.0, 0.001, Kind.PRACTICE, _PRACTICE, "between a skin of rubber and its shell",
        ),
        "thick_rubber": Sourced(
            0.0002, "m", 0.0001, 0.0005, Kind.PRACTICE, _PRACTICE,
            "warm rubber that comes in by more than this besides the thinnest wall shows in the shape",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""
