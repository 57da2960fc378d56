"""Compiled walks across an edge: the cut through a surface at right angles to it, face by face."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

STEPS = 128
"""Faces that are crossed on each side of an edge."""
FLAT = np.radians(0.3)
"""Edges that turn by less are none: two triangles of one face."""
ALONE = np.radians(50.0)
"""An edge that turns by more is a corner by itself, and no facet of a rounding."""
LIKE = 3.0
"""A strip wider than so many times the widest of a rounding is no facet of it."""
LEG_END = np.radians(30.0)
"""A leg of a corner ends where the surface has turned by so much again."""


@njit(cache=True)
def walk(
    vertices: Floats, faces: Integers, normals: Floats, twins: Integers, half: int,
    points: Floats, widths: Floats, turns: Floats, halves: Integers,
) -> int:  # fmt: skip
    """Walk away from the middle of an edge, at right angles to it, into the face that has this half of it.

    Writes for each face where it is come into, how wide it is, by how much the surface folds inward where it
    is left (negative outward), and which half edge that is. Returns the number of faces.
    """
    face, side = half // 3, half % 3
    start, end = vertices[faces[face, side]], vertices[faces[face, (side + 1) % 3]]
    along = end - start
    along /= np.sqrt((along * along).sum())
    here, level = (start + end) / 2, ((start + end) / 2 * along).sum()
    before, up = np.zeros(3), np.zeros(3)
    count = 0
    for _ in range(STEPS):
        one, other, apex = faces[face, side], faces[face, (side + 1) % 3], faces[face, (side + 2) % 3]
        low = (vertices[one] * along).sum() - level
        high = (vertices[other] * along).sum() - level
        top = (vertices[apex] * along).sum() - level
        # the cut leaves between the apex and that end of the entry edge which lies on the other side of it
        if (top > 0) == (high > 0):
            out, share, a, b = (side + 2) % 3, top / (top - low) if top != low else 0.0, apex, one
        else:
            out, share, a, b = (side + 1) % 3, high / (high - top) if high != top else 0.0, other, apex
        there = vertices[a] + min(max(share, 0.0), 1.0) * (vertices[b] - vertices[a])
        way = there - here
        width = np.sqrt((way * way).sum())
        if width > 0:
            way /= width
            if count > 0:
                turns[count - 1] = np.arctan2((way * up).sum(), (way * before).sum())
            before = way
            up = normals[face] - (normals[face] * along).sum() * along
            up /= max(np.sqrt((up * up).sum()), 1e-30)
        elif count > 0:
            turns[count - 1] = 0.0
        points[count], widths[count], halves[count], turns[count] = here, width, 3 * face + out, 0.0
        count += 1
        twin = twins[3 * face + out]
        if twin < 0:
            break
        here, face, side = there, twin // 3, twin % 3
    return count - 1


@njit(cache=True)
def next_fold(widths: Floats, turns: Floats, count: int, begin: int, sign: float) -> tuple[int, float]:
    """Find the next facet of a rounding: the face it ends at and its width; -1 where there is none."""
    width = 0.0
    for n in range(begin, count):
        width += widths[n]
        if abs(turns[n]) < FLAT:
            continue
        if turns[n] * sign < 0 or turns[n] * sign > ALONE:
            return -1, 0.0
        return n, width
    return -1, 0.0


@njit(cache=True)
def leg(
    points: Floats, widths: Floats, turns: Floats, count: int, begin: int, out: Floats
) -> tuple[float, int]:
    """Length of the side of a corner beyond its rounding; writes its middle into out, returns its face."""
    length, turned, last = 0.0, 0.0, begin
    for n in range(begin, count + 1):
        length += widths[n]
        last = n
        if n < count:
            turned += turns[n]
            if abs(turned) > LEG_END:
                break
    walked = 0.0
    for n in range(begin, last + 1):
        if walked + widths[n] >= length / 2 or n == last:
            share = (length / 2 - walked) / widths[n] if widths[n] > 0 else 0.0
            following = points[n + 1] if n < count else points[n]
            out[:] = points[n] + min(max(share, 0.0), 1.0) * (following - points[n])
            return length, n
        walked += widths[n]
    return length, begin


@njit(cache=True)
def roundings(
    vertices: Floats, faces: Integers, normals: Floats, twins: Integers, chosen: Integers, angles: Floats,
    sign: float,
) -> tuple[Floats, Integers, Floats, Integers]:  # fmt: skip
    """Put the facets of a rounding together across each chosen half edge.

    Gives for each the whole turn, the radius, and both legs (n, 4); the next half edges of the rounding on
    both sides, -1 for none (n, 2); a place in the middle of each leg (n, 2, 3) and its face (n, 2).
    """
    count = chosen.shape[0]
    found, beside = np.zeros((count, 4)), np.full((count, 2), -1)
    middles, sides = np.zeros((count, 2, 3)), np.zeros((count, 2), dtype=np.int64)
    points, widths = np.zeros((2, STEPS + 1, 3)), np.zeros((2, STEPS + 1))
    turns, halves = np.zeros((2, STEPS + 1)), np.zeros((2, STEPS + 1), dtype=np.int64)
    steps, begins = np.zeros(2, dtype=np.int64), np.zeros(2, dtype=np.int64)
    for n in range(count):
        steps[0] = walk(vertices, faces, normals, twins, chosen[n], points[0], widths[0], turns[0], halves[0])
        steps[1] = walk(
            vertices, faces, normals, twins, twins[chosen[n]], points[1], widths[1], turns[1], halves[1]
        )
        begins[:] = 0
        turn, length, widest, strips = angles[n], 0.0, np.inf, 0
        while turn < ALONE or strips > 0:
            best, face, strip = -1, -1, np.inf
            for s in range(2):
                end, width = next_fold(widths[s], turns[s], steps[s], begins[s], sign)
                if end >= 0 and width < strip:
                    best, face, strip = s, end, width
            if best < 0 or strip > LIKE * widest:
                break
            if begins[best] == 0:
                beside[n, best] = halves[best, face]
            turn += abs(turns[best, face])
            begins[best] = face + 1
            length += strip
            strips += 1
            widest = strip if strips == 1 else max(widest, strip)
        radius = length / (2 * strips * np.sin(turn / (2 * strips))) if strips > 0 else 0.0
        found[n, 0], found[n, 1] = turn, radius
        for s in range(2):
            found[n, 2 + s], at = leg(points[s], widths[s], turns[s], steps[s], begins[s], middles[n, s])
            sides[n, s] = halves[s, at] // 3
    return found, beside, middles, sides
