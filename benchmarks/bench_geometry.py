"""Geometry: level curve, cell fractions, offset volume, faults, against what one would write first."""

import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import manifold3d
import numpy as np
import trimesh
from scipy.ndimage import distance_transform_edt

from pourwright.geometry import (
    Grid,
    Mesh,
    box,
    cell_fractions,
    find_faults,
    level_volume,
    measure,
    offset_volume,
    read_mesh,
    revolve,
    shoot_columns,
    split_surface,
    volume_at_levels,
    winding_range,
)
from pourwright.geometry.mesh import Floats

RUNS = 7


def median(work: Callable[[], object], runs: int = RUNS) -> float:
    """Time work [s], after one run that compiles and warms."""
    work()
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return statistics.median(times)


def row(what: str, ours: float, goal: str = "", baseline: float | None = None, note: str = "") -> None:
    """Print one line of the table."""
    ratio = f"{baseline * 1e3:9.0f} ms  x{baseline / ours:6.1f}" if baseline is not None else ""
    print(f"{what:52s} {ours * 1e3:8.1f} ms {goal:>9s} {ratio:24s} {note}")


def ball(subdivisions: int) -> Mesh:
    """Make a ball of radius 0.2 m out of 20 * 4**subdivisions triangles."""
    found = trimesh.creation.icosphere(subdivisions=subdivisions, radius=0.2)
    return Mesh(found.vertices, found.faces)


def levels_by_numpy(mesh: Mesh, levels: Floats) -> Floats:
    """Baseline: the same sum, one vector expression per level, heights sorted beforehand."""
    z0, z1, z2 = np.sort(mesh.triangles[:, :, 2], axis=1).T
    area = -mesh.area_vectors[:, 2]
    out = np.empty(levels.size)
    with np.errstate(divide="ignore", invalid="ignore"):
        for n, z in enumerate(levels):
            rising = (z - z0) ** 3 / (3 * (z1 - z0) * (z2 - z0))
            falling = z - (z0 + z1 + z2) / 3 + (z2 - z) ** 3 / (3 * (z2 - z0) * (z2 - z1))
            depth = np.select([z <= z0, z < z1, z < z2], [0.0, rising, falling], z - (z0 + z1 + z2) / 3)
            out[n] = (area * depth).sum()
    return out


def bench_levels() -> None:
    """V(z) of 1.3 million triangles at 512 levels; the baseline does 16 levels, times 32."""
    mesh = ball(8)
    levels = np.linspace(-0.199, 0.199, 512)
    few = levels[::32]
    ours = median(lambda: volume_at_levels(mesh, levels))
    slow = 32 * median(lambda: levels_by_numpy(mesh, few), 1)
    gap = np.abs(volume_at_levels(mesh, few) - levels_by_numpy(mesh, few)).max() / measure(mesh).volume
    row(f"V(z), {len(mesh.faces)} triangles, 512 levels", ours, "< 200 ms", slow, f"differ {gap:.0e}")
    curve_time = median(lambda: level_volume(mesh), 3)
    row("  preparing the curve for any z and its inverse", curve_time)


def bench_cells() -> None:
    """Fractions of 1.2 million cells; the baseline samples 4 x 4 columns in each."""
    edges = np.linspace(-0.21, 0.21, 107)
    grid = Grid(edges, edges, edges)
    for subdivisions in (5, 6, 7):
        mesh = ball(subdivisions)
        volume = measure(mesh).volume
        ours = median(lambda mesh=mesh: cell_fractions(mesh, grid))  # type: ignore[misc]  # bound at once
        sampled = median(lambda mesh=mesh: shoot_columns(mesh, 2, 400))  # type: ignore[misc]
        columns = shoot_columns(mesh, 2, 400)
        extent = mesh.bounds[1] - mesh.bounds[0]
        rough = -(columns.heights * columns.signs).sum() * extent[0] * extent[1] / 400**2
        error = (cell_fractions(mesh, grid) * grid.cell_volumes).sum() / volume - 1
        note = f"error {error:.0e}, columns {rough / volume - 1:.0e} (sweep alone timed)"
        row(f"fractions of {1191016} cells, {len(mesh.faces)} triangles", ours, "< 200 ms", sampled, note)
    pieces = split_surface(mesh, grid)
    row("  with the surface already cut", median(lambda: cell_fractions(mesh, grid, pieces=pieces)))


def offset_by_voxels(side: float, grow: float, spacing: float) -> float:
    """Baseline: exact Euclidean distance transform of a cube of voxels, counted."""
    count, rim = round(side / spacing), int(np.ceil(grow / spacing)) + 2
    solid = np.zeros([count + 2 * rim] * 3, dtype=bool)
    solid[rim:-rim, rim:-rim, rim:-rim] = True
    return float((distance_transform_edt(~solid) * spacing <= grow).sum() * spacing**3)


def bench_offset() -> None:
    """Volume of a 0.2 m cube grown by 20 mm, at 2 mm."""
    side, grow, spacing = 0.2, 0.021, 2e-3
    exact = side**3 + 6 * side**2 * grow + 3 * np.pi * side * grow**2 + 4 / 3 * np.pi * grow**3
    mesh = box([side] * 3)
    ours = median(lambda: offset_volume(mesh, grow, spacing), 3)
    slow = median(lambda: offset_by_voxels(side, grow, spacing), 3)
    errors = [
        offset_volume(mesh, grow, spacing) / exact - 1,
        offset_by_voxels(side, grow, spacing) / exact - 1,
    ]
    note = f"error {errors[0]:+.3%} (goal 0.15 %), voxels {errors[1]:+.2%}"
    row("offset of a cube by 21 mm at 2 mm", ours, "", slow, note)


def hits_by_manifold(mesh: Mesh, count: int) -> int:
    """Baseline: manifold3d's own ray casting through a tree of boxes, few of the columns."""
    body = manifold3d.Manifold(manifold3d.Mesh64(mesh.vertices.copy(), mesh.faces.astype(np.uint64)))
    lower, upper = mesh.bounds
    steps = (np.arange(count) + 0.41) / count
    x, y = (lower[i] + (upper[i] - lower[i]) * steps for i in range(2))
    rays = [((a, b, lower[2] - 0.01), (a, b, upper[2] + 0.01)) for a in x for b in y]
    return sum(len(body.ray_cast(*ray)) for ray in rays)


def bench_winding() -> None:
    """How often space is enclosed, on 65,536 columns through 100,000 triangles; the baseline does 4,096."""
    height = np.linspace(0, 0.42, 196)
    radius = 0.125 + 0.035 * np.cos(height / 0.42 * 2 * np.pi)
    mesh = revolve(np.stack([radius, height], axis=1))
    ours = max(median(lambda axis=axis: winding_range(mesh, axis)) for axis in range(3))  # type: ignore[misc]  # bound at once
    slow = 16 * median(lambda: hits_by_manifold(mesh, 64), 1)
    row(f"winding range, {len(mesh.faces)} triangles, worst axis", ours, "< 100 ms", slow)


def bench_convex() -> None:
    """Worst error of the wall around ten convex bodies at 2 mm, against Steiner's formula."""
    rng = np.random.default_rng(0)
    worst, took = 0.0, []
    for _ in range(10):
        hull = trimesh.convex.convex_hull(rng.normal(size=(40, 3)) * rng.uniform(0.03, 0.12, 3))
        body, bend = Mesh(hull.vertices, hull.faces), float(hull.integral_mean_curvature)
        solid = measure(body)
        for grow in (0.010, 0.0173, 0.025):
            wall = solid.area * grow + bend * grow**2 + 4 / 3 * np.pi * grow**3
            took.append(median(lambda body=body, grow=grow: offset_volume(body, grow), 1))  # type: ignore[misc]  # bound at once
            worst = max(worst, abs((offset_volume(body, grow) - solid.volume) / wall - 1))
    note = f"worst error of the wall {worst:.3%} (goal 0.2 % of the body with it)"
    row("offset of convex bodies by 10 to 25 mm at 2 mm", statistics.median(took), note=note)


def bench_piece() -> None:
    """What a check does with a mesh of 50,000 triangles."""
    height = np.linspace(0, 0.42, 98)
    radius = 0.125 + 0.035 * np.cos(height / 0.42 * 2 * np.pi)
    mesh = revolve(np.stack([radius, height], axis=1))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "part.stl"
        trimesh.Trimesh(mesh.vertices * 1000, mesh.faces, process=False).export(path)
        row(f"read an STL of {len(mesh.faces)} triangles", median(lambda: read_mesh(path, "mm")))
    row("  look for every fault", median(lambda: find_faults(mesh)))
    row("  measure", median(lambda: measure(mesh)))
    row("  offset by 20 mm at 2 mm", median(lambda: offset_volume(mesh, 0.02), 3))


def main() -> None:
    """Print the table."""
    print(f"medians of {RUNS} runs, warm, one thread; baseline and how many times slower it is")
    bench_levels()
    bench_cells()
    bench_winding()
    bench_offset()
    bench_convex()
    bench_piece()


if __name__ == "__main__":
    main()
