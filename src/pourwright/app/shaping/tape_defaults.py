"""What is taken for granted of a tape, a scale and the things they measure."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE, _OURS = "common-practice", "measured-bodies"

TAPE: Mapping[str, Sourced] = MappingProxyType(
    {
        "reading": Sourced(
            0.002, "m", 0.001, 0.005, Kind.PRACTICE, _PRACTICE,
            "as far as two readings of the same place by two people lie apart, now and then",
        ),
        "tape": Sourced(
            0.002, "", 0.0005, 0.005, Kind.PRACTICE, _PRACTICE,
            "of every length alike: the tape's own error, its thickness, how straight it is held",
        ),
        "oval": Sourced(
            0.05, "", 0.01, 0.12, Kind.PRACTICE, _PRACTICE,
            "widest against narrowest of a section that is taken for round, made by hand",
        ),
        "lacking": Sourced(
            0.004, "", 0.0, 0.03, Kind.PRACTICE, _PRACTICE,
            "how far a section lies off the circle, or with its width the ellipse, of the same girth",
        ),
        "fullness": Sourced(
            0.025, "", 0.005, 0.05, Kind.PRACTICE, _PRACTICE,
            "a section of known width and depth, fuller or leaner than the ellipse or rounded rectangle",
        ),
        "wander": Sourced(
            0.25, "", None, None, Kind.MEASURED, _OURS,
            "from what a left-out reading shows to what a span may be off, on invented bodies",
        ),
        "usual_wander": Sourced(
            2.6, "", None, None, Kind.MEASURED, _OURS, "of a body of which nothing is known",
        ),
        "usual_weight": Sourced(
            1.0, "", None, None, Kind.MEASURED, _OURS, "left-out readings that the usual is worth",
        ),
        "untold": Sourced(
            0.19, "", None, None, Kind.MEASURED, _OURS,
            "of the volume, where two readings are all there is: nothing can be left out",
        ),
        "closing": Sourced(
            0.10, "", None, None, Kind.MEASURED, _OURS,
            "of the cylinder over the last reading, how far a dome or point may hold more or less",
        ),
        "straight": Sourced(
            0.05, "", 0.0, 0.2, Kind.PRACTICE, _PRACTICE,
            "of the end over the last reading, where it was taken to go on straight and end flat",
        ),
        "scale": Sourced(
            0.01, "", 0.003, 0.03, Kind.PRACTICE, _PRACTICE,
            "of the water: what drips, clings to the bucket and is missed at the brim",
        ),
        "least_water": Sourced(
            0.00002, "m3", 0.00001, 0.0001, Kind.PRACTICE, _PRACTICE, "20 ml of drips however small it is",
        ),
        "level": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE, "how well a water level is read on a wall",
        ),
    }
)  # fmt: skip
"""SI; ``low`` and ``high`` are the usual range, values stand for two standard deviations where a reading is
meant and for one otherwise."""
