"""Thickness, thin parts and corners: rays through the tree against the plain loop and another library."""

import time
from collections.abc import Callable

import numpy as np
import trimesh

from pourwright.app.shaping.thin import measure_thin
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import Mesh, edge_lines, thickness_map
from pourwright.geometry.ray_kernels import first_hits
from pourwright.geometry.ray_tree import surface_tree
from pourwright.geometry.thin.inscribed import spread

RAYS, FEW = 20_000, 200


def once(work: Callable[[], object]) -> float:
    """Time work [s], the best of three after one run that compiles."""
    work()
    times = []
    for _ in range(3):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def bodies() -> dict[str, Mesh]:
    """A ring, which is the usual case, and a ball, for which every ball touches everything."""
    ring = trimesh.creation.torus(0.2, 0.05, major_sections=320, minor_sections=160)
    ball = trimesh.creation.icosphere(subdivisions=6, radius=0.2)
    return {"ring": Mesh(ring.vertices, ring.faces), "ball": Mesh(ball.vertices, ball.faces)}


def other_library(mesh: Mesh, places: np.ndarray, inward: np.ndarray) -> str:
    """Its plain ray caster; it needs rtree, and its faster one a compiled library that is not asked for."""
    foreign = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    try:
        begin = time.perf_counter()
        foreign.ray.intersects_location(places[:FEW], inward[:FEW], multiple_hits=False)
    except ModuleNotFoundError as error:
        return f"not measured, {error}"
    return f"{(time.perf_counter() - begin) * RAYS / FEW:8.1f} s"


def compare(name: str, mesh: Mesh) -> None:
    """Print the lines of one body."""
    vectors = mesh.area_vectors
    lengths = np.linalg.norm(vectors, axis=1)
    steps = (np.arange(RAYS) + 0.5) / RAYS
    rows = np.minimum(np.searchsorted(np.cumsum(lengths) / lengths.sum(), steps), len(lengths) - 1)
    places, inward = spread(mesh.triangles[rows]), -vectors[rows] / lengths[rows, None]
    few, some = places[:: RAYS // FEW], inward[:: RAYS // FEW]
    tree = surface_tree(mesh)
    ours = once(lambda: tree.hits(places, inward, 1e-9))
    plain = once(lambda: first_hits(mesh.triangles, few, some, 1e-9)) * RAYS / FEW
    whole = {
        "thickness map, balls up to 30 mm": lambda: thickness_map(mesh, thick=0.03),
        "inner corners": lambda: edge_lines(mesh, inner=True, below=0.006),
        "all that shape and check tell": lambda: measure_thin(mesh, UnitSystem.METRIC),
    }
    print(f"{name}, {len(mesh.faces)} triangles")
    print(f"  tree built                         {once(lambda: surface_tree(mesh)):8.3f} s")
    print(f"  {RAYS} rays through the tree        {ours:8.3f} s")
    print(f"  the plain loop over all triangles  {plain:8.1f} s  x{plain / ours:.0f}")
    print(f"  trimesh with rtree                 {other_library(mesh, few, some)}")
    for what, work in whole.items():
        print(f"  {what:34s} {once(work):8.3f} s")


def main() -> None:
    """Print the table."""
    for name, mesh in bodies().items():
        compare(name, mesh)
