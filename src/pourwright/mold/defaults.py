"""What the mold room assumes where the job says nothing, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_INCH = 0.0254

DEFAULTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "wall": Sourced(
            0.020, "m", 0.010, 0.025, Kind.PRACTICE, _PRACTICE,
            "thick enough for a block of rubber to stand on its own, thin enough to bend out of undercuts",
        ),
        "base": Sourced(
            0.75 * _INCH, "m", 0.5 * _INCH, 1.0 * _INCH, Kind.PRACTICE, _PRACTICE,
            "rubber under the master: it carries the fill, and leaves room for the air to get out",
        ),
        "cover": Sourced(
            0.0, "m", 0.0, 0.0, Kind.PRACTICE, _PRACTICE,
            "the rubber ends level with the master's open face, which becomes the mouth of the mold",
        ),
        "freeboard": Sourced(
            0.0, "m", 0.0, 0.05, Kind.PRACTICE, _PRACTICE,
            "bars lie straight across the panels' upper edges, so the open face hangs at the rim",
        ),
        "safety_factor": Sourced(
            1.5, "", 1.2, 2.0, Kind.PRACTICE, _PRACTICE,
            "density of board and rubber, and the level, are each known to about 5 to 10 %",
        ),
        "rubber_pour_allowance": Sourced(
            0.03, "", 0.02, 0.10, Kind.PRACTICE, _PRACTICE,
            "rubber that stays in the pail, on the stick and in small gaps",
        ),
        "least_screws": Sourced(
            4.0, "", 2.0, 6.0, Kind.PRACTICE, _PRACTICE, "fewer let the master rock or turn",
        ),
        "bars": Sourced(2.0, "", 1.0, 4.0, Kind.PRACTICE, _PRACTICE, "one lets the master rock"),
        "bar_width": Sourced(0.045, "m", 0.035, 0.050, Kind.PRACTICE, _PRACTICE, "a lath as sold, planed"),
        "bar_height": Sourced(
            0.070, "m", 0.045, 0.095, Kind.PRACTICE, _PRACTICE, "on edge it bends far less than lying flat"
        ),
        "skin": Sourced(
            0.010, "m", 0.008, 0.012, Kind.PRACTICE, _PRACTICE,
            "brushed on in four coats: thick enough not to tear, thin enough to peel off",
        ),
        "shell": Sourced(
            0.015, "m", 0.010, 0.025, Kind.PRACTICE, _PRACTICE, "plaster with fibre around a skin",
        ),
        "most_blocks": Sourced(
            12.0, "", 4.0, 24.0, Kind.PRACTICE, _PRACTICE, "more small ones save little",
        ),
        "least_block": Sourced(
            0.036, "m", 0.018, 0.060, Kind.PRACTICE, _PRACTICE, "a thinner one splits when it is screwed on",
        ),
        "sawing_time": Sourced(
            600.0, "s", 300.0, 1200.0, Kind.PRACTICE, _PRACTICE,
            "mark, saw, glue up, seal, screw on and caulk one block",
        ),
        "least_displaced": Sourced(
            0.25e-3, "m3", 0.1e-3, 0.5e-3, Kind.PRACTICE, _PRACTICE,
            "a block that saves less rubber is not worth ten minutes, where no price of an hour says better",
        ),
        "lifting_limit": Sourced(
            23.0, "kg", None, None, Kind.MEMORY, "waters-1994",
            "load constant of the lifting equation: close to the body, at knuckle height, now and then",
        ),
    }
)  # fmt: skip
"""Default of each choice, SI; ``low`` and ``high`` are the usual range."""
