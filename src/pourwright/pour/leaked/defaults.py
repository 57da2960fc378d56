"""What the reckoning of a leak takes where nobody has measured it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"

LEAKED: Mapping[str, Sourced] = MappingProxyType(
    {
        "level_error": Sourced(
            0.002, "m", 0.001, 0.004, Kind.PRACTICE, _PRACTICE,
            "a dip or a sight tube read to the nearest millimetre or two: standard deviation",
        ),
        "weighing_error": Sourced(
            0.005, "", 0.002, 0.01, Kind.PRACTICE, _PRACTICE,
            "of a weighed batch, with what drips and what stays on the stick: standard deviation",
        ),
        "cavity_error": Sourced(
            0.01, "", 0.005, 0.02, Kind.PRACTICE, _PRACTICE,
            "rubber gives and box bulges: how far the cavity differs from the shape, standard deviation",
        ),
        "held_back": Sourced(
            0.07, "", 0.02, 0.15, Kind.PRACTICE, _PRACTICE,
            "share of the voids that stays full between the grains where the level has fallen through glass",
        ),
        "found": Sourced(
            0.9, "", 0.75, 1.0, Kind.PRACTICE, _PRACTICE,
            "share of what ran out that is found beside the mold; the rest is in wood, seams and rags",
        ),
        "still": Sourced(
            0.001, "m", 0.0005, 0.002, Kind.PRACTICE, _PRACTICE,
            "error of a reading beside another with the same stick at the same place: standard deviation",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""
BAND = 2.0 * 1.2815515655446004
"""Standard deviations between the ends of a band that holds four of five."""


def doubt(name: str) -> float:
    """Standard deviation of a default, its usual range holding four of five.

    Parameters
    ----------
    name : str
        Key of `LEAKED`.

    Returns
    -------
    float
        In the unit of the default.

    Examples
    --------
    >>> round(doubt("held_back"), 3)
    0.051
    """
    return spread(LEAKED[name])


def spread(default: Sourced) -> float:
    """Standard deviation of a value whose usual range holds four of five.

    Parameters
    ----------
    default : Sourced
        With both ends of its range.

    Returns
    -------
    float
        In its unit.
    """
    assert default.low is not None
    assert default.high is not None
    return (default.high - default.low) / BAND
