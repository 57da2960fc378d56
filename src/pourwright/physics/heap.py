"""A heap of grains poured onto one place."""

from __future__ import annotations

from math import pi, radians, tan

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.sources import Kind, Sourced

REPOSE = Sourced(
    35.0, "deg", 30.0, 40.0, Kind.MEMORY, "fhwa-waste-glass", "crushed container glass, dry, poured"
)
"""Steepest slope that a heap of crushed glass keeps."""
FRICTION = Sourced(
    51.0, "deg", 48.0, 53.0, Kind.MEMORY, "fhwa-waste-glass", "crushed container glass, compacted"
)


@checked(radius=Range(0.0, unit="m"), angle=Range(0.0, 89.0, "deg"))
def heap_volume(radius: float, angle: float = REPOSE.value) -> float:
    """Volume of a round heap.

    Parameters
    ----------
    radius : of its foot [m]
    angle : of its slope [deg]

    Returns
    -------
    volume [m3]

    Raises
    ------
    RangeError : a negative radius, an angle outside 0 to 89 deg

    Notes
    -----
    A cone: pi r^3 tan(angle) / 3.

    References
    ----------
    Geometry; the angle of crushed glass: FHWA-RD-97-148 [fhwa-waste-glass] (citation from memory).

    Examples
    --------
    >>> print(f"{1000 * heap_volume(0.2, 35.0):.2f} l")
    5.87 l
    """
    return pi * radius**3 * tan(radians(angle)) / 3.0
