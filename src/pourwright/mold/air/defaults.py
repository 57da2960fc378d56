"""What is taken for granted about caught air, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

AIR: Mapping[str, Sourced] = MappingProxyType(
    {
        "least": Sourced(
            0.5e-6, "m3", 0.2e-6, 2e-6, Kind.PRACTICE, _PRACTICE,
            "a bubble of 10 mm: a smaller one is filled afterwards with a drop",
        ),
        "least_share": Sourced(
            0.001, "", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE,
            "share of the piece: on a small piece a smaller bubble counts too",
        ),
        "ceiling": Sourced(
            4e-4, "m2", 1e-4, 1e-3, Kind.PRACTICE, _PRACTICE,
            "a smaller level ceiling is wiped free of bubbles with a stick",
        ),
        "level": Sourced(
            0.0175, "rad", 0.0087, 0.035, Kind.PRACTICE, _PRACTICE,
            "bubbles stay where a ceiling slopes by less than 1 degree",
        ),
        "slope": Sourced(
            0.0523, "rad", 0.035, 0.087, Kind.PRACTICE, _PRACTICE,
            "bubbles creep along a ceiling that slopes by 3 degrees",
        ),
        "easy_tilt": Sourced(
            0.0872, "rad", 0.05, 0.12, Kind.PRACTICE, _PRACTICE,
            "a box is chocked up by 5 degrees without a second thought",
        ),
        "most_tilt": Sourced(
            0.2618, "rad", 0.17, 0.35, Kind.PRACTICE, _PRACTICE,
            "a filled mold is chocked up by no more than 15 degrees",
        ),
        "bore": Sourced(
            0.004, "m", 0.003, 0.006, Kind.PRACTICE, _PRACTICE,
            "a vent lets air out and is broken off by hand",
        ),
        "longest_vent": Sourced(
            0.40, "m", 0.30, 0.50, Kind.PRACTICE, _PRACTICE, "as long as rods and drills of that bore are",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""


def least_told(volume: float) -> float:
    """Smallest caught air worth telling.

    Parameters
    ----------
    volume : float
        Of the piece [m3].

    Returns
    -------
    float
        [m3]

    Examples
    --------
    >>> round(least_told(0.01) * 1e6, 3), round(least_told(1e-4) * 1e6, 3)
    (0.5, 0.1)
    """
    return min(AIR["least"].value, AIR["least_share"].value * volume)
