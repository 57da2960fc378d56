"""Straight and round edges of an outline in the plane, and the chords they become."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.sources import Kind, Sourced
from pourwright.geometry.mesh import Floats

CHORD_TOLERANCE = Sourced(
    5e-5, "m", 1e-5, 2e-4, Kind.PRACTICE, "common-practice",
    "a twentieth of a millimetre is not felt on a sanded face, and far below what rubber and resin shrink",
)  # fmt: skip
"""How far a chord may leave its arc."""
_STRAIGHT = 1e-9
_WIDEST = np.pi / 3


@dataclass(frozen=True, slots=True, eq=False)
class Edge:
    """One edge of an outline, straight or an arc of a circle.

    Parameters
    ----------
    start, end : array (2,)
        Its ends [m].
    bulge : float
        Tangent of a quarter of the angle it turns by, positive to the left; 0 where it is straight.

    Notes
    -----
    The bulge is how DXF writes arcs (AutoCAD DXF Reference, LWPOLYLINE, group code 42; from memory).
    """

    start: Floats
    end: Floats
    bulge: float = 0.0

    @property
    def straight(self) -> bool:
        """Whether it is no arc."""
        return abs(self.bulge) < _STRAIGHT

    @property
    def turn(self) -> float:
        """Angle it turns by, positive to the left [rad]."""
        return float(4 * np.arctan(self.bulge))

    @property
    def chord(self) -> float:
        """Distance of its ends [m]."""
        return float(np.hypot(*(self.end - self.start)))

    @property
    def radius(self) -> float:
        """Of the arc; infinite where it is straight [m]."""
        if self.straight:
            return np.inf
        return self.chord * (1 + self.bulge**2) / (4 * abs(self.bulge))

    @property
    def length(self) -> float:
        """Along the edge [m]."""
        return self.chord if self.straight else self.radius * abs(self.turn)

    @property
    def centre(self) -> Floats:
        """Of the arc [m]."""
        across = self.end - self.start
        left = np.array([-across[1], across[0]])
        middle = (self.start + self.end) / 2
        return np.asarray(middle + left * (1 - self.bulge**2) / (4 * self.bulge))

    def direction(self, point: Floats) -> Floats:
        """Way along the edge at one of its points, a unit vector."""
        if self.straight:
            return np.asarray((self.end - self.start) / self.chord)
        off = (point - self.centre) / self.radius
        return np.asarray(np.sign(self.bulge) * np.array([-off[1], off[0]]))

    def part(self, start: Floats, end: Floats) -> Edge:
        """The stretch of it between two of its points."""
        if self.straight:
            return Edge(start, end)
        return Edge(start, end, np.sign(self.bulge) * np.tan(self.angle(start, end) / 4))

    def angle(self, start: Floats, end: Floats) -> float:
        """Angle walked along an arc from one point of its circle to another, 0 to 2 pi [rad]."""
        first, last = start - self.centre, end - self.centre
        walked = np.arctan2(first[0] * last[1] - first[1] * last[0], first @ last) * np.sign(self.bulge)
        return float(walked % (2 * np.pi))


def edge_through(start: npt.ArrayLike, middle: npt.ArrayLike, end: npt.ArrayLike) -> Edge:
    """Draw the arc through three points.

    Parameters
    ----------
    start, middle, end : array (2,)
        Its ends, and any point between them [m].

    Returns
    -------
    Edge
        Straight where the three lie on a line.

    Raises
    ------
    ValueError
        Where two points are one, or the middle one lies on the line but not between the others.

    Examples
    --------
    >>> half = edge_through([1.0, 0.0], [0.0, 1.0], [-1.0, 0.0])
    >>> round(half.bulge, 12), round(half.radius, 12)
    (1.0, 1.0)
    """
    a, m, b = (np.asarray(point, dtype=np.float64) for point in (start, middle, end))
    back, ahead = a - m, b - m
    if not (back.any() and ahead.any() and (b - a).any()):
        raise ValueError("two of the three points of an arc are the same")
    # the inscribed angle over a chord is half the rest of the circle
    seen = np.arctan2(back[0] * ahead[1] - back[1] * ahead[0], back @ ahead)
    if abs(seen) < 1e-6:
        raise ValueError("the point that an arc goes through lies in line with its ends, beyond them")
    half = np.pi - abs(seen)
    bulge = -np.sign(seen) * np.tan(half / 2)
    return Edge(a, b, 0.0 if half < 1e-6 else float(bulge))


@checked(tolerance=Range(0, unit="m", open_low=True))
def chords(edge: Edge, tolerance: float = CHORD_TOLERANCE.value) -> Floats:
    """Divide an edge into chords that enclose exactly the area of the arc.

    Parameters
    ----------
    edge : Edge
        Straight or round.
    tolerance : float
        Farthest a chord may leave the arc [m].

    Returns
    -------
    array (n, 2)
        Its points without the first one; the last is the edge's own end [m].

    Notes
    -----
    Chords with their corners on the arc would cut off a share 2 pi^2 / (3 n^2) of a circle's area. The
    corners between the ends stand off the arc by a little, so that the triangles from the centre, two with
    the radius R at the end and n - 2 without, have the area of the sector: an outline of arcs keeps its
    area. The outermost points on all four sides stay on the arc.

    Examples
    --------
    >>> half = edge_through([1.0, 0.0], [0.0, 1.0], [-1.0, 0.0])
    >>> corners = np.vstack([half.start, chords(half, 0.01)])
    >>> x, y = corners.T
    >>> round(float((x[:-1] * y[1:] - x[1:] * y[:-1]).sum() / 2), 12), len(corners)
    (1.570796326795, 13)
    """
    if edge.straight:
        return np.asarray(edge.end[None])
    return np.concatenate([_corners(part, tolerance) for part in _quarters(edge)])


def _quarters(arc: Edge) -> list[Edge]:
    """Part an arc at its outermost points on all four sides, so that its width and height stay exact."""
    sides = np.array([[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]])
    extremes = arc.centre + arc.radius * sides
    walked = [(arc.angle(arc.start, extreme), extreme) for extreme in extremes]
    slack = 1e-6 * abs(arc.turn)
    inner = sorted((way for way in walked if slack < way[0] < abs(arc.turn) - slack), key=lambda way: way[0])
    points = [arc.start, *(extreme for _, extreme in inner), arc.end]
    angles = [0.0, *(angle for angle, _ in inner), abs(arc.turn)]
    side = np.sign(arc.bulge)
    return [
        Edge(start, end, side * np.tan((last - first) / 4))
        for (start, end), (first, last) in zip(pairwise(points), pairwise(angles), strict=True)
    ]


def _corners(arc: Edge, tolerance: float) -> Floats:
    """Corners of the chords of a short arc, without the first."""
    turned = abs(arc.turn)
    count = chord_count(arc.radius, turned, tolerance)
    # few chords have few corners to make up for what they cut off
    while (stretched := _stretched(turned, count)) - 1 > tolerance / arc.radius:
        count += 1
    step = turned / count
    off = (arc.start - arc.centre) * stretched
    angles = np.sign(arc.bulge) * step * np.arange(1, count)
    cosines, sines = np.cos(angles), np.sin(angles)
    inner = arc.centre + np.stack([cosines * off[0] - sines * off[1], sines * off[0] + cosines * off[1]], 1)
    return np.concatenate([inner, arc.end[None]])


def _stretched(turned: float, count: int) -> float:
    """How far off the centre the corners stand, in radii, so that the chords keep the area of the sector."""
    sine = np.sin(turned / count)
    if count == 2:
        return float(turned / (2 * sine))
    return float((np.sqrt(1 + (count - 2) * turned / sine) - 1) / (count - 2))


def chord_count(radius: float, angle: float, tolerance: float) -> int:
    """Count the chords of an arc.

    Parameters
    ----------
    radius : float
        [m]
    angle : float
        That the arc turns by [rad].
    tolerance : float
        Farthest a chord may leave it [m].

    Returns
    -------
    int
        2 or more.

    Examples
    --------
    >>> chord_count(0.1, 2 * np.pi, 5e-5)
    100
    """
    widest = min(_WIDEST, 2 * np.arccos(max(0.5, 1 - tolerance / radius)))
    return max(2, int(np.ceil(angle / widest - 1e-9)))
