"""Compiled loops that go down a tree of boxes: first hits of rays, nearest places, balls that fit."""

import numpy as np
from numba import njit

from pourwright.geometry.distance_kernels import nearest_on_triangle
from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.ray_kernels import along_ray

SLACK = 1e-4
"""A ball that a triangle reaches into by less than this share of its radius fits."""
DEEPEST = 64
"""More nodes than ever wait at once: two for each level of a tree."""


@njit(cache=True)
def enters(box: Floats, start: Floats, inverse: Floats) -> float:
    """Give the distance along a ray at which it comes into a box, infinite where it misses it."""
    first, last = 0.0, np.inf
    for k in range(3):
        near, far = (box[0, k] - start[k]) * inverse[k], (box[1, k] - start[k]) * inverse[k]
        if near > far:
            near, far = far, near
        first, last = max(first, near), min(last, far)
    return first if first <= last else np.inf


@njit(cache=True)
def away(box: Floats, x: float, y: float, z: float) -> float:
    """Give the squared distance of a point to a box."""
    dx = max(box[0, 0] - x, 0.0, x - box[1, 0])
    dy = max(box[0, 1] - y, 0.0, y - box[1, 1])
    dz = max(box[0, 2] - z, 0.0, z - box[1, 2])
    return float(dx * dx + dy * dy + dz * dz)


@njit(cache=True)
def one_hit(
    triangles: Floats, faces: Integers, boxes: Floats, leaf: int, start: Floats, way: Floats, least: float
) -> tuple[float, int]:
    """Follow one ray: distance to the first triangle beyond ``least``, and its row."""
    inverse = np.empty(3)
    for k in range(3):
        inverse[k] = 1.0 / way[k] if abs(way[k]) > 1e-300 else 1e300
    found, which = np.inf, 0
    first_leaf = boxes.shape[0] // 2
    stack = np.empty(DEEPEST, dtype=np.int64)
    stack[0], depth = 0, 1
    while depth > 0:
        depth -= 1
        node = stack[depth]
        entry = enters(boxes[node], start, inverse)
        # a box that begins at the hit itself may hold its twin, of which the lower number counts
        if entry > found or entry == np.inf:
            continue
        if node < first_leaf:
            left, right = 2 * node + 1, 2 * node + 2
            if enters(boxes[left], start, inverse) < enters(boxes[right], start, inverse):
                left, right = right, left
            stack[depth], stack[depth + 1] = left, right
            depth += 2
            continue
        begin = (node - first_leaf) * leaf
        for row in range(begin, min(begin + leaf, triangles.shape[0])):
            distance = along_ray(triangles[row], start, way)
            twin = distance == found and faces[row] < faces[which]
            if distance > least and (distance < found or twin):
                found, which = distance, row
    return found, which


@njit(cache=True)
def tree_hits(
    triangles: Floats, faces: Integers, boxes: Floats, leaf: int, starts: Floats, ways: Floats, least: float
) -> tuple[Floats, Integers]:
    """Distance along each way to the nearest triangle beyond ``least``, infinite for none, and its row."""
    found = np.empty(starts.shape[0])
    which = np.empty(starts.shape[0], dtype=np.int64)
    for ray in range(starts.shape[0]):
        found[ray], which[ray] = one_hit(triangles, faces, boxes, leaf, starts[ray], ways[ray], least)
    return found, which


@njit(cache=True)
def tree_nearest(triangles: Floats, boxes: Floats, leaf: int, points: Floats, most: float) -> Floats:
    """Way to points from the nearest place of the surface; any way of the length ``most`` if longer."""
    found = np.zeros((points.shape[0], 3))
    first_leaf = boxes.shape[0] // 2
    stack = np.empty(DEEPEST, dtype=np.int64)
    for n in range(points.shape[0]):
        x, y, z = points[n]
        best = most * most
        found[n, 0] = most
        stack[0], depth = 0, 1
        while depth > 0:
            depth -= 1
            node = stack[depth]
            if away(boxes[node], x, y, z) >= best:
                continue
            if node < first_leaf:
                depth = push_nearer_last(boxes, stack, depth, node, x, y, z)
                continue
            begin = (node - first_leaf) * leaf
            for row in range(begin, min(begin + leaf, triangles.shape[0])):
                _, dx, dy, dz = nearest_on_triangle(triangles[row], x, y, z)
                square = dx * dx + dy * dy + dz * dz
                if square < best:
                    best = square
                    found[n, 0], found[n, 1], found[n, 2] = dx, dy, dz
    return found


@njit(cache=True)
def push_nearer_last(
    boxes: Floats, stack: Integers, depth: int, node: int, x: float, y: float, z: float
) -> int:
    """Let both children of a node wait, the nearer one to be looked at first; return how many wait."""
    left, right = 2 * node + 1, 2 * node + 2
    if away(boxes[left], x, y, z) < away(boxes[right], x, y, z):
        left, right = right, left
    stack[depth], stack[depth + 1] = left, right
    return depth + 2


@njit(cache=True)
def shrunk(triangle: Floats, normal: Floats, place: Floats, way: Floats, radius: float, out: Floats) -> float:
    """Shrink one ball until one triangle no longer reaches into it; write where they touch into out."""
    for _ in range(60):
        x, y, z = place[0] + radius * way[0], place[1] + radius * way[1], place[2] + radius * way[2]
        high = (
            normal[0] * (triangle[0, 0] - x)
            + normal[1] * (triangle[0, 1] - y)
            + normal[2] * (triangle[0, 2] - z)
        )
        least = radius * (1 - SLACK)
        # its plane passes the ball by, which is found sooner than where its nearest place lies
        if abs(high) >= least:
            break
        _, dx, dy, dz = nearest_on_triangle(triangle, x, y, z)
        if dx * dx + dy * dy + dz * dz >= least * least:
            break
        qx, qy, qz = x - dx - place[0], y - dy - place[1], z - dz - place[2]
        along = qx * way[0] + qy * way[1] + qz * way[2]
        if along <= 0.0:
            break
        radius = (qx * qx + qy * qy + qz * qz) / (2 * along)
        out[0], out[1], out[2] = place[0] + qx, place[1] + qy, place[2] + qz
    return radius


@njit(cache=True)
def shrunk_balls(
    triangles: Floats, normals: Floats, boxes: Floats, cones: Floats, leaf: int, places: Floats,
    inward: Floats, radii: Floats, facing: float,
) -> tuple[Floats, Integers, Floats]:  # fmt: skip
    """Shrink balls that touch the surface from inside until no facing triangle reaches into them.

    Gives their radii, the row of the triangle that stopped each (-1 for none), and where it did. A smaller
    ball lies within the larger one that touches at the same place, so each box is looked at once.
    """
    count = places.shape[0]
    found, rows, touched = radii.copy(), np.full(count, -1), np.zeros((count, 3))
    first_leaf = boxes.shape[0] // 2
    stack = np.empty(DEEPEST, dtype=np.int64)
    for n in range(count):
        way, radius = inward[n], radii[n]
        stack[0], depth = 0, 1
        while depth > 0:
            depth -= 1
            node = stack[depth]
            cone = cones[node]
            if cone[0] * way[0] + cone[1] * way[1] + cone[2] * way[2] < cone[3]:
                continue
            least = radius * (1 - SLACK)
            x, y = places[n, 0] + radius * way[0], places[n, 1] + radius * way[1]
            z = places[n, 2] + radius * way[2]
            if away(boxes[node], x, y, z) >= least * least:
                continue
            if node < first_leaf:
                depth = push_nearer_last(boxes, stack, depth, node, x, y, z)
                continue
            begin = (node - first_leaf) * leaf
            for row in range(begin, min(begin + leaf, triangles.shape[0])):
                normal = normals[row]
                if normal[0] * way[0] + normal[1] * way[1] + normal[2] * way[2] < facing:
                    continue
                smaller = shrunk(triangles[row], normal, places[n], way, radius, touched[n])
                if smaller < radius:
                    radius, rows[n] = smaller, row
        found[n] = radius
    return found, rows, touched
