"""Share of the memory's bandwidth that each kernel of the solver reaches at 128^3, and ns per reacting cell.

Bandwidth is measured in the same process on the same number of threads by a triad a = b + s c over
three arrays of 512 MiB, 24 bytes counted per entry. It runs right before and right after each kernel,
and a kernel's share is taken against the mean of the two, so that load on the machine hits both alike;
the median of all rounds is printed. Bytes of a kernel are what it must move at least, 8 for every
entry of an array read or written once; what it reads again from cache, and the reading of lines before
they are written, is not counted, as in the triad. Arrays that most rows skip are not counted either.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from typing import Any

import numba
import numpy as np

from benchmarks.bench_solver import hourglass
from pourwright.solver import start, switch_on, warm_up
from pourwright.solver.stepper import Stepper

CELLS, ROUNDS, STEP, ALLOWED = 128, 9, 600.0, 0.05
TRIAD_ENTRIES = 1 << 26
GOAL = 0.5


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


def seconds(work: Callable[[], object]) -> float:
    """Wall time of one call."""
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def full_mold() -> Stepper:
    """The hourglass of the other benchmark with all of it poured, a step old."""
    problem, pours = hourglass(CELLS)
    capacity, conductivity, heat = (np.full(problem.shape, value) for value in (2.05e6, 0.45, 1.73e8))
    everything = np.logical_or.reduce(pours)
    problem, state = switch_on(
        problem,
        start(problem, 293.15),
        everything,
        297.15,
        0.02,
        volumetric_heat_capacity=capacity,
        conductivity=conductivity,
        heat=heat,
    )
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


def measured(listed: list[Kernel], stream: Callable[[], object]) -> dict[str, list[tuple[float, float]]]:
    """Seconds of each kernel and of the triads around it, round by round."""
    found: dict[str, list[tuple[float, float]]] = {kernel.name: [] for kernel in listed}
    for _ in range(ROUNDS):
        before = seconds(stream)
        for kernel in listed:
            taken = seconds(kernel.work)
            after = seconds(stream)
            found[kernel.name].append((taken, 0.5 * (before + after)))
            before = after
    return found


def row(kernel: Kernel, rounds: list[tuple[float, float]]) -> str:
    """One kernel's figures, and what it moves."""
    moved = kernel.bytes * CELLS**3
    best = min(taken for taken, _ in rounds)
    shares = [moved * around / taken / (24 * TRIAD_ENTRIES) for taken, around in rounds]
    speeds = f"{kernel.bytes:5d} {1e9 * best / CELLS**3:10.2f} {1e-9 * moved / best:6.1f}"
    share = f"{median(shares):5.0%} ({min(shares):.0%} to {max(shares):.0%})"
    met = "met" if median(shares) >= GOAL else "missed"
    written = kernel.writes or "nothing, save where it is hotter"
    return f"{kernel.name:12s} {speeds}   {share}   {met}\n    reads {kernel.reads}; writes {written}"


def show_reaction(stepper: Stepper) -> None:
    """Print what a reacting cell costs where one evaluation does, and where a step is cut in parts."""
    count = stepper.reacting.cells.size
    for step, how in ((10.0, "one evaluation does"), (STEP, "the cell is followed in parts")):
        best = min(seconds(lambda step=step: stepper.react(step, ALLOWED)) for _ in range(ROUNDS))  # type: ignore[misc]
        print(f"reaction, step of {step:g} s, {how}: {1e9 * best / count:.0f} ns a reacting cell")
    best = min(seconds(lambda: stepper.feed(STEP, STEP, known=True)) for _ in range(ROUNDS))
    print(f"bare faces: {1e9 * best / CELLS**3:.2f} ns a cell of the grid; {count} of {CELLS**3} cells react")


def main() -> None:
    """Print the table."""
    warm_up()
    stepper = full_mold()
    a, b, c = (np.ones(TRIAD_ENTRIES) for _ in range(3))

    def stream() -> None:
        stepper.crew.share(TRIAD_ENTRIES, lambda low, high: triad(low, high, a, b, c))

    listed = kernels(stepper)
    for work in (stream, *(kernel.work for kernel in listed)):
        work()
    found = measured(listed, stream)
    speed = [24e-9 * TRIAD_ENTRIES / around for rounds in found.values() for _, around in rounds]
    extent = f"median {median(speed):.1f} GB/s, {min(speed):.1f} to {max(speed):.1f}"
    print(f"threads: {stepper.crew.threads}; triad: {extent}")
    print("kernel       bytes  ns a cell   GB/s   share of the triad   goal: half")
    for kernel in listed:
        print(row(kernel, found[kernel.name]))
    show_reaction(stepper)


if __name__ == "__main__":
    main()
