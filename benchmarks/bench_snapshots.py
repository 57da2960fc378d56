"""The heat file: what recording costs a run, and the array formats side by side on the same snapshots.

Goals: any slice under 50 ms; recording takes at most 5 % of a run's time.

The snapshots are those of the metric example poured in three. Every format gets the same
half-precision numbers. HDF5 and zarr are cut into the same pieces, which is the best for slices
through time and space at once; the sweep of pieces printed last shows why. zarr packs with its own
default; npy is read through a memory map; npz can only be unpacked whole. Every read opens the
file anew, with the operating system's cache warm; medians of 7. Importing is timed in new
processes, less the time numpy takes by itself.
"""

import importlib.metadata
import importlib.util
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

import h5py
import numpy as np
from numpy.typing import NDArray

from pourwright.app.setup import set_up, site
from pourwright.app.shaping.piece import read_piece
from pourwright.jobs import load_job
from pourwright.jobs.snapshots import AXES, SnapshotContent, SnapshotFile, snapshot_bytes
from pourwright.pour.layout import Layout, lay_out
from pourwright.pour.rehearse import Planned, rehearse
from pourwright.pour.snapshots import Recorder, Recording

JOB = Path(__file__).parents[1] / "examples" / "hourglass-stool" / "job.toml"
ZERO = datetime(2027, 1, 11, 8, tzinfo=UTC)
HOUR = 3600.0
PLAN = (Planned(0.045, 6 * HOUR), Planned(0.090, 48 * HOUR), Planned(0.440, 78 * HOUR))
Halves = NDArray[np.float16]
Slices = dict[str, tuple[Any, ...]]


class TimedRecorder(Recorder):
    """Counts the processor time spent in it [s]."""

    def __init__(self, layout: Layout) -> None:
        super().__init__(layout)
        self.spent = 0.0

    def __call__(self, *step: Any) -> None:
        """Look at a step."""
        begin = time.thread_time()
        super().__call__(*step)
        self.spent += time.thread_time() - begin

    def pour(self, *stage: Any) -> None:
        """Note a pour."""
        begin = time.thread_time()
        super().pour(*stage)
        self.spent += time.thread_time() - begin


def recorded() -> Recording:
    """Run the example's pours, and print what recording them cost."""
    job = load_job(JOB)
    layout = lay_out(site(set_up(job, read_piece(job)), ZERO), 0.008, [pour.level for pour in PLAN])
    rehearse(layout, PLAN[:1])  # compiled before anything is timed
    recorder = TimedRecorder(layout)
    begin = time.thread_time()
    seen = rehearse(layout, PLAN, recorder=recorder)
    whole = time.thread_time() - begin
    recording = seen.recording
    assert recording is not None
    held = sum(shot.temperature.nbytes + shot.conversion.nbytes for shot in recording.snapshots)
    print(
        f"run of {layout.cavity.size:,} cells, {seen.steps} steps: {whole:.1f} s of processor time, "
        f"of which recording {recorder.spent:.2f} s ({100 * recorder.spent / whole:.1f} %); "
        f"{len(recording.snapshots)} snapshots of {recording.grid.shape} hold {held / 1e6:.0f} MB"
    )
    return recording


def content(recording: Recording) -> SnapshotContent:
    """What goes into the heat file."""
    shots = recording.snapshots
    return SnapshotContent(
        {"title": "benchmark"},
        recording.grid.edges,
        np.array([shot.time / HOUR for shot in shots]),
        np.array([shot.filled for shot in shots]),
        [start / HOUR for start in recording.starts],
        recording.levels,
        ((recording.box(shot, "temperature"), recording.box(shot, "conversion")) for shot in shots),
    )


def milliseconds(act: Callable[[], object], runs: int = 7) -> float:
    """Median wall time [ms]."""
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        act()
        times.append(time.perf_counter() - begin)
    return 1e3 * statistics.median(times)


def slices(shape: tuple[int, ...]) -> Slices:
    """One plane of each kind at one moment, one place and one plane through all time."""
    t, x, y, z = (side // 2 for side in shape)
    return {
        "x-plane": (t, x),
        "y-plane": (t, slice(None), y),
        "z-plane": (t, slice(None), slice(None), z),
        "history": (slice(None), x, y, z),
        "film": (slice(None), slice(None), y),
    }


def row(
    name: str,
    path: Path,
    write: Callable[[], object],
    read: Callable[[tuple[Any, ...]], object],
    cuts: Slices,
) -> str:
    """Measure one format."""
    seconds = milliseconds(write, 3) / 1e3
    files = path.rglob("*") if path.is_dir() else [path]
    size = sum(file.stat().st_size for file in files if file.is_file())
    times = [f"{milliseconds(partial(read, cut)):8.2f}" for cut in cuts.values()]
    return f"{name:<34}{size / 1e6:8.2f}{seconds:8.2f}" + "".join(times)


def hdf5(path: Path, fields: dict[str, Halves], **options: Any) -> None:
    """Write all fields into one HDF5 file."""
    with h5py.File(path, "w") as file:
        for name, values in fields.items():
            file.create_dataset(name, data=values, **options)


def read_hdf5(path: Path, cut: tuple[Any, ...]) -> object:
    """Read one slice."""
    with h5py.File(path) as file:
        return file["warm"][cut]


def pieces(shape: tuple[int, ...], block: int, parts: int) -> tuple[int, ...]:
    """So many moments in a piece, and a side of the box in so many parts."""
    return (min(block, shape[0]), *(-(-side // parts) for side in shape[1:]))


def compare(recording: Recording, folder: Path) -> None:
    """Print one row per format."""
    boxes = [(recording.box(s, "temperature"), recording.box(s, "conversion")) for s in recording.snapshots]
    fields = {"warm": np.stack([warm for warm, _ in boxes]), "cured": np.stack([cured for _, cured in boxes])}
    shape = fields["warm"].shape
    cuts, chosen = slices(shape), pieces(shape, 16, 3)
    print(f"\n{'format':<34}{'MB':>8}{'write s':>8}" + "".join(f"{name:>8}" for name in cuts) + "   [ms]")
    path = folder / "heat.h5"
    print(heat_file_row(content(recording), path, cuts, "the heat file, by its reader"))
    print(heat_file_row(largest(), path, slices((300, 64, 64, 64)), "the largest heat file"))
    for name, options in {
        "HDF5, gzip": {"chunks": chosen, "compression": "gzip", "shuffle": True},
        "HDF5, lzf": {"chunks": chosen, "compression": "lzf", "shuffle": True},
        "HDF5, nothing packed": {},
    }.items():
        write = partial(hdf5, path, fields, **options)
        print(row(name, path, write, partial(read_hdf5, path), cuts))
    compare_zarr(fields, folder / "heat.zarr", chosen, cuts)
    compare_numpy(fields, folder, cuts)
    print("\npieces of the HDF5 file")
    for block in (1, 8, 16, 32):
        for parts in (1, 2, 3, 4):
            options = {"chunks": pieces(shape, block, parts), "compression": "gzip", "shuffle": True}
            write = partial(hdf5, path, fields, **options)
            print(row(f"{block} moments, a side in {parts}", path, write, partial(read_hdf5, path), cuts))


def largest() -> SnapshotContent:
    """As many snapshots as are kept, of a thin ball of 38,000 cells in the widest box."""
    edges = np.linspace(0.0, 0.5, 65)
    x, y, z = np.meshgrid(*[np.linspace(-1.0, 1.0, 64)] * 3, indexing="ij")
    radius = np.sqrt(x**2 + y**2 + z**2)
    inside = (radius < 1.0) & (radius > 0.89)

    def moment(share: float) -> tuple[Halves, Halves]:
        warm = 20.0 + 40.0 * np.exp(-20.0 * (share - 0.3) ** 2) * (1.1 - radius) * (1.0 + 0.1 * x) + z
        fields = (np.where(inside, values, np.nan) for values in (warm, share * (1.0 - 0.1 * radius)))
        first, second = (values.astype(np.float16) for values in fields)
        return first, second

    shares = np.linspace(0.0, 1.0, 300)
    boxes = map(moment, shares.tolist())
    pours = np.ones(300, dtype=int)
    return SnapshotContent({"title": "largest"}, (edges,) * 3, 100.0 * shares, pours, [0.0], [0.5], boxes)


def heat_file_row(made: SnapshotContent, path: Path, cuts: Slices, name: str) -> str:
    """A heat file through its own reader; it is written once, its boxes can be taken once only."""
    begin = time.perf_counter()
    path.write_bytes(snapshot_bytes(made))
    seconds = time.perf_counter() - begin

    def read(cut: tuple[Any, ...]) -> object:
        with SnapshotFile(path) as file:
            x, y, z = (float(file.centers_m[axis][file.centers_m[axis].size // 2]) for axis in AXES)
            if isinstance(cut[0], int):
                axis = len(cut) - 2
                return file.plane(cut[0], AXES[axis], (x, y, z)[axis])
            return file.film("y", y) if len(cut) == 3 else file.history((x, y, z))

    size = path.stat().st_size
    times = [f"{milliseconds(partial(read, cut)):8.2f}" for cut in cuts.values()]
    return f"{name:<34}{size / 1e6:8.2f}{seconds:8.2f}" + "".join(times)


def compare_zarr(fields: dict[str, Halves], path: Path, chosen: tuple[int, ...], cuts: Slices) -> None:
    """Print zarr's row, where it is installed."""
    if importlib.util.find_spec("zarr") is None:
        print("zarr is not installed here; pip install -e '.[bench]' brings it")
        return
    zarr: Any = importlib.import_module("zarr")

    def write() -> None:
        group = zarr.open_group(path, mode="w")
        for name, values in fields.items():
            group.create_array(name, data=values, chunks=chosen)

    print(
        row(
            "zarr, its own packing",
            path,
            write,
            lambda cut: zarr.open_group(path, mode="r")["warm"][cut],
            cuts,
        )
    )


def compare_numpy(fields: dict[str, Halves], folder: Path, cuts: Slices) -> None:
    """Print the rows of numpy's own formats."""
    plain, packed = folder / "npy", folder / "heat.npz"
    plain.mkdir()

    def write() -> None:
        for name, values in fields.items():
            np.save(plain / f"{name}.npy", values)

    def mapped(cut: tuple[Any, ...]) -> object:
        return np.array(np.load(plain / "warm.npy", mmap_mode="r")[cut])

    print(row("npy, memory map", plain, write, mapped, cuts))

    def pack() -> None:
        np.savez_compressed(packed, warm=fields["warm"], cured=fields["cured"])

    print(row("npz, packed", packed, pack, lambda cut: np.load(packed)["warm"][cut], cuts))


def libraries() -> None:
    """Print what each library brings along, and how long it takes to import."""
    print("\nlibrary           with it, MB installed   import s   licence")
    alone = milliseconds(lambda: imported("numpy"), 5)
    for name, others in {"h5py": (), "zarr": ("numcodecs", "donfig", "google-crc32c", "PyYAML")}.items():
        if importlib.util.find_spec(name) is None:
            continue
        size = sum(installed(each) for each in (name, *others))
        seconds = (milliseconds(partial(imported, f"numpy, {name}"), 5) - alone) / 1e3
        licence = importlib.metadata.metadata(name)["License-Expression"]
        print(f"{name:<18}{size / 1e6:>21.1f}{seconds:>11.3f}   {licence}")


def imported(names: str) -> None:
    """Import modules in a process of their own."""
    subprocess.run([sys.executable, "-c", f"import {names}"], check=True)


def installed(name: str) -> int:
    """Bytes of an installed distribution."""
    files = importlib.metadata.files(name) or []
    return sum(Path(str(file.locate())).stat().st_size for file in files if Path(str(file.locate())).exists())


def main() -> None:
    """Record the example and print the tables."""
    recording = recorded()
    with tempfile.TemporaryDirectory() as name:
        compare(recording, Path(name))
    libraries()


if __name__ == "__main__":
    main()
