"""Corners of an outline rounded by an arc that touches both edges."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines_arcs import Edge
from pourwright.geometry.mesh import Floats

_SMOOTH = 1e-6
_HALVINGS = 20


class NoRoomError(UserError):
    """A rounding that does not fit; it knows the corner, and what was asked for and would fit [m]."""

    number: int | None = None
    radius: float = 0.0
    largest: float = 0.0

    @classmethod
    def of(cls, number: int | None, radius: float, largest: float) -> NoRoomError:
        """Make one for a corner, counted from 0, or for a whole body."""
        error = cls(
            f"a rounding of {1000 * radius:.4g} mm does not fit",
            allowed=f"up to {1000 * largest:.4g} mm" if largest > 0 else "a sharp corner",
        )
        error.number, error.radius, error.largest = number, radius, largest
        return error


def largest_that_fits(fits: Callable[[float], bool], asked: float) -> float:
    """Halve until the largest radius is found that fits.

    Parameters
    ----------
    fits : callable
        Tells of a radius whether it fits.
    asked : float
        One that does not [m].

    Returns
    -------
    float
        [m]

    Examples
    --------
    >>> round(largest_that_fits(lambda radius: radius <= 0.003, 0.005), 6)
    0.003
    """
    low, high = 0.0, asked
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def rounded(edges: Sequence[Edge], radii: Sequence[float]) -> list[Edge]:
    """Round corners of a closed outline.

    Parameters
    ----------
    edges : sequence of Edge
        In their order; each starts where the one before ends.
    radii : sequence of float
        For the corner at the start of each edge; 0 leaves it sharp [m].

    Returns
    -------
    list of Edge
        With an arc at each rounded corner.

    Raises
    ------
    NoRoomError
        Where an edge is too short, with what would fit if all roundings shrank alike.

    Examples
    --------
    >>> corners = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0]])
    >>> square = [Edge(a, b) for a, b in zip(corners, np.roll(corners, -1, axis=0))]
    >>> [round(edge.length, 3) for edge in rounded(square, [0.0, 0.0, 0.5, 0.0])]
    [2.0, 0.5, 0.785, 1.5, 1.0]
    """
    failed = _first_failure(edges, radii)
    if failed is None:
        return _all_rounded(edges, radii)
    asked = radii[failed]
    largest = largest_that_fits(
        lambda tried: _first_failure(edges, [radius * tried / asked for radius in radii]) is None, asked
    )
    raise NoRoomError.of(failed, asked, largest)


class _DoesNotFitError(Exception):
    """Inside this file: the corner that has no room."""


def _first_failure(edges: Sequence[Edge], radii: Sequence[float]) -> int | None:
    try:
        _all_rounded(edges, radii)
    except _DoesNotFitError as failure:
        return int(failure.args[0])
    return None


def _all_rounded(edges: Sequence[Edge], radii: Sequence[float]) -> list[Edge]:
    trimmed = list(edges)
    arcs: dict[int, Edge] = {}
    for corner, radius in enumerate(radii):
        if radius > 0:
            found = _fillet(trimmed[corner - 1], trimmed[corner], radius)
            if found is None:
                raise _DoesNotFitError(corner)
            trimmed[corner - 1], arcs[corner], trimmed[corner] = found
    pieces = [piece for i, edge in enumerate(trimmed) for piece in (arcs.get(i), edge)]
    return [piece for piece in pieces if piece is not None and piece.chord > 0]


def _fillet(before: Edge, after: Edge, radius: float) -> tuple[Edge, Edge, Edge] | None:
    """Edge before, arc and edge after of one rounded corner; None where there is no room."""
    corner = after.start
    if min(before.chord, after.chord) == 0:
        return None
    entering, leaving = before.direction(corner), after.direction(corner)
    turn = entering[0] * leaving[1] - entering[1] * leaving[0]
    if abs(turn) < _SMOOTH and entering @ leaving > 0:
        return before, Edge(corner, corner), after
    side = np.sign(turn)
    near = sorted(
        _equidistant(before, after, side * radius), key=lambda centre: float(np.hypot(*(centre - corner)))
    )
    for centre in near[:1]:
        first, last = _touching(before, centre), _touching(after, centre)
        if _lies_on(before, first) and _lies_on(after, last):
            swept = np.arctan2(turn, entering @ leaving)
            swept = _turned(first - centre, last - centre, side, float(swept))
            arc = Edge(first, last, float(np.tan(swept / 4)))
            return before.part(before.start, first), arc, after.part(last, after.end)
    return None


def _turned(first: Floats, last: Floats, side: float, usual: float) -> float:
    """Angle from one touching point to the other, on the side the corner turns to."""
    angle = float(np.arctan2(first[0] * last[1] - first[1] * last[0], first @ last))
    return angle if angle * side >= 0 and angle else usual


def _equidistant(before: Edge, after: Edge, shift: float) -> Iterator[Floats]:
    """Points at a signed distance to the left of both edges or their continuations."""
    if before.straight and after.straight:
        yield from _line_line(before, after, shift)
    elif before.straight or after.straight:
        line, arc = (before, after) if before.straight else (after, before)
        yield from _line_circle(line, arc, shift)
    else:
        yield from _circle_circle(before, after, shift)


def _shifted(edge: Edge, shift: float) -> tuple[Floats, Floats]:
    along = edge.direction(edge.start)
    return edge.start + shift * np.array([-along[1], along[0]]), along


def _shifted_radius(arc: Edge, shift: float) -> float:
    return float(arc.radius - np.sign(arc.bulge) * shift)


def _line_line(before: Edge, after: Edge, shift: float) -> Iterator[Floats]:
    (p, d), (q, e) = _shifted(before, shift), _shifted(after, shift)
    cross = d[0] * e[1] - d[1] * e[0]
    if abs(cross) > _SMOOTH:
        off = q - p
        yield p + d * (off[0] * e[1] - off[1] * e[0]) / cross


def _line_circle(line: Edge, arc: Edge, shift: float) -> Iterator[Floats]:
    (p, d), radius = _shifted(line, shift), _shifted_radius(arc, shift)
    along = (arc.centre - p) @ d
    foot = p + along * d
    square = radius**2 - float(((foot - arc.centre) ** 2).sum())
    if radius > 0 and square >= 0:
        yield from (foot + sign * np.sqrt(square) * d for sign in (-1, 1))


def _circle_circle(before: Edge, after: Edge, shift: float) -> Iterator[Floats]:
    first, second = _shifted_radius(before, shift), _shifted_radius(after, shift)
    apart = after.centre - before.centre
    distance = float(np.hypot(*apart))
    if min(first, second) <= 0 or distance == 0:
        return
    along = (distance**2 + first**2 - second**2) / (2 * distance)
    square = first**2 - along**2
    if square >= 0:
        unit = apart / distance
        left = np.array([-unit[1], unit[0]])
        foot = before.centre + along * unit
        yield from (foot + sign * np.sqrt(square) * left for sign in (-1, 1))


def _touching(edge: Edge, centre: Floats) -> Floats:
    """Nearest point of the line or circle of an edge."""
    if edge.straight:
        along = edge.direction(edge.start)
        return np.asarray(edge.start + ((centre - edge.start) @ along) * along)
    off = centre - edge.centre
    return np.asarray(edge.centre + off * edge.radius / np.hypot(*off))


def _lies_on(edge: Edge, point: Floats) -> bool:
    slack = 1e-9 * max(1.0, edge.length)
    if edge.straight:
        along = (point - edge.start) @ edge.direction(edge.start)
        return bool(-slack <= along <= edge.length + slack)
    walked = edge.angle(edge.start, point)
    return walked <= abs(edge.turn) + slack / edge.radius or walked >= 2 * np.pi - slack / edge.radius
