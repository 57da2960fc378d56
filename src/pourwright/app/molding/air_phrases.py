"""Turns of phrase about caught air."""

from __future__ import annotations

from collections.abc import Callable
from math import degrees, pi

from pourwright.mold.air.tilt import Tilt
from pourwright.mold.way_out.places import side_words

MIDDLE = 0.0005
"""Nearer to the middle than this is in it [m]."""


def aside_words(x: float, y: float, length: Callable[[float], str]) -> str:
    """Say how far a point lies beside the middle of the box.

    Parameters
    ----------
    x, y : float
        To the right and to the back, as cast [m].
    length : callable
        Writes a length [m].

    Returns
    -------
    str

    Examples
    --------
    >>> aside_words(0.03, -0.2, lambda metres: f"{1000 * metres:.0f} mm")
    '30 mm right and 200 mm to the front of the middle'
    >>> aside_words(0.0, 0.0, str)
    'in the middle'
    """
    parts = []
    if abs(x) >= MIDDLE:
        parts.append(f"{length(abs(x))} {'right' if x > 0 else 'left'}")
    if abs(y) >= MIDDLE:
        parts.append(f"{length(abs(y))} {'to the back' if y > 0 else 'to the front'}")
    return f"{' and '.join(parts)} of the middle" if parts else "in the middle"


def after(start: str, sentence: str) -> str:
    """Put words before a sentence, which then begins small.

    Parameters
    ----------
    start, sentence : str
        Words, or none, and what follows.

    Returns
    -------
    str

    Examples
    --------
    >>> after("If so: ", "Chock it up."), after("", "Chock it up.")
    ('If so: chock it up.', 'Chock it up.')
    """
    return start + sentence[0].lower() + sentence[1:] if start else sentence


def low_panel(tilt: Tilt) -> str:
    """Name the panel, or the panels, across from the side that is lifted.

    Parameters
    ----------
    tilt : Tilt
        Of the box.

    Returns
    -------
    str
        As "the left panel".
    """
    low = side_words((tilt.side + pi) % (2 * pi))
    return low.replace(" side", " panel") if low.endswith(" side") else f"the panels at {low}"


def degree_words(angle: float) -> str:
    """Write an angle.

    Parameters
    ----------
    angle : float
        [rad]

    Returns
    -------
    str

    Examples
    --------
    >>> degree_words(pi / 180), degree_words(pi / 12)
    ('1 degree', '15 degrees')
    """
    told = round(degrees(angle), 1)
    return "1 degree" if told == 1.0 else f"{told:g} degrees"


def many(count: int, noun: str) -> str:
    """Write a count with its noun.

    Parameters
    ----------
    count : int
        How many.
    noun : str
        One of them.

    Returns
    -------
    str

    Examples
    --------
    >>> many(1, "place"), many(2, "place")
    ('1 place', '2 places')
    """
    return f"1 {noun}" if count == 1 else f"{count} {noun}s"
