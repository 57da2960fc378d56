"""Processes, kept results, cluster: what they cost, beside what Python and others bring for the same.

Two workers everywhere, spawned. Rivals at their best: ``ProcessPoolExecutor`` and loky keep their
workers between calls and give out one item at a time, as heat runs of unequal length want it; both
get the same start-up work. The heat runs are those of a small round piece, one after the other and by
processes in turn; medians. Ours run at niceness 10, the rivals do not, which tells where others use
the machine: its load is printed.
"""

from __future__ import annotations

import concurrent.futures
import functools
import importlib.util
import io
import multiprocessing
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np

from pourwright.app.running import load
from pourwright.foundation.errors import Cancelled
from pourwright.geometry import revolve
from pourwright.materials import load_materials
from pourwright.pour.climate import Climate
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, Rehearsal, rehearse
from pourwright.pour.site import Bed, Block, Site
from pourwright.runs import Cache, Cluster, Crew, code_digest, fingerprint
from pourwright.runs.plain import read_plain, write_plain
from pourwright.solver import Control

WORKERS = 2
ITEMS = 1000
HEIGHT, RADIUS = 0.06, 0.05
Mapping = Callable[[Callable[..., Any], list[Any]], Any]


def seconds(work: Callable[[], object], runs: int = 1) -> float:
    """Median wall time [s]."""
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return statistics.median(times)


def site() -> Site:
    """A round piece with as many triangles as a scanned one has, about 100 kB."""
    materials = load_materials()
    turns = np.linspace(0.0, HEIGHT, 12)
    profile = np.column_stack([np.full_like(turns, RADIUS), turns])
    return Site(
        revolve(np.vstack([[0.0, 0.0], profile, [0.0, HEIGHT]]), 120),
        Block((0.15, 0.15), 0.019, 0.018, HEIGHT),
        (Bed(0.0, HEIGHT, 0.5),),
        materials.resin["epoxy-slow-deep"],
        materials.glass["soda-lime-crushed"],
        materials.rubber["silicone-platinum-a25"],
        materials.board["mdf"],
        Climate(datetime(2026, 12, 1, 9, tzinfo=UTC), ZoneInfo("UTC"), (293.15,) * 24),
    )


def rehearsed(one: Site, warmer: float) -> Rehearsal:
    """One heat run."""
    changed = replace(one, climate=one.climate.shifted(warmer))
    return rehearse(lay_out(changed, 0.008, [HEIGHT]), (Planned(HEIGHT, 0.0),), Control(tolerance=0.05))


def timed(one: Site, warmer: float) -> tuple[Rehearsal, float]:
    """One heat run and the processor time it took [s]."""
    begin = time.process_time()
    return rehearsed(one, warmer), time.process_time() - begin


def square(number: int) -> int:
    """Next to nothing."""
    return number * number


def faces_of(one: tuple[Site, int]) -> int:
    """Next to nothing, with an item that holds something large."""
    return len(one[0].piece.faces) + one[1]


def wait(_number: int) -> None:
    """An item of ten seconds that cannot be asked to stop."""
    time.sleep(10.0)


@contextmanager
def executor() -> Iterator[Mapping]:
    """Python's own pool."""
    context = multiprocessing.get_context("spawn")
    with concurrent.futures.ProcessPoolExecutor(WORKERS, context, initializer=load) as pool:
        yield lambda function, items: list(pool.map(function, items))


@contextmanager
def loky() -> Iterator[Mapping]:
    """The pool of joblib."""
    pool: Any = importlib.import_module("loky").ProcessPoolExecutor(WORKERS, initializer=load)
    try:
        yield lambda function, items: list(pool.map(function, items))
    finally:
        pool.shutdown(kill_workers=True)


@contextmanager
def crew() -> Iterator[Mapping]:
    """Ours."""
    with Crew(WORKERS, warm=load) as ours:
        yield ours.map


def rivals() -> dict[str, Callable[[], Any]]:
    """Everything that is installed."""
    found: dict[str, Callable[[], Any]] = {"ours": crew, "ProcessPoolExecutor": executor}
    return found | ({"loky": loky} if importlib.util.find_spec("loky") else {})


def compare_processes() -> None:
    """Start-up and overhead of each."""
    one = site()
    print(f"{'':22s} {'first answer':>13s} {'an item':>10s} {'an item with 100 kB':>20s}")
    for name, opened in rivals().items():
        begin = time.perf_counter()
        with opened() as each:
            each(square, list(range(WORKERS)))
            first = time.perf_counter() - begin
            small = seconds(lambda: each(square, list(range(ITEMS))), 3) / ITEMS
            large = seconds(lambda: each(faces_of, [(one, number) for number in range(ITEMS)]), 3) / ITEMS
        print(f"{name:22s} {first:11.2f} s {small * 1e6:7.0f} us {large * 1e6:17.0f} us")
    with Crew(WORKERS, warm=load) as ours:
        begin = time.perf_counter()
        shared = ours.share(one)
        large = seconds(lambda: ours.map(faces_of, [(shared, number) for number in range(ITEMS)]), 3) / ITEMS
    print(f"{'ours, shared':22s} {'':13s} {'':10s} {large * 1e6:17.0f} us")


class Stop:
    """Says after half a second that it is enough."""

    def __init__(self) -> None:
        self._begin = time.perf_counter()

    def step(self, stage: str, done: float, total: float) -> None:  # noqa: ARG002 - the protocol's names
        """Ask to stop."""
        if time.perf_counter() - self._begin > 0.5:
            raise Cancelled


def compare_stopping() -> None:
    """How long after being asked to stop the last process is gone, in the middle of an item of 10 s."""
    with Crew(WORKERS) as ours:
        ours.map(square, [1, 2])
        begin = time.perf_counter()
        try:
            ours.map(wait, [1, 2], progress=Stop())
        except Cancelled:
            print(f"stopped in the middle: ours {time.perf_counter() - begin - 0.5:.2f} s", end="")
    pool = concurrent.futures.ProcessPoolExecutor(WORKERS, multiprocessing.get_context("spawn"))
    pool.submit(wait, 1)
    time.sleep(1.0)
    begin = time.perf_counter()
    pool.shutdown(cancel_futures=True)
    print(f", ProcessPoolExecutor.shutdown {time.perf_counter() - begin:.1f} s of an item of 10 s")


def compare_heat() -> None:
    """The same heat runs in this process, by one worker, and by two, in turn.

    One worker has the priority of two: that pair tells what the second one brings, where others use
    the machine as well.
    """
    warmer = [float(one) for one in range(-4, 4)]
    with Crew(1, warm=load) as single, Crew(WORKERS, warm=load) as double:
        work = functools.partial(timed, site())
        ways: dict[str, Callable[[], list[tuple[Rehearsal, float]]]] = {
            "in this process": lambda: [work(each) for each in warmer],
            "one worker": lambda: single.map(work, warmer),
            "two workers": lambda: double.map(work, warmer),
        }
        rounds = [{name: _watched(way) for name, way in ways.items()} for _ in range(6)]
    assert all(each[2] == rounds[0]["one worker"][2] for one in rounds for each in one.values())
    # the first round loads kernels
    for name in ways:
        wall = statistics.median(one[name][0] for one in rounds[1:])
        spent = statistics.median(one[name][1] for one in rounds[1:])
        print(f"{len(warmer)} heat runs, {name:16s} {wall:6.2f} s, {spent:6.2f} s of a processor")
    share = statistics.median(one["one worker"][0] / one["two workers"][0] for one in rounds[1:])
    print(f"two workers are {share:.2f} times as fast as one; the same results bit for bit")


def _watched(way: Callable[[], list[tuple[Rehearsal, float]]]) -> tuple[float, float, list[Rehearsal]]:
    begin = time.perf_counter()
    results = way()
    wall = time.perf_counter() - begin
    return wall, sum(spent for _, spent in results), [result for result, _ in results]


def compare_keeping() -> None:
    """A kept result against computing it again, and ways to write one."""
    one = site()
    result = rehearsed(one, 0.0)
    with tempfile.TemporaryDirectory() as name:
        cache = Cache(Path(name))
        computed = seconds(lambda: rehearsed(one, 0.0), 3)
        key = fingerprint(one)
        named = seconds(lambda: fingerprint(one), 9)
        put = seconds(lambda: cache.put(key, result), 9)
        got = seconds(lambda: cache.get(key), 9)
    code_digest.cache_clear()
    print(f"once a run, the code's digest {seconds(code_digest) * 1e3:.0f} ms", end="")
    print(
        f"; a result: fingerprint {named * 1e3:.2f} ms, put {put * 1e3:.2f} ms, get {got * 1e3:.2f} ms",
        end="",
    )
    print(f", computing it {computed:.2f} s: {computed / (named + got):.0f} times as long")
    field = np.random.default_rng(0).normal(size=250_000)
    for title, write, read in _formats():
        blob = write(field)
        line = f"2 MB of floats, {title:16s} write {seconds(lambda: write(field), 9) * 1e3:6.2f} ms"  # noqa: B023
        print(f"{line}, read {seconds(lambda: read(blob), 9) * 1e3:6.2f} ms, {len(blob) / 1e6:.2f} MB")  # noqa: B023


def _formats() -> Iterator[tuple[str, Callable[[Any], bytes], Callable[[bytes], object]]]:
    yield "ours, read back", write_plain, read_plain

    def npz(field: Any) -> bytes:
        buffer = io.BytesIO()
        np.savez(buffer, field=field)
        return buffer.getvalue()

    yield "npz", npz, lambda blob: np.load(io.BytesIO(blob))["field"]
    if importlib.util.find_spec("msgpack"):
        msgpack: Any = importlib.import_module("msgpack")
        yield "msgpack", lambda field: msgpack.packb(field.tolist()), msgpack.unpackb


_CLUSTER = """
import sys
from distributed import LocalCluster
if __name__ == "__main__":
    local = LocalCluster(n_workers=2, threads_per_worker=1, host="127.0.0.1", dashboard_address=":0")
    print(local.scheduler_address, flush=True)
    sys.stdin.read()
"""


def compare_cluster() -> None:
    """The same over a Dask cluster of two worker processes on this computer."""
    with tempfile.TemporaryDirectory() as name:
        script = Path(name) / "cluster.py"
        script.write_text(_CLUSTER)
        around = os.environ | {"PYTHONPATH": str(Path.cwd()), "NUMBA_NUM_THREADS": "1"}
        process = subprocess.Popen(
            [sys.executable, str(script)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env=around,
        )
        assert process.stdout is not None
        address = process.stdout.readline().strip()
        try:
            _time_cluster(address)
        finally:
            process.communicate("")


def _time_cluster(address: str) -> None:
    begin = time.perf_counter()
    with Cluster(address) as cluster:
        connected = time.perf_counter() - begin
        overhead = seconds(lambda: cluster.map(square, list(range(ITEMS)))) / ITEMS
        work = functools.partial(rehearsed, cluster.share(site()))
        warmer = [float(one) for one in range(-4, 4)]
        cluster.map(work, warmer)
        heat = seconds(lambda: cluster.map(work, warmer), 3)
    print(f"Dask, two worker processes here: connected in {connected:.2f} s", end="")
    print(f", an item {overhead * 1e6:.0f} us, {len(warmer)} heat runs {heat:.2f} s")


def main() -> None:
    """Compare and print."""
    print(f"load of the last minute {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
    compare_processes()
    compare_stopping()
    compare_heat()
    compare_keeping()
    if importlib.util.find_spec("distributed"):
        compare_cluster()


if __name__ == "__main__":
    main()
