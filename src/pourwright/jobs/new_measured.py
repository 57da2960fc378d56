"""Readings to fill in, for a new job of a thing without a file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import tomlkit

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
    >>> lines[5], lines[7]
    ('  { height = "0 mm", closes = "flat" },', '  { height = "80 mm", girth = "? mm" },')
    """
    yield "# One reading a line, from the table up: girth, the tape around it. Or: diameter; girth and width"
    yield "# (an oval); width and depth; width, depth and corner (a rectangle and the radius of its corners)."
    yield "# Move the heights to where it is fattest and thinnest; more lines where it changes most."
    yield "# No tape lies around an edge: flat goes on straight from the reading beside it. Or: dome, point."
    yield "measured.at = ["
    yield f'  {{ height = "{format_length(0.0, units)}", closes = "flat" }},'
    for at in _heights(height, units):
        yield f'  {{ height = "{format_length(at, units)}", girth = "{UNREAD[units]}" }},'
    yield f'  {{ height = "{format_length(height, units)}", closes = "flat" }},'
    yield "]"


def readings_given(readings: Sequence[Mapping[str, str]]) -> Iterator[str]:
    """Write the lines of a measured shape that was read already.

    Parameters
    ----------
    readings : sequence of mapping
        From the table up: ``height`` and the lengths read there, or ``closes``, as written.

    Yields
    ------
    str

    Examples
    --------
    >>> list(readings_given([{"height": "0 mm", "girth": "300 mm"}]))[2]
    '  { height = "0 mm", girth = "300 mm" },'
    """
    yield "# One reading a line, from the table up."
    yield "measured.at = ["
    for reading in readings:
        inside = ", ".join(f"{name} = {tomlkit.string(text).as_string()}" for name, text in reading.items())
        yield f"  {{ {inside} }},"
    yield "]"


def _heights(height: float, units: UnitSystem) -> Iterator[float]:
    """Half a tape's width off both ends, and evenly between."""
    # a thing so low that round heights would fall together keeps them as they are
    step = STEPS[units] if height > 2 * READINGS * STEPS[units] else 1e-4
    edge = min(2 * STEPS[units], height / 10)
    for number in range(READINGS):
        share = edge + (height - 2 * edge) * number / (READINGS - 1)
        yield round(share / step) * step if 0 < number < READINGS - 1 else share


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
