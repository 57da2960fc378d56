"""Worker of `bench_against_others`: every code on the block, in one process, on one thread."""

from __future__ import annotations

import math
import time
import warnings
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib import import_module
from importlib.util import find_spec
from itertools import pairwise
from typing import Any

import numpy as np

from benchmarks import rival_elements, rival_ours, rival_volumes
from benchmarks.rival_block import Array, Pace, cells

MESHES, ELEMENT_MESHES = (5e-3, 2.5e-3, 2e-3), (1e-2, 5e-3, 2.5e-3)
TOLERANCES = (2.0, 0.5, 0.1)
FOLLOWING, FIXED = (1.0, 0.3, 0.1), (240.0, 120.0, 60.0)
SWEEP_MESH, SWEEP_PACES = 1e-2 / 3, (Pace(0.3, follows=True), Pace(120.0, follows=False))
REFERENCE_MESHES = (2.5e-3, 5e-3 / 3)
LEVEL, TIGHT = 0.2, Pace(0.02, follows=True)

Solve = Callable[[float], tuple[Array, int]]


@dataclass(frozen=True)
class Run:
    """One point of a curve."""

    code: str
    mesh: float
    pace: str
    steps: int
    seconds: float
    error: float
    apart: float


def timed(solve: Callable[[], tuple[Array, int]], repeats: int) -> tuple[float, Array, int]:
    """Least processor time of several runs [s], and what came of it."""
    least = math.inf
    for _ in range(repeats):
        began = time.process_time()
        peaks, steps = solve()
        least = min(least, time.process_time() - began)
    return least, peaks, steps


def reference() -> Array:
    """Peaks extrapolated to a mesh of spacing 0 by two codes other than ours, and their mean."""
    codes: dict[str, Solve] = {
        "scikit-fem": lambda h: rival_elements.solve(h, TIGHT, rival_elements.Setting()),
        "scipy": lambda h: rival_volumes.solve(h, TIGHT, rival_volumes.Setting()),
    }
    print("reference: peaks at three points [degC], two meshes and a step followed to 0.02 K, extrapolated")
    limits = []
    for name, solve in codes.items():
        coarse, fine = (solve(mesh)[0] for mesh in REFERENCE_MESHES)
        ratio = (REFERENCE_MESHES[0] / REFERENCE_MESHES[1]) ** 2
        limits.append(fine + (fine - coarse) / (ratio - 1.0))
        print(f"  {name:12s} {written(coarse)}   {written(fine)}   limit {written(limits[-1])}", flush=True)
    apart = float(np.abs(limits[0] - limits[1]).max())
    print(f"  they differ by {apart:.3f} K; the reference is their mean")
    return np.asarray(0.5 * (limits[0] + limits[1]))


def written(peaks: Array) -> str:
    """Temperatures in degC."""
    return " ".join(f"{value - 273.15:.3f}" for value in peaks)


def volumes_settings() -> list[rival_volumes.Setting]:
    """Preconditioners, tolerances and matrix formats."""
    make = rival_volumes.Setting
    kinds = [make(kind) for kind in ("none", "jacobi", "series", "ilu")]
    loose = [make(kind, tolerance) for kind in ("jacobi", "series") for tolerance in (1e-3, 1e-4)]
    return [*kinds, *loose, make("jacobi", 1e-4, "dia"), make("series", 1e-4, "dia")]


def elements_settings() -> list[rival_elements.Setting]:
    """Conjugate gradients of several tolerances; kept factors pay only for one fixed step."""
    make = rival_elements.Setting
    return [*(make("cg", tolerance) for tolerance in (1e-3, 1e-4, 1e-6)), make("factors")]


@dataclass(frozen=True)
class Rival:
    """A code, what its sweep tries, and how often a run is repeated."""

    name: str
    solve: Callable[[float, Pace, object], tuple[Array, int]]
    settings: list[object]
    repeats: int
    sweep_mesh: float = SWEEP_MESH
    meshes: tuple[float, ...] = MESHES


def rivals() -> list[Rival]:
    """The others that are installed."""
    found = [
        Rival("scipy CG", rival_volumes.solve, list(volumes_settings()), 3),  # type: ignore[arg-type]
        Rival("scikit-fem", rival_elements.solve, list(elements_settings()), 2, 5e-3, ELEMENT_MESHES),  # type: ignore[arg-type]
    ]
    if find_spec("fipy") is None:
        print("FiPy is not installed and left out; to have its line: pip install -e '.[bench]'")
        return found
    rival_fipy: Any = import_module("benchmarks.rival_fipy")
    make = rival_fipy.Setting
    settings = [make("lu"), *(make(kind, 1e-6) for kind in ("cg", "cg-jacobi", "cg-ilu")), make("cg", 1e-4)]
    found.append(Rival("FiPy", rival_fipy.solve, list(settings), 1, 5e-3))
    return found


def best_setting(rival: Rival) -> tuple[object, bool]:
    """Try all settings; the best has the least time times error, as cost falls with the error allowed."""
    best, chosen = math.inf, (rival.settings[0], True)
    print(f"sweep of {rival.name}, {1e3 * rival.sweep_mesh:g} mm")
    tight = rival.solve(rival.sweep_mesh, Pace(0.05, follows=True), rival.settings[0])[0]
    for setting in rival.settings:
        for pace in SWEEP_PACES:
            if getattr(setting, "solver", "") == "factors" and pace.follows:
                continue  # new factors each step: hopeless
            seconds, peaks, steps = timed(lambda s=setting, p=pace: rival.solve(rival.sweep_mesh, p, s), 1)  # type: ignore[misc]
            error = float(np.abs(peaks - tight).max())
            kept = seconds * math.sqrt(max(error, 1e-3))
            print(
                f"  {describe(setting, pace):58s} {steps:5d} steps {seconds:8.2f} s, off by {error:.3f} K",
                flush=True,
            )
            if kept < best:
                best, chosen = kept, (setting, pace.follows)
    print(f"  taken: {describe(chosen[0], SWEEP_PACES[0] if chosen[1] else SWEEP_PACES[1])}")
    return chosen


def describe(setting: object, pace: Pace) -> str:
    """A setting in words."""
    words = str(setting).partition("(")[2].rstrip(")").replace("'", "")
    return f"{words}, " + (f"follows {pace.value:g} K" if pace.follows else f"steps of {pace.value:g} s")


def curve(rival: Rival, exact: Array) -> list[Run]:
    """Three meshes, three steps, with the setting that did best."""
    setting, follows = best_setting(rival)
    found, exactly = [], limits(rival.name, rival.meshes)
    for mesh in rival.meshes:
        for value in FOLLOWING if follows else FIXED:
            pace = Pace(value, follows)
            seconds, peaks, steps = timed(
                lambda m=mesh, p=pace: rival.solve(m, p, setting),  # type: ignore[misc]
                rival.repeats,
            )
            unit = "K" if follows else "s"
            errors = judged(peaks, exact, exactly[mesh])
            found.append(Run(rival.name, mesh, f"{value:g} {unit}", steps, seconds, *errors))
            show(found[-1])
    return found


def our_curve(exact: Array) -> list[Run]:
    """The same of our solver."""
    found, exactly = [], limits("ours", MESHES)
    for mesh in MESHES:
        for tolerance in TOLERANCES:
            seconds, peaks, steps = timed(lambda m=mesh, t=tolerance: rival_ours.solve(m, t), 5)  # type: ignore[misc]
            errors = judged(peaks, exact, exactly[mesh])
            found.append(Run("ours", mesh, f"{tolerance:g} K", steps, seconds, *errors))
            show(found[-1])
    return found


def judged(peaks: Array, exact: Array, limit: Array) -> tuple[float, float]:
    """Largest error of the three points [K]; and with the parts by space and by time added in size."""
    both = np.abs(limit - exact) + np.abs(peaks - limit)
    return float(np.abs(peaks - exact).max()), float(both.max())


def limits(name: str, meshes: tuple[float, ...]) -> dict[float, Array]:
    """Peaks of a code on each mesh with steps that hardly err; the three finite-volume codes share theirs."""
    if name == "scikit-fem":
        make = rival_elements.Setting("cg", 1e-6)
        return {mesh: rival_elements.solve(mesh, TIGHT, make)[0] for mesh in meshes}
    return {mesh: rival_volumes.solve(mesh, TIGHT, rival_volumes.Setting())[0] for mesh in meshes}


def show(run: Run) -> None:
    """Print a point."""
    unknowns = cells(run.mesh).size
    size = f"{1e3 * run.mesh:4.1f} mm {unknowns:7d}"
    errors = f"{run.error:8.3f} {run.apart:8.3f}"
    print(f"{run.code:12s} {size} {run.pace:>7s} {run.steps:6d} {run.seconds:9.3f} {errors}", flush=True)


def envelope(runs: list[Run]) -> list[Run]:
    """Runs that no cheaper one beats, cheapest first."""
    kept: list[Run] = []
    for each in sorted(runs, key=lambda run: run.seconds):
        if not kept or each.error < kept[-1].error:
            kept.append(each)
    return kept


def crossing(runs: list[Run], level: float = LEVEL) -> float:
    """Cost at which the envelope falls to an error, straight in logarithms [s]; NaN if it never does."""
    kept = envelope(runs)
    if kept[0].error <= level:
        return kept[0].seconds
    for before, after in pairwise(kept):
        if after.error <= level:
            share = math.log(before.error / level) / math.log(before.error / after.error)
            return float(before.seconds * (after.seconds / before.seconds) ** share)
    return math.nan


def added(curves: dict[str, list[Run]]) -> dict[str, list[Run]]:
    """The same runs, judged by the added parts of their error."""
    return {name: [replace(run, error=run.apart) for run in runs] for name, runs in curves.items()}


def plot(curves: dict[str, list[Run]]) -> None:
    """Draw the runs: error downwards, cost to the right, both by decades; capitals are the envelope."""
    width, height = 72, 18
    runs = [run for each in curves.values() for run in each]
    times, errors = [math.log10(run.seconds) for run in runs], [math.log10(run.error) for run in runs]
    left, right, low, high = min(times), max(times), min(errors), max(errors)
    sheet = [[" "] * width for _ in range(height)]

    def at(seconds: float, error: float) -> tuple[int, int]:
        row = (high - math.log10(error)) / (high - low) * (height - 1)
        return round(row), round((math.log10(seconds) - left) / (right - left) * (width - 1))

    sheet[at(1.0, LEVEL)[0]] = ["-"] * width
    for (name, each), letter in zip(curves.items(), "osef", strict=False):
        best = envelope(each)
        for run in each:
            row, column = at(run.seconds, run.error)
            sheet[row][column] = letter.upper() if run in best else letter
        print(f"  {letter}: {name}", end="")
    print(f"   line at {LEVEL} K")
    print(f"  {10**left:.2g} s to {10**right:.2g} s across, {10**high:.2g} K to {10**low:.2g} K down")
    print("\n".join("  |" + "".join(line) for line in sheet))


GOALS = {"FiPy": 100.0, "scipy CG": 4.0}


def verdict(curves: dict[str, list[Run]]) -> None:
    """Print where the curves cross, and the ratios to ours."""
    ours = crossing(curves["ours"])
    print(f"error of {LEVEL} K costs us {ours:.3f} s")
    for name, runs in curves.items():
        if name == "ours":
            continue
        ratio = crossing(runs) / ours
        goal = GOALS.get(name)
        judged = (
            "no goal, reported"
            if goal is None
            else f"goal {goal:g} times: {'met' if ratio >= goal else 'missed'}"
        )
        print(f"  {name:12s} {crossing(runs):9.3f} s, {ratio:6.1f} times ours; {judged}")


def main() -> None:
    """Print reference, sweeps, curves and ratios."""
    warnings.filterwarnings("ignore")
    rival_ours.solve(1e-2, 0.5)
    exact = reference()
    others = rivals()
    for rival in others:  # imports and first calls are not timed
        rival.solve(1e-2, Pace(600.0, follows=False), rival.settings[0])
    header = "code         mesh       cells    pace  steps   seconds  error K  parts added K"
    print(header)
    curves = {"ours": our_curve(exact)}
    for rival in others:
        curves[rival.name] = curve(rival, exact)
    print("\nby the error itself; where the parts by space and time differ in sign, luck makes it small")
    plot(curves)
    verdict(curves)
    print("\nby the two parts added in size")
    plot(added(curves))
    verdict(added(curves))


if __name__ == "__main__":
    main()
