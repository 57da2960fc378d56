"""Stretches of edges put together to long strokes of a pen."""

from __future__ import annotations

import numpy as np

from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.sections import straightened

STRAIGHT = 0.25
"""Corners this close to the line without them are left out [pixels]."""
End = tuple[int, int]


def strokes_of(flat: Floats, ends: Integers, share: Floats) -> tuple[Floats, ...]:
    """Join stretches that meet at a vertex where no third one ends.

    Parameters
    ----------
    flat : array (n, 2)
        Vertices in the picture.
    ends : array (k, 2)
        Vertices of the edge of each stretch.
    share : array (k, 2)
        From where to where of the edge it goes, 0 to 1.

    Returns
    -------
    tuple of array (j, 2)
        Strokes; corners on a straight line left out. A closed one ends at its first point.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    >>> (stroke,) = strokes_of(square, np.array([[0, 1], [1, 2], [2, 3]]), np.array([[0.0, 1.0]] * 3))
    >>> stroke.tolist()
    [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]
    """
    begin, along = flat[ends[:, 0]], flat[ends[:, 1]] - flat[ends[:, 0]]
    points = begin[:, None] + share[:, :, None] * along[:, None]
    names = _names(ends, share)
    return tuple(straightened(line, STRAIGHT) for line in _chained(points, names))


def _names(ends: Integers, share: Floats) -> list[tuple[End, End]]:
    """Name of both ends of each stretch: the vertex, or one of its own within an edge."""
    return [
        (
            (int(a), -1) if low == 0.0 else (-1, 2 * k),
            (int(b), -1) if high == 1.0 else (-1, 2 * k + 1),
        )
        for k, ((a, b), (low, high)) in enumerate(zip(ends.tolist(), share.tolist(), strict=True))
    ]


def _chained(points: Floats, names: list[tuple[End, End]]) -> list[Floats]:
    meeting: dict[End, list[int]] = {}
    for number, pair in enumerate(names):
        for end in pair:
            meeting.setdefault(end, []).append(number)
    used: set[int] = set()
    # first those that begin at a free end, then what runs round
    free = [k for k, pair in enumerate(names) if any(len(meeting[end]) != 2 for end in pair)]
    lines = []
    for number in (*free, *range(len(names))):
        if number not in used:
            side = int(len(meeting[names[number][0]]) == 2)
            lines.append(_walk(number, side, points, names, meeting, used))
    return lines


def _walk(
    number: int,
    side: int,
    points: Floats,
    names: list[tuple[End, End]],
    meeting: dict[End, list[int]],
    used: set[int],
) -> Floats:
    """Follow stretches from one end of the first until three meet, none goes on, or the start is back."""
    line = [points[number, side]]
    while True:
        used.add(number)
        line.append(points[number, 1 - side])
        end = names[number][1 - side]
        following = [other for other in meeting[end] if other not in used]
        if len(meeting[end]) != 2 or not following:
            return np.array(line)
        number = following[0]
        side = 0 if names[number][0] == end else 1
