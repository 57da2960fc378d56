"""Where a direction lies on the box, as one stands before it."""

from __future__ import annotations

from math import cos, degrees, sin

from pourwright.foundation.notation import UnitSystem, format_length

SIDES = ("right", "back", "left", "front")
NEAR = 0.02
"""Share of a side within which a place is its middle or its end."""


def side_words(angle: float) -> str:
    """Say where a direction lies.

    Parameters
    ----------
    angle : float
        From the x axis [rad].

    Returns
    -------
    str

    Examples
    --------
    >>> side_words(0.0), side_words(3.9)
    ('the right side', 'the corner between left and front')
    """
    eighth = round(degrees(angle) / 45.0) % 8
    if eighth % 2 == 0:
        return f"the {SIDES[eighth // 2]} side"
    return f"the corner between {SIDES[eighth // 2]} and {SIDES[(eighth // 2 + 1) % 4]}"


def spot_words(angle: float, inside: tuple[float, float], units: UnitSystem) -> str:
    """Say where a direction from the middle of a box meets its sides.

    Parameters
    ----------
    angle : float
        From the x axis [rad].
    inside : tuple of float
        Of the box along x and y [m].
    units : UnitSystem
        What the maker reads.

    Returns
    -------
    str

    Examples
    --------
    >>> spot_words(0.0, (0.4, 0.3), "metric"), spot_words(0.2, (0.4, 0.3), "metric")
    ('the middle of the right side', 'the right side, 41 mm from its middle toward the back')
    >>> from math import atan2
    >>> spot_words(atan2(-0.3, 0.4), (0.4, 0.3), "metric")
    'the corner between right and front'
    """
    x, y = cos(angle) / inside[0], sin(angle) / inside[1]
    if abs(abs(x) - abs(y)) < NEAR * max(abs(x), abs(y)):
        return f"the corner between {_name(x, 0)} and {_name(y, 1)}"
    across, along = (0, 1) if abs(x) > abs(y) else (1, 0)
    ways = (x, y)
    offset = ways[along] / abs(ways[across]) * inside[along] / 2
    side = _name(ways[across], across)
    if abs(offset) < NEAR * inside[along]:
        return f"the middle of the {side} side"
    toward = _name(ways[along], along)
    return f"the {side} side, {format_length(abs(offset), units)} from its middle toward the {toward}"


def _name(value: float, axis: int) -> str:
    return SIDES[axis if value > 0 else axis + 2]
