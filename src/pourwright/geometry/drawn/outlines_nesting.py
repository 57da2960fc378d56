"""Which closed outlines lie in which, and where two of them meet that must not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines_placed import PlacedError
from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.sections import outline_area

_MOST_EDGES = 60_000
_AT_ONCE = 256


def nested(loops: Sequence[Floats]) -> list[Floats]:
    """Sort closed outlines into the outer one and its holes.

    Parameters
    ----------
    loops : sequence of array (n, 2)
        Closed, either way round [m].

    Returns
    -------
    list of array (n, 2)
        The outer one, counter-clockwise, then the holes, clockwise.

    Raises
    ------
    UserError
        Where an outline crosses or touches itself or another (`PlacedError`), encloses nothing, or where
        there are several outer ones or one inside a hole.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    >>> [round(outline_area(loop), 3) for loop in nested([0.5 * square + 0.2, square])]
    [1.0, -0.25]
    """
    cleaned = [loop[np.any(loop != np.roll(loop, 1, axis=0), axis=1)] for loop in loops]
    if not cleaned or any(len(loop) < 3 for loop in cleaned):
        raise UserError("an outline encloses no area", todo="close it around what is to be solid")
    if (place := meeting(cleaned)) is not None:
        raise PlacedError.at(
            "the outline crosses or touches itself",
            place,
            "mend it so that every outline is closed and meets no other",
        )
    if any(outline_area(loop) == 0 for loop in cleaned):
        raise UserError("an outline encloses no area", todo="close it around what is to be solid")
    ordered = sorted(cleaned, key=lambda loop: -abs(outline_area(loop)))
    depths = [sum(_inside(loop[0], other) for other in ordered if other is not loop) for loop in ordered]
    for loop, depth in zip(ordered[1:], depths[1:], strict=True):
        if depth != 1:
            kind = "a second body beside the first" if depth == 0 else "a body inside a hole"
            raise PlacedError.at(
                f"there is {kind}", loop[0], "leave all but one outline and its holes out, or write parts"
            )
    areas = [outline_area(loop) for loop in ordered]
    wanted = [1.0] + [-1.0] * (len(ordered) - 1)
    return [
        loop if area * sign > 0 else loop[::-1]
        for loop, area, sign in zip(ordered, areas, wanted, strict=True)
    ]


def meeting(loops: Sequence[Floats]) -> Floats | None:
    """Find a place where two edges of closed outlines cross or touch.

    Parameters
    ----------
    loops : sequence of array (n, 2)
        Closed, without repeated points [m].

    Returns
    -------
    array (2,) or None
        [m]

    Raises
    ------
    UserError
        For outlines of too many edges.

    Examples
    --------
    >>> bow = np.array([[0.0, 0.0], [1.0, 1.0], [1.0, 0.0], [0.0, 1.0]])
    >>> meeting([bow]).tolist()
    [0.5, 0.5]
    """
    starts = np.concatenate(loops)
    ends = np.concatenate([np.roll(loop, -1, axis=0) for loop in loops])
    if len(starts) > _MOST_EDGES:
        raise UserError(f"outlines of {len(starts)} edges", allowed=f"up to {_MOST_EDGES}")
    following = np.concatenate(
        [np.roll(np.arange(len(loop)), -1) + first for loop, first in zip(loops, _firsts(loops), strict=True)]
    )
    # edges sorted by their left ends meet only others that begin before they end
    order = np.argsort(np.minimum(starts[:, 0], ends[:, 0]), kind="stable")
    for some, others in _candidates(starts[order], ends[order]):
        place = _first_meeting(starts, ends, following, order[some], order[others])
        if place is not None:
            return place
    return None


def _firsts(loops: Sequence[Floats]) -> list[int]:
    return [0, *np.cumsum([len(loop) for loop in loops])[:-1].tolist()]


def _candidates(starts: Floats, ends: Floats) -> Iterator[tuple[Integers, Integers]]:
    left, right = np.minimum(starts[:, 0], ends[:, 0]), np.maximum(starts[:, 0], ends[:, 0])
    for first in range(0, len(starts), _AT_ONCE):
        some = np.arange(first, min(first + _AT_ONCE, len(starts)))
        last = int(np.searchsorted(left, right[some].max(), side="right"))
        yield some, np.arange(first, last)


def _first_meeting(
    starts: Floats, ends: Floats, following: Integers, some: Integers, others: Integers
) -> Floats | None:
    a, b, c, d = starts[some][:, None], ends[some][:, None], starts[others][None], ends[others][None]
    one, two = _side(a, b, c), _side(a, b, d)
    three, four = _side(c, d, a), _side(c, d, b)
    met = (one * two <= 0) & (three * four <= 0)
    aligned = (one == 0) & (two == 0)
    met &= ~aligned | _overlapping(a, b, c, d)
    near = (following[some][:, None] == others) | (following[others][None] == some[:, None])
    # neighbours share an end; they meet wrongly only where one runs back over the other
    back = ((b - a) * (d - c)).sum(axis=2) < 0
    met &= np.where(near, aligned & back, some[:, None] != others)
    if not met.any():
        return None
    i, j = np.argwhere(met)[0]
    p, q = starts[some[i]], ends[some[i]]
    r, s = starts[others[j]], ends[others[j]]
    cross = (q - p)[0] * (s - r)[1] - (q - p)[1] * (s - r)[0]
    share = ((r - p)[0] * (s - r)[1] - (r - p)[1] * (s - r)[0]) / cross if cross else 0.5
    return np.asarray(p + share * (q - p))


def _side(start: Floats, end: Floats, point: Floats) -> Floats:
    edge, off = end - start, point - start
    return np.asarray(np.sign(edge[..., 0] * off[..., 1] - edge[..., 1] * off[..., 0]))


def _overlapping(a: Floats, b: Floats, c: Floats, d: Floats) -> Floats:
    low = np.maximum(np.minimum(a, b), np.minimum(c, d))
    high = np.minimum(np.maximum(a, b), np.maximum(c, d))
    return np.asarray((low <= high).all(axis=2))


def _inside(point: Floats, loop: Floats) -> bool:
    """Count how often a ray to the right crosses the outline."""
    x, y = loop.T
    ahead_x, ahead_y = np.roll(x, -1), np.roll(y, -1)
    spans = (y > point[1]) != (ahead_y > point[1])
    share = (point[1] - y[spans]) / (ahead_y - y)[spans]
    return bool((x[spans] + share * (ahead_x - x)[spans] > point[0]).sum() % 2)
