"""How well an emulator knows peaks and times of pours that were not run, against other ways to learn.

Ten invented boxes, 100 mm wide, each so deep that its middle resin stays some kelvin below its limit:
three resins, neat and with glass, with the doubts of a family (x 1) and of a fit (x 0.35). Every number in
doubt is drawn: fifteen of the resin (the film among them), shop, mix, voids. Of 140 runs of each, 60 or 80
are learned and the other 60 are told. The rivals get what the emulator gets: the same runs, logarithms
(of kelvins above 12 degC, of times). Polynomial chaos in the form made for few runs; a least-squares
polynomial of degree 2 would need 190 of them.

Peaks are compared where they stay below 95 degC: of a run-away only that it is one matters. 'wrong side' are
members put below the limit of 65 degC that go over it, or the reverse; 'share' is by how much the share that
goes over is off.

``python -m benchmarks.bench_emulator --keep FOLDER`` keeps the runs. About 8 minutes on one core, then 1.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import defaultdict
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from benchmarks.emulator_rivals import RIVALS
from benchmarks.emulator_runs import CASTINGS, members
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.solver import emulator
from pourwright.solver.draws import draws

Array = NDArray[np.float64]
LEARNED, HELD_OUT = (60, 80), 60
BELOW, LIMIT, SEEN = (ZERO_CELSIUS + each for each in (12.0, 65.0, 95.0))
Errors = dict[tuple[str, int, str], list[tuple[float, float]]]


def peaks(values: Array) -> Array:
    """Peaks [K] on the scale they are learned on."""
    return np.log(values[:, 0] - BELOW)


def compare(points: Array, values: Array, errors: Errors, sides: Errors) -> None:
    """Learn and tell one casting every way, and note what was missed."""
    told = slice(len(points) - HELD_OUT, None)
    for number, answer in enumerate(("peak [K]", "gel [%]", "ready [%]")):
        scaled = peaks(values) if number == 0 else 100.0 * np.log(values[:, number])
        sure = np.isfinite(scaled[told])
        for learned in LEARNED:
            runs = np.flatnonzero(np.isfinite(scaled[:learned]))
            for way, rival in RIVALS.items():
                found = rival(points[runs], scaled[runs], points[told][sure])
                true = scaled[told][sure]
                if number == 0:
                    found, true = BELOW + np.exp(found), BELOW + np.exp(true)
                    over = [side > LIMIT for side in (found, true)]
                    off = abs(float(over[0].mean() - over[1].mean()))
                    sides[answer, learned, way].append((float(np.mean(over[0] != over[1])), off))
                    found, true = found[true < SEEN], true[true < SEEN]
                missed = np.abs(found - true)
                errors[answer, learned, way].append(
                    (float(np.median(missed)), float(np.quantile(missed, 0.9)))
                )


def table(errors: Errors, sides: Errors) -> Iterator[str]:
    """Geometric means over the castings; shares are plain means."""
    yield f"{'':10s} {'learned':>7s}  {'':28s} {'median':>7s} {'90 %':>7s} {'wrong side':>11s} {'share':>7s}"
    for (answer, learned, way), found in errors.items():
        middle, ninth = np.exp(np.log(np.array(found)).mean(axis=0))
        line = f"{answer:10s} {learned:7d}  {way:28s} {middle:7.2f} {ninth:7.2f}"
        if (answer, learned, way) in sides:
            wrong, off = np.array(sides[answer, learned, way]).mean(axis=0)
            line += f" {100 * wrong:9.1f} % {100 * off:5.1f} %"
        yield line


def speed() -> str:
    """Seconds to learn 100 runs of 22 inputs, and to tell 20,000 points."""
    runs, asked = (draws(count, np.zeros(22), np.eye(22), 1) for count in (100, 20_000))
    values = np.log1p(np.exp(runs[:, :5].sum(axis=1)))
    marks = [time.perf_counter()]
    learned = emulator.fit(runs, values)
    marks.append(time.perf_counter())
    learned.predict(asked)
    marks.append(time.perf_counter())
    fit, told = np.diff(marks)
    return f"100 runs of 22 inputs are learned in {fit:.2f} s, 20,000 points told in {told:.2f} s"


def main(arguments: Sequence[str] = ()) -> None:
    """Run the castings, or take their runs from the folder, and print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--keep", type=Path, help="folder of finished runs")
    chosen = parser.parse_args(list(arguments))
    if chosen.keep:
        chosen.keep.mkdir(parents=True, exist_ok=True)
    errors: Errors = defaultdict(list)
    sides: Errors = defaultdict(list)
    for casting in CASTINGS:
        points, values = members(casting, max(LEARNED) + HELD_OUT, chosen.keep)
        compare(points, values, errors, sides)
        low, middle, high = np.quantile(values[:, 0] - ZERO_CELSIUS, (0.1, 0.5, 0.9))
        print(f"{casting.name}: peaks {middle:.0f} degC, 80 % from {low:.0f} to {high:.0f}", flush=True)
    print("\n".join(table(errors, sides)))
    print(speed())


if __name__ == "__main__":
    main(sys.argv[1:])
