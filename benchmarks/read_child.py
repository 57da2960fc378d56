"""Read one file in a process of its own; say how long it took and how much memory: FILE, then who reads."""

import json
import resource
import sys
import time
from pathlib import Path

import numpy as np
import trimesh

from pourwright.geometry import find_faults, measure
from pourwright.geometry.files.readers import read_samples, read_shape_file


def ours(path: Path) -> tuple[float, float, float]:
    """Read and judge as a check does; seconds of both, and the volume in the file's unit."""
    read_samples()
    unit = None if path.suffix in {".3mf", ".glb"} else "m"
    begin = time.perf_counter()
    mesh = read_shape_file(path, unit).mesh
    middle = time.perf_counter()
    faults = find_faults(mesh)
    end = time.perf_counter()
    assert not [fault for fault in faults if fault.kind != "size"]
    return middle - begin, end - middle, measure(mesh).volume


def theirs(path: Path) -> tuple[float, float, float]:
    """Read with trimesh alone, as it does by itself: vertices merged, nothing judged."""
    begin = time.perf_counter()
    mesh = trimesh.load_scene(path).to_mesh()
    return time.perf_counter() - begin, 0.0, float(mesh.volume)


def peak() -> float:
    """Give the most memory this process had [GB]; rusage would count what its parent had before."""
    status = Path("/proc/self/status")
    if status.exists():
        lines = status.read_text().splitlines()
        return float(next(line for line in lines if line.startswith("VmHWM")).split()[1]) / 1e6
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6


def main(path: Path, who: str) -> None:
    """Print the figures as JSON."""
    np.seterr(all="ignore")
    seconds, judged, volume = {"ours": ours, "trimesh": theirs}[who](path)
    print(json.dumps({"read": seconds, "judged": judged, "volume": volume, "peak": peak()}))


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2])
