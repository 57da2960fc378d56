"""Reading and judging shape files of one and five million triangles, against trimesh reading alone.

trimesh reads as it does by itself, which merges vertices; without that it would not have done the same work.
"""

import json
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import numpy as np
import trimesh

from pourwright.geometry import Mesh
from pourwright.geometry.files.writers import stl_bytes, threemf_bytes

MAJOR, MINOR = 0.2, 0.05
MILLION = ("a.stl", "a text.stl", "a.ply", "a text.ply", "a.obj", "a.glb", "a.3mf")
FIVE = ("b.stl", "b.ply", "b.glb")


def ring(triangles: int) -> Mesh:
    """Make a torus of about so many triangles."""
    across = round((triangles / 4) ** 0.5)
    along = 2 * across
    u, v = np.meshgrid(
        2 * np.pi * np.arange(along) / along, 2 * np.pi * np.arange(across) / across, indexing="ij"
    )
    out = MAJOR + MINOR * np.cos(v)
    places = np.stack([out * np.cos(u), out * np.sin(u), MINOR * np.sin(v)], axis=-1).reshape(-1, 3)
    i, j = np.meshgrid(np.arange(along), np.arange(across), indexing="ij")
    a, b = i * across + j, (i + 1) % along * across + j
    c, d = (i + 1) % along * across + (j + 1) % across, i * across + (j + 1) % across
    faces = np.concatenate([np.stack([a, b, c], axis=-1), np.stack([a, c, d], axis=-1)]).reshape(-1, 3)
    return Mesh(places, faces)


def write(folder: Path, names: tuple[str, ...], mesh: Mesh) -> None:
    """Write the mesh under each name; STL and 3MF by our own writers."""
    exported = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    options: dict[str, dict[str, str]] = {
        "a text.stl": {"file_type": "stl_ascii"},
        "a text.ply": {"encoding": "ascii"},
    }
    for name in names:
        path = folder / name
        if path.suffix == ".stl" and name not in options:
            path.write_bytes(stl_bytes(mesh))
        elif path.suffix == ".3mf":
            path.write_bytes(threemf_bytes(mesh, "a ring"))
        else:
            exported.export(path, **options.get(name, {}))


def measured(path: Path, who: str) -> dict[str, Any]:
    """Read a file in a process of its own."""
    command = [sys.executable, "-m", "benchmarks.read_child", str(path), who]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    figures: dict[str, Any] = json.loads(done.stdout)
    return figures


def table(folder: Path, names: tuple[str, ...], mesh: Mesh) -> None:
    """Print a line for each file."""
    write(folder, names, mesh)
    print(f"\n{len(mesh.faces)} triangles", flush=True)
    for name in names:
        ours, theirs = measured(folder / name, "ours"), measured(folder / name, "trimesh")
        whole = ours["read"] + ours["judged"]
        print(
            f"{name[2:]:9s} read {ours['read']:5.2f} s + judged {ours['judged']:5.2f} s = {whole:5.2f} s,"
            f" {ours['peak']:4.2f} GB | trimesh reads in {theirs['read']:5.2f} s, {theirs['peak']:4.2f} GB,"
            f" x{theirs['read'] / ours['read']:5.1f}",
            flush=True,
        )


def main() -> None:
    """Print the tables."""
    print("goals: 1 million read and judged in 6 s, 5 million in 60 s within 4 GB; kernels compiled before")
    with tempfile.TemporaryDirectory() as folder:
        table(Path(folder), MILLION, ring(1_000_000))
        table(Path(folder), FIVE, ring(5_000_000))


if __name__ == "__main__":
    main()
