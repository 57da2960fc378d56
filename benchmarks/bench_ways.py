"""Which way up and which pull: undercut over 200 directions, caught air, all ways of a body.

Baselines. For the undercut a compiled ray (Moeller, Trumbore) from the middle of every face along its pull:
what one would write first, and exact for those places. For caught air a flood fill with scipy over cut cells,
96 along the longest side, layer by layer: the usual way. Both get the same body in the same run.
"""

from time import perf_counter

import numpy as np
import trimesh
from scipy import ndimage

from pourwright.geometry import (
    Grid,
    Mesh,
    box,
    cell_fractions,
    closer_look,
    measure_ways,
    revolve,
    trapped_volume,
    undercut_over,
)
from pourwright.geometry.ray_kernels import first_hits
from pourwright.geometry.ways_up.pockets import Surface
from pourwright.geometry.ways_up.spread import SLIDES

CUP = [[0.05, 0.0], [0.05, 0.1], [0.04, 0.1], [0.04, 0.02]]


def bodies() -> dict[str, Mesh]:
    """Bodies of ours: the stool of the example, a ring, a rough ball as a scan would have it."""
    ring = trimesh.creation.torus(0.2, 0.05, major_sections=320, minor_sections=160)
    ball = trimesh.creation.icosphere(subdivisions=6, radius=0.1)
    rough = ball.vertices * (1 + 0.02 * np.random.default_rng(0).standard_normal((len(ball.vertices), 1)))
    heights = np.linspace(0, 0.44, 90)
    stool = np.stack([0.12 + 0.03 * np.cos(14 * heights), heights], axis=1)
    return {
        "stool, 46,000": revolve(stool, 256),
        "ring, 102,000": Mesh(ring.vertices, ring.faces),
        "rough ball, 82,000": Mesh(rough, ball.faces),
    }


def by_rays(mesh: Mesh, way: np.ndarray) -> float:
    """Share of the surface that locks a mold of two parts, a ray from the middle of each face."""
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    facing = vectors @ way / areas
    asked = np.abs(facing) > SLIDES
    ways = np.sign(facing[asked])[:, None] * way
    reach, _ = first_hits(mesh.triangles, mesh.triangles[asked].mean(axis=1), ways, 1e-9)
    return float(areas[asked][np.isfinite(reach)].sum() / areas.sum())


def by_flood(mesh: Mesh, count: int = 96) -> float:
    """Air caught around a body, by filling cells layer by layer [m3]."""
    low, high = mesh.bounds
    step = float((high - low).max()) / count
    axes = [np.arange(a - 2 * step, b + 3 * step, step) for a, b in zip(low, high, strict=True)]
    grid = Grid(*axes)
    space = cell_fractions(mesh, grid) < 0.5
    lost = np.zeros_like(space)
    for layer in range(space.shape[2]):
        open_ = space[:, :, layer:] & ~lost[:, :, layer:]
        labels, _ = ndimage.label(open_)
        lost[:, :, layer:] |= open_ & (labels != labels[0, 0, 0])
    return float(lost.sum() * step**3)


def timed(work, repeats: int = 3):  # type: ignore[no-untyped-def]
    """Best of a few runs, and the answer."""
    times = []
    for _ in range(repeats):
        begun = perf_counter()
        answer = work()
        times.append(perf_counter() - begun)
    return min(times), answer


def main() -> None:
    """Print the table."""
    measure_ways(box([0.1, 0.1, 0.1]))
    undercut_over(box([0.1, 0.1, 0.1]))
    print("body                  203 pulls   closer look at 6   one look for air   all ways up (how many)")
    for name, mesh in bodies().items():
        pulls, found = timed(lambda mesh=mesh: undercut_over(mesh))
        fine, _ = timed(lambda mesh=mesh, found=found: closer_look(mesh, found))
        surface = Surface(mesh)
        air, _ = timed(lambda surface=surface: surface.pockets(np.eye(3), outside=True))
        ways, order = timed(lambda mesh=mesh: measure_ways(mesh), 1)
        print(f"{name:20s} {pulls:8.2f} s {fine:14.2f} s {1000 * air:14.0f} ms {ways:14.2f} s ({len(order)})")
    small = trimesh.creation.torus(0.2, 0.05, major_sections=96, minor_sections=48)
    ring, way = Mesh(small.vertices, small.faces), np.array([1.0, 0.0, 0.0])
    ours, share = timed(lambda: undercut_over(ring, [way]).parted[0])
    rays, exact = timed(lambda: by_rays(ring, way), 2)
    print(f"\nring of {len(ring.faces):,}, one pull: ours {1000 * ours:.1f} ms, share {share:.4f}")
    print(f"  a ray from each face {1000 * rays:.0f} ms, share {exact:.4f}; ratio {rays / ours:.0f}")
    cup = revolve(CUP, 256).transformed(trimesh.transformations.rotation_matrix(np.radians(200), [1, 0, 0]))
    true = np.pi * 0.04**2 * (0.08 - 0.04 * np.tan(np.radians(20)))
    tree, found = timed(lambda: trapped_volume(Surface(cup).pockets(np.eye(3), outside=True)))
    flood, filled = timed(lambda: by_flood(cup), 1)
    print(f"leaning cup, caught air: ours {1000 * tree:.1f} ms, off by {found / true - 1:+.2%}")
    print(f"  flood fill {1000 * flood:.0f} ms, off by {filled / true - 1:+.2%}; ratio {flood / tree:.0f}")
