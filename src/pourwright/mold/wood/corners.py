"""The rectangle of an offcut that was measured by its corners; what is no rectangle is refused."""

from __future__ import annotations

import math
from collections.abc import Sequence

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import System, format_length

Point = tuple[float, float]
# how far from square a corner may be, as the cosine of its angle
_SQUARE = 0.005
_ALLOWED = "4 corners with right angles, one after another around the offcut"


def rectangles_of_corners(corners: Sequence[Point], where: str, system: System = "metric") -> Point:
    """Read length and width of an offcut from its corners.

    Parameters
    ----------
    corners : sequence of tuple
        One after another around the offcut [m]; its length runs from the first to the second.
    where : str
        Where they stand, for the error.
    system : UnitSystem
        Of the words.

    Returns
    -------
    tuple of float
        Length and width [m].

    Raises
    ------
    UserError
        For an L, with the two rectangles to enter instead; for anything else that is no rectangle.

    Examples
    --------
    >>> rectangles_of_corners([(0, 0), (0.6, 0), (0.6, 0.4), (0, 0.4)], "offcut")
    (0.6, 0.4)
    """
    edges = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(corners, _next(corners), strict=True)]
    sides = [math.hypot(*edge) for edge in edges]
    if len(corners) not in {4, 6} or not all(math.isfinite(side) and side > 0 for side in sides):
        raise UserError(f"{len(corners)} corners that make no rectangle", where=where, allowed=_ALLOWED)
    turns = [_turn(one, two) for one, two in zip(edges, _next(edges), strict=True)]
    if 0 in turns:
        raise UserError("a corner that is not square", where=where, allowed=_ALLOWED, todo=_INSIDE)
    if len(corners) == 4 and abs(sum(turns)) == 4:
        return min(sides[0], sides[2]), min(sides[1], sides[3])
    if len(corners) == 6 and abs(sum(turns)) == 4:
        raise _an_l(sides, turns, where, system)
    raise UserError("corners that cross over one another", where=where, allowed=_ALLOWED)


_INSIDE = "enter the largest rectangle that lies inside"


def _next(around: Sequence[Point]) -> list[Point]:
    return [*around[1:], *around[:1]]


def _turn(one: Point, two: Point) -> int:
    """1 to the left, -1 to the right, 0 where the corner is not square."""
    size = math.hypot(*one) * math.hypot(*two)
    if abs(one[0] * two[0] + one[1] * two[1]) > _SQUARE * size:
        return 0
    return 1 if one[0] * two[1] > one[1] * two[0] else -1


def _an_l(sides: list[float], turns: list[int], where: str, system: System) -> UserError:
    """Refuse an L by the pair of rectangles, of the two there are, with the larger rectangle in it."""
    inner = (turns.index(-1 if sum(turns) > 0 else 1) + 1) % 6
    a, b, c, d, e, f = sides[inner:] + sides[:inner]
    pairs = (((c, b), (f, e)), ((d, e), (b, a)))
    pair = max(pairs, key=lambda each: max(x * y for x, y in each))
    one, two = sorted(pair, key=lambda each: -each[0] * each[1])
    told = [" x ".join(format_length(side, system) for side in sorted(each)[::-1]) for each in (one, two)]
    todo = f"enter it as two offcuts, {told[0]} and {told[1]}; the cut between them takes its kerf from one"
    return UserError("an offcut in the shape of an L", where=where, allowed=_ALLOWED, todo=todo)
