"""A surface made anew: by crossings of columns, by exact distances, and by manifold3d's level set."""

import time
from collections.abc import Callable

import manifold3d
import numpy as np

from pourwright.geometry import Grid, Mesh, box, distance_grid, joined, measure, remeshed
from pourwright.geometry.distance import features_of
from pourwright.geometry.distance_kernels import signed_distance
from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.repairs.deviation import deviation
from pourwright.geometry.repairs.marching import EDGES, triangle_table
from pourwright.geometry.repairs.remesh import STEP
from pourwright.geometry.repairs.union import manifold_of, mesh_of
from tests.geometry.bodies import ball, torus, turned


def by_distances(mesh: Mesh, tolerance: float) -> Mesh:
    """The same cubes, with corners where the exact distance at both ends would be zero on a straight line."""
    step = STEP * tolerance
    lower, upper = mesh.bounds
    counts = np.ceil((upper - lower) / step).astype(int) + 3
    axes = [low - step * 1.4 + step * np.arange(n + 1) for low, n in zip(lower, counts, strict=True)]
    found = distance_grid(mesh, Grid(*axes), 2 * step)
    points = [(axis[1:] + axis[:-1]) / 2 for axis in axes]
    return _cubes(found, points, step)


def _cubes(values: Floats, points: list[Floats], step: float) -> Mesh:
    """March with plain arrays, a case at a time."""
    inside = values < 0
    cut = tuple(slice(0, n - 1) for n in inside.shape)
    corners = [
        inside[tuple(slice(b, n - 1 + b) for b, n in zip(bits, inside.shape, strict=True))]
        for bits in _bits()
    ]
    case = np.sum([corner.astype(np.int64) << n for n, corner in enumerate(corners)], axis=0)
    counts, table = triangle_table()
    size = np.array(inside.shape)
    keys = []
    for number in np.unique(case):
        cubes = np.argwhere(case[cut] == number)
        for triangle in table[number, : counts[number]]:
            keys += [np.stack([_key(cubes, EDGES[edge], size) for edge in triangle], axis=1)]
    flat = np.concatenate(keys)
    edges, faces = np.unique(flat, return_inverse=True)
    start, axis = edges // 3, edges % 3
    at = np.stack(np.unravel_index(start, size), axis=1)
    to = at + np.eye(3, dtype=int)[axis]
    here, there = values[tuple(at.T)], values[tuple(to.T)]
    share = np.clip(here / (here - there), 0.02, 0.98)
    places = (
        np.stack([points[k][at[:, k]] for k in range(3)], axis=1) + (share * step)[:, None] * np.eye(3)[axis]
    )
    return Mesh(places, faces.reshape(-1, 3))


def _bits() -> list[tuple[int, int, int]]:
    return [(n & 1, n >> 1 & 1, n >> 2) for n in range(8)]


def _key(cubes: Integers, edge: tuple[int, int], size: Integers) -> Integers:
    start = cubes + np.array(_bits()[edge[0]])
    corner = np.ravel_multi_index(tuple(start.T.astype(int)), tuple(size))
    return np.asarray(3 * corner + (edge[1] - edge[0]).bit_length() - 1)


def by_level_set(mesh: Mesh, tolerance: float) -> Mesh:
    """manifold3d's marching of tetrahedra on a body-centred lattice; it asks for one point at a time."""
    found = features_of(mesh)
    listed, out = np.arange(len(found.triangles)), np.empty(3)

    def inward(x: float, y: float, z: float) -> float:
        return -signed_distance(found.triangles, found.normals, found.spheres, listed, x, y, z, out)

    lower, upper = mesh.bounds
    edge = STEP * tolerance
    bounds = [*(lower - 2 * edge), *(upper + 2 * edge)]
    return mesh_of(manifold3d.Manifold.level_set(inward, bounds, edge))


WAYS: dict[str, Callable[[Mesh, float], Mesh]] = {
    "crossings of columns (ours)": remeshed,
    "exact distances, same cubes": by_distances,
    "manifold3d level set": by_level_set,
}


def main() -> None:
    """Print volume, farthest corner, triangles and seconds of each way."""
    bodies = {
        "box, turned": turned(box([0.2, 0.2, 0.2]), 4),
        "ball": ball(0.1, 4),
        "ring": turned(torus(), 3),
    }
    for way in WAYS.values():
        way(ball(0.1, 1), 0.05)
    print(f"{'body, tolerance, way':50}{'volume':>10}{'farthest':>12}{'triangles':>11}{'seconds':>9}")
    for name, body in bodies.items():
        for tolerance in (0.008, 0.004):
            for words, make in WAYS.items():
                begin = time.perf_counter()
                made = make(body, tolerance)
                seconds = time.perf_counter() - begin
                off = measure(made).volume / measure(body).volume - 1
                far = deviation(body, made)[0]
                line = f"{name}, {1000 * tolerance:g} mm, {words}"
                print(f"{line:50}{100 * off:9.3f}%{1000 * far:9.2f} mm{len(made.faces):11d}{seconds:9.2f}")
    pair = turned(joined([box([0.2, 0.2, 0.2]), box([0.2, 0.2, 0.2]).moved([0.1, 0.05, 0.03])]), 4)
    volume = 2 * 0.008 - 0.1 * 0.15 * 0.17
    for words, make in WAYS.items():
        off = measure(make(pair, 0.004)).volume / volume - 1
        print(f"{f'overlapping boxes, 4 mm, {words}':50}{100 * off:9.3f}%")
    assert manifold_of(remeshed(pair, 0.004)).volume() > 0
