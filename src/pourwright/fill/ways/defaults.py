"""What the two ways of filling are reckoned and judged with, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

WAYS: Mapping[str, Sourced] = MappingProxyType(
    {
        "bears_air": Sourced(
            0.01, "", 0.003, 0.02, Kind.PRACTICE, _PRACTICE,
            "share of a band that may be air: more looks milky, and is open where it is sanded",
        ),
        "bears_sinking": Sourced(
            0.005, "m", 0.003, 0.010, Kind.PRACTICE, _PRACTICE,
            "a border that sinks by less is taken for straight; by a grain it is uneven anyway",
        ),
        "bears_sinking_share": Sourced(
            0.1, "", 0.05, 0.15, Kind.PRACTICE, _PRACTICE,
            "share of its depth by which a band may end lower before anyone sees it",
        ),
        "stirrable_viscosity": Sourced(
            100.0, "Pa s", 30.0, 200.0, Kind.PRACTICE, _PRACTICE,
            "thickest that is stirred by hand and scraped from its pail: stiff as peanut butter, tamped in",
        ),
        "grain_exponent": Sourced(
            2.0, "", 1.5, 2.5, Kind.MEMORY, "maron-pierce-1956", "how grains thicken a mix, of many shapes",
        ),
        "stirring_time": Sourced(
            300.0, "s", 180.0, 600.0, Kind.PRACTICE, _PRACTICE,
            "glass stirred into a batch that is mixed, until every grain is wet",
        ),
        "stirred_air": Sourced(
            0.02, "", 0.01, 0.05, Kind.PRACTICE, _PRACTICE,
            "share of a mix that grains and stick carry into it as air",
        ),
        "bubble_least": Sourced(
            0.0001, "m", 0.00005, 0.0002, Kind.PRACTICE, _PRACTICE, "smallest bubbles that are stirred in",
        ),
        "bubble_most": Sourced(
            0.003, "m", 0.002, 0.005, Kind.PRACTICE, _PRACTICE, "largest bubbles that are stirred in",
        ),
        "laying_rate": Sourced(
            5.0 / 60.0, "kg/s", 3.0 / 60.0, 10.0 / 60.0, Kind.PRACTICE, _PRACTICE,
            "dry glass laid in, levelled and looked at",
        ),
        "face_coat": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE,
            "neat resin on the face of the mold, so that no grain prints or stands out",
        ),
        "tube": Sourced(
            0.020, "m", 0.012, 0.030, Kind.PRACTICE, _PRACTICE, "inside of a tube for filling from below",
        ),
        "tube_head": Sourced(
            0.1, "m", 0.05, 0.2, Kind.PRACTICE, _PRACTICE,
            "resin in the tube kept so much higher than around it: more lifts the glass around its foot",
        ),
    }
)  # fmt: skip
"""Default of each assumption, SI; ``low`` and ``high`` are the usual range."""
