"""What the page waits for: cheap answers and bands that are tried, medians of several, in one process.

Goals, warm: answers under 200 ms for both examples and for a shape of a million triangles, a trial under
50 ms for the examples. The last column compares with a whole check of the same job in the same run, which
is what the answers would cost if nothing were kept. The large shape is the stool with each triangle cut in
64; it is read once before, as a run beside the server reads it, and that time is printed too.
"""

import shutil
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import trimesh

from pourwright.app import check_job
from pourwright.app.answering.answers import answers_of, job_of
from pourwright.app.answering.desk import Desk
from pourwright.app.answering.reading import read_for_answers
from pourwright.app.answering.trial import trial_of
from pourwright.geometry import read_mesh
from pourwright.runs import Cache

EXAMPLES = Path(__file__).parents[1] / "examples"
RUNS, CUTS = 9, 3


def milliseconds(ask: Callable[[], object], runs: int = RUNS) -> float:
    """Median wall time [ms]."""
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        ask()
        times.append(time.perf_counter() - begin)
    return 1000.0 * statistics.median(times)


def large_job(folder: Path) -> Path:
    """The stool with each triangle cut in four, three times over: 884,736 triangles."""
    shutil.copytree(EXAMPLES / "hourglass-stool", folder, ignore=shutil.ignore_patterns("plan"))
    mesh = read_mesh(folder / "stool.stl", "mm")
    finer = trimesh.Trimesh(np.asarray(mesh.vertices) * 1000.0, mesh.faces, process=False)
    for _ in range(CUTS):
        finer = finer.subdivide()
    finer.export(folder / "stool.stl")
    return folder


def row(name: str, desk: Desk, folder: Path, *, check: bool = True) -> None:
    """Time one job: each answer is of another choice, each trial of another border."""
    job, text = job_of(folder, None), (folder / "job.toml").read_text("utf8")
    bands = [dict(band) for band in job.raw["band"]]
    numbers = iter(range(1000))
    heights = iter(np.linspace(0.05, 0.08, 1000))

    def tried() -> object:
        moved = [{**bands[0], "to": float(next(heights))}, *bands[1:]] if len(bands) > 1 else bands
        return trial_of(desk, folder, None, moved)

    def changed() -> object:
        written = text.replace("humidity = 0.4", f"humidity = 0.3{next(numbers):03d}", 1)
        (folder / "job.toml").write_text(written, "utf8")
        return answers_of(desk, folder)

    changed()
    answers, trial = milliseconds(changed), milliseconds(tried)
    whole = milliseconds(lambda: check_job(folder / "job.toml"), 3) if check else float("nan")
    print(f"{name:24s} {answers:10.1f} {trial:10.1f} {whole:12.0f} {answers / whole:10.3f}", flush=True)


def main() -> None:
    """Time both examples and the large shape."""
    print(f"{'':24s} {'answers ms':>10s} {'trial ms':>10s} {'check ms':>12s} {'ratio':>10s}")
    with tempfile.TemporaryDirectory() as name:
        scratch = Path(name)
        desk = Desk(Cache(scratch / "kept"))
        for example in ("hourglass-stool", "table-lamp"):
            folder = scratch / example
            shutil.copytree(EXAMPLES / example, folder, ignore=shutil.ignore_patterns("plan"))
            read_for_answers(job_of(folder, None), store=desk.store)
            row(example, desk, folder)
        large = large_job(scratch / "large")
        begin = time.perf_counter()
        triangles = read_for_answers(job_of(large, None), store=desk.store)
        reading = time.perf_counter() - begin
        begin = time.perf_counter()
        answers_of(desk, large)
        first = time.perf_counter() - begin
        row(f"{triangles} triangles", desk, large, check=False)
        print(
            f"the large shape is read beside the server in {reading:.0f} s, then taken over in {first:.1f} s"
        )


if __name__ == "__main__":
    main()
