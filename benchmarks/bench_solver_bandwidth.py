"""Share of the memory's bandwidth that each kernel of the solver reaches at 128^3, and ns per reacting cell.

Bandwidth is measured in the same process on the same threads by a triad a = b + s c over three arrays
of 512 MiB, 24 bytes counted per entry. Kernels and triad take turns. Each is timed in slices of one or
two milliseconds, and of each slice the least time of all rounds counts, so that pauses by other
processes drop out of both alike. Bytes of a kernel are what it must move at least, 8 for every entry of
an array read or written once; what it reads again from cache, and the reading of lines before they are
written, is not counted, as in the triad. Arrays that most rows skip are not counted either.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numba
import numpy as np

from benchmarks.bench_solver import hourglass
from pourwright.solver import crew, start, switch_on, warm_up
from pourwright.solver.stepper import Stepper

CELLS, ROUNDS, STEP, ALLOWED = 128, 15, 600.0, 0.05
SLICES, TRIAD_SLICES = 8, 64
TRIAD_ENTRIES = 1 << 26
GOAL = 0.5


class SlicedCrew(crew.Crew):
    """Shares work like its base, slice by slice, and keeps the least time that each has taken."""

    def __init__(self, threads: int | None, slices: int) -> None:
        super().__init__(CELLS**3, threads)
        self.slices = slices
        self.least: dict[int, float] = {}

    def share(self, count: int, work: crew.Work) -> None:
        """Do the work in slices."""
        marks = [count * n // self.slices for n in range(self.slices + 1)]
        for number in range(self.slices):
            low, high = marks[number], marks[number + 1]
            began = time.perf_counter()
            super().share(high - low, lambda a, b, low=low: work(low + a, low + b))  # type: ignore[misc]
            taken = time.perf_counter() - began
            self.least[number] = min(taken, self.least.get(number, taken))

    def seconds(self) -> float:
        """Sum of the least times."""
        return sum(self.least.values())


@dataclass(frozen=True)
class Kernel:
    """A pass over the grid, and the arrays it must read and write."""

    name: str
    work: Callable[[], object]
    reads: str
    writes: str

    @property
    def bytes(self) -> int:
        """Least that is moved per cell."""
        return 8 * (len(self.reads.split()) + len(self.writes.split()))


@numba.njit(nogil=True)
def triad(low: int, high: int, a: Any, b: Any, c: Any) -> None:
    """Stream three arrays."""
    for n in range(low, high):
        a[n] = b[n] + 3.0 * c[n]


def full_mold() -> Stepper:
    """The hourglass of the other benchmark with all of it poured, a step old."""
    problem, pours = hourglass(CELLS)
    capacity, conductivity, heat = (np.full(problem.shape, value) for value in (2.05e6, 0.45, 1.73e8))
    everything = np.logical_or.reduce(pours)
    problem, state = switch_on(
        problem, start(problem, 293.15), everything, 297.15, 0.02,
        volumetric_heat_capacity=capacity, conductivity=conductivity, heat=heat,
    )  # fmt: skip
    stepper = Stepper(problem, state, 1000.0)
    stepper.begin(0.0)
    stepper.attempt(0.0, STEP, ALLOWED)
    stepper.accept(STEP)
    stepper.attempt(STEP, STEP, ALLOWED)
    return stepper


def kernels(stepper: Stepper) -> list[Kernel]:
    """Every sweep and estimator, as a step calls it."""
    peak, when = np.full(stepper.problem.shape, 1e3), np.zeros(stepper.problem.shape)
    conductances = "along_x along_y along_z along_z_turned"
    return [
        Kernel("foresee", lambda: stepper.foresee(STEP), "temperature trend", "mean"),
        Kernel(
            "sweep_yz",
            lambda: stepper.sweep_yz(STEP),
            f"mean capacity capacity_turned {conductances}",
            "delta",
        ),
        Kernel(
            "sweep_x",
            lambda: stepper.sweep_x(STEP),
            "delta capacity along_x temperature rate trend",
            "temperature rate trend",
        ),
        Kernel("note_peaks", lambda: stepper.note_peaks(STEP, STEP, peak, when), "before after peak", ""),
    ]


def in_turns(stepper: Stepper, works: dict[str, Callable[[], object]]) -> tuple[dict[str, float], float]:
    """Seconds of each work, and the bandwidth of the triad [B/s] measured between them."""
    threads = stepper.crew.threads
    stream = SlicedCrew(threads, TRIAD_SLICES)
    crews = {name: SlicedCrew(threads, SLICES) for name in works}
    a, b, c = (np.ones(TRIAD_ENTRIES) for _ in range(3))
    for _ in range(ROUNDS):
        for name, work in works.items():
            stream.share(TRIAD_ENTRIES, lambda low, high: triad(low, high, a, b, c))
            stepper.crew = crews[name]
            work()
    return {name: each.seconds() for name, each in crews.items()}, 24.0 * TRIAD_ENTRIES / stream.seconds()


def row(kernel: Kernel, seconds: float, bandwidth: float) -> str:
    """One kernel's figures, and what it moves."""
    moved = kernel.bytes * CELLS**3 / seconds
    met = "met" if moved >= GOAL * bandwidth else "missed"
    written = kernel.writes or "nothing, save where it is hotter"
    speeds = f"{kernel.bytes:5d} {1e9 * seconds / CELLS**3:10.2f} {1e-9 * moved:6.1f}"
    share = f"{moved / bandwidth:5.0%}   {met}"
    return f"{kernel.name:12s} {speeds}   {share}\n    reads {kernel.reads}; writes {written}"


def show_threads(stepper: Stepper, threads: int) -> None:
    """Print the table for a number of threads."""
    stepper.crew = crew.Crew(CELLS**3, threads)
    listed = kernels(stepper)
    works: dict[str, Callable[[], object]] = {kernel.name: kernel.work for kernel in listed}
    works["one"] = lambda: stepper.react(10.0, ALLOWED)
    works["parts"] = lambda: stepper.react(STEP, ALLOWED)
    found, bandwidth = in_turns(stepper, works)
    print(f"threads: {threads}; triad {1e-9 * bandwidth:.1f} GB/s")
    print("kernel       bytes  ns a cell   GB/s   of the triad, goal half")
    for kernel in listed:
        print(row(kernel, found[kernel.name], bandwidth))
    count = stepper.reacting.cells.size
    for name, how in (("one", "a step of 10 s"), ("parts", "a step of 600 s from one of 600 s")):
        print(f"reaction, {how}: {1e9 * found[name] / count:.0f} ns a reacting cell")


def main() -> None:
    """Print the tables for one thread and for all."""
    warm_up()
    stepper = full_mold()
    kept, crew.PARTS_EACH = crew.PARTS_EACH, 1  # a slice is small: one part for each thread
    try:
        for threads in sorted({1, crew.threads_wanted()}):
            show_threads(stepper, threads)
    finally:
        crew.PARTS_EACH = kept
    share = stepper.reacting.cells.size / CELLS**3
    print(f"{share:.0%} of the cells react")


if __name__ == "__main__":
    main()
