"""Readings to fill in, for a new job of a thing without a file."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import UnitSystem, format_length

READINGS = 6
STEPS = {UnitSystem.METRIC: 0.005, UnitSystem.US: 0.0254 / 4}
UNREAD = {UnitSystem.METRIC: "? mm", UnitSystem.US: "? in"}
"""Stands where nothing was read yet: no length, so that nobody casts by it."""


def readings_to_fill(height: float, units: UnitSystem) -> Iterator[str]:
    """Write the lines of a measured shape, with what is not read yet left open.

    Parameters
    ----------
    height : float
        Of the thing [m].
    units : UnitSystem
        Of its tape.

    Yields
    ------
    str

    Examples
    --------
    >>> lines = list(readings_to_fill(0.36, UnitSystem.METRIC))
    >>> lines[5]
    '  { height = "70 mm", girth = "? mm" },'
    """
    yield "# One reading a line, from the table up: girth, the tape around it. Or: diameter; girth and width"
    yield "# (an oval); width and depth; width, depth and corner (a rectangle and the radius of its corners)."
    yield "# Move the heights to where it is fattest and thinnest; more lines where it changes most."
    yield "measured.at = ["
    # a thing so low that round heights would fall together keeps them as they are
    step = STEPS[units] if height > 2 * READINGS * STEPS[units] else 1e-4
    for number in range(READINGS):
        share = height * number / (READINGS - 1)
        at = share if number == READINGS - 1 else round(share / step) * step
        yield f'  {{ height = "{format_length(at, units)}", girth = "{UNREAD[units]}" }},'
    top = format_length(height, units)
    yield f'  # {{ height = "{top}", closes = "dome" }},  # in place of the last where it ends rounded'
    yield "]"


def filled_in(text: str, units: UnitSystem) -> str:
    """Put some length where nothing was read, to see whether the rest of a job holds.

    Parameters
    ----------
    text : str
        The new job.
    units : UnitSystem
        Of its tape.

    Returns
    -------
    str
        Not for casting.
    """
    return text.replace(UNREAD[units], UNREAD[units].replace("?", "10"))
