"""What a maker waits for: whole commands, each in its own process, medians of several runs.

Goals: plan of the metric example, warm, under 40 s and 1.5 GB; check of a mesh of 50,000
triangles under 2 s; --help under 0.5 s; a first run ever, with empty caches, under 3 minutes.
The ratio printed last compares each with starting Python alone, timed in the same run.
"""

import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import trimesh

from pourwright.geometry import read_mesh

EXAMPLES = Path(__file__).parents[1] / "examples"
COMMAND = [str(Path(sys.executable).with_name("pourwright"))]


def seconds(command: list[str], runs: int, **extra: str) -> float:
    """Median wall time of a command [s]."""
    times = []
    # importing the package has set its own cache folder here; each command finds its own
    around = {name: value for name, value in os.environ.items() if name != "NUMBA_CACHE_DIR"} | extra
    for _ in range(runs):
        begin = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True, env=around)
        times.append(time.perf_counter() - begin)
    return statistics.median(times)


def large_job(folder: Path) -> Path:
    """The stool with each triangle cut in four: 55,296 triangles."""
    shutil.copytree(EXAMPLES / "hourglass-stool", folder, ignore=shutil.ignore_patterns("plan"))
    mesh = read_mesh(folder / "stool.stl", "mm")
    finer = trimesh.Trimesh(mesh.vertices * 1000.0, mesh.faces, process=False).subdivide()
    finer.export(folder / "stool.stl")
    print(f"check is given {len(finer.faces)} triangles")
    return folder / "job.toml"


def main() -> None:
    """Time the commands and print one row each."""
    with tempfile.TemporaryDirectory() as name:
        scratch = Path(name)
        stool = str(EXAMPLES / "hourglass-stool" / "job.toml")
        lamp = str(EXAMPLES / "table-lamp" / "job.toml")
        large = str(large_job(scratch / "large"))
        plan = [*COMMAND, "plan", stool, "--out", str(scratch / "plan")]
        first = [*COMMAND, "plan", lamp, "--out", str(scratch / "lamp")]
        python = seconds([sys.executable, "-c", "pass"], 5)
        rows = {
            "first plan ever, empty caches": seconds(first, 1, XDG_CACHE_HOME=str(scratch / "cache")),
            "plan of the metric example": seconds(plan, 3),
            "check of a large mesh": seconds([*COMMAND, "check", large], 3),
            "--help": seconds([*COMMAND, "--help"], 5),
        }
    for title, value in rows.items():
        print(f"{title:32s} {value:8.2f} s  {value / python:8.0f} times Python alone")
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"most memory of any of them       {peak:8.0f} MiB")


if __name__ == "__main__":
    main()
