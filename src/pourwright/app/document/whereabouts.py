"""A place of the casting in the words of somebody who stands before the mold."""

from __future__ import annotations

from pourwright.app.heights import in_both
from pourwright.app.setup import Setup
from pourwright.foundation.notation import format_length
from pourwright.pour.soft import Where

OUTSIDE = 0.015
"""So near the rubber a place lies outside [m]."""
AT_END = 0.1
"""Share of the height that counts as the end of a piece."""


def place_words(setup: Setup, where: Where) -> str:
    """Say where a place is.

    Parameters
    ----------
    setup : Setup
        Its frame and units.
    where : Where
        Measured.

    Returns
    -------
    str
        As in "the thin rim at the open face (the foot as it stands), 437 mm up, outside".
    """
    outside = where.from_rubber < OUTSIDE
    end = _end(setup, where.share)
    inward = "outside" if outside else f"{format_length(where.from_rubber, setup.system)} in from the rubber"
    if end:
        name = f"{'the thin rim' if where.thin else 'the rim'} at {end}" if outside else end
    elif where.thin:
        name = "a thin section"
    else:
        name = "the side" if outside else "inside"
    return f"{name}, {_up(setup, where.height)}, {inward}"


def _end(setup: Setup, share: float) -> str:
    """Name of the end that a place lies at, as poured and as the piece stands; nothing in between."""
    frame = setup.piece.frame
    if share >= 1.0 - AT_END:
        stands = "foot" if frame.flipped else "top"
        return f"the open face (the {stands} as it stands)" if frame.upright else "the open face"
    if share <= AT_END:
        stands = "top" if frame.flipped else "foot"
        return f"the mold's floor (the {stands} as it stands)" if frame.upright else "the mold's floor"
    return ""


def _up(setup: Setup, height: float) -> str:
    poured, _, standing = in_both(setup.piece.frame, height, setup.system).partition(" (")
    return f"{poured} up ({standing}" if standing else f"{poured} up"
