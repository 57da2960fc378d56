"""What runs on 16 and 8 mm miss against 4 mm, alone and corrected by one finer run of a neighbouring plan.

20 random castings (boxes, cones, hourglasses, vases of 80 to 350 mm; neat, glass, glass under a neat
cover; three resins; shops of 16 to 26 degC; one to three pours), each with two plans that differ in
levels and starts as two trials of a search do. Castings that would take more than 250,000 cells of
4 mm are drawn smaller, those hotter than 150 degC shallower. Every plan is run to demolding on the
three grids. A correction is what the finer grid adds on the first plan; it is applied to the second.
Castings of less than 125,000 cells of 4 mm are run on 2 mm too, to see what 4 mm misses.

The last lines are what the plan states as its grid error (`pourwright/data/heat_grid.toml`): the peak's
error over its change from twice the spacing, or over the rise from the temperature as poured, whichever
says more, so that every pour of nine plans in ten is covered; and the error of times over the time.

``python -m benchmarks.bench_coarse --pieces 20 --keep FOLDER --samples FILE`` keeps finished runs and goes
on from them, and writes rise, change and error of every peak. About 10 minutes on two quiet cores.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from itertools import product
from multiprocessing import get_context
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from benchmarks.coarse_runs import GRIDS, Piece, run_piece

PIECES, PROCESSES = 20, 2
CHANGED = 0.5  # K; below, the share of a change says nothing
SURE = 0.9
SHARES = (0.5, SURE, 1.0)
Array = NDArray[np.float64]

QUANTITIES = {
    "peak": "K",
    "peak_after": "h",
    "gel": "h",
    "bonds_from": "h",
    "bonds_until": "h",
    "demold": "h",
}


def missed(piece: Piece, quantity: str, plan: int, grid: int) -> Array:
    """How far a grid is from 4 mm, per pour."""
    coarse, fine = (np.array(getattr(piece.runs[plan, each], quantity)) for each in (grid, 4))
    with np.errstate(invalid="ignore"):  # neither may have come to an end
        return np.asarray(coarse - fine)


def corrected(piece: Piece, quantity: str, grid: int, finer: int) -> Array:
    """How far a grid is from 4 mm on the second plan, once what the finer grid adds on the first is added."""
    with np.errstate(invalid="ignore"):
        added = missed(piece, quantity, 0, finer) - missed(piece, quantity, 0, grid)
        return np.asarray(missed(piece, quantity, 1, grid) + added)


def alone(piece: Piece, quantity: str, grid: int) -> Array:
    """How far a grid is from 4 mm on both plans."""
    return np.concatenate([missed(piece, quantity, plan, grid) for plan in (0, 1)])


WAYS: dict[str, Callable[[Piece, str], Array]] = {
    "16 mm": partial(alone, grid=16),
    "8 mm": partial(alone, grid=8),
    "16 mm corrected by 8 mm": partial(corrected, grid=16, finer=8),
    "16 mm corrected by 4 mm": partial(corrected, grid=16, finer=4),
    "8 mm corrected by 4 mm": partial(corrected, grid=8, finer=4),
}


def below_limit(piece: Piece, plans: tuple[int, ...]) -> NDArray[np.bool_]:
    """Which pours stay below their limit on 4 mm."""
    runs = [piece.runs[plan, 4] for plan in plans]
    return np.concatenate([np.array(run.peak) <= run.limit for run in runs])


def quantiles(values: Array) -> str:
    """Median, nine tenths and highest of absolute values."""
    sure = np.abs(values[np.isfinite(values)])
    if not sure.size:
        return "       -        -        -"
    return " ".join(f"{np.quantile(sure, share, method='higher'):8.2f}" for share in SHARES)


def table(pieces: Sequence[Piece]) -> Iterator[str]:
    """Quantiles of the error of each quantity, each way."""
    yield "error against 4 mm                   median      90 %  highest   of"
    for quantity, unit in QUANTITIES.items():
        for way, errors in WAYS.items():
            found = np.concatenate([errors(piece, quantity) for piece in pieces])
            yield f"{quantity:12s} {way:24s} {quantiles(found)} {found.size:4d} {unit}"
            if quantity == "peak":
                plans = (1,) if "corrected" in way else (0, 1)
                cool = np.concatenate([below_limit(piece, plans) for piece in pieces])
                yield f"{'':6s} below 65 degC: {'':15s} {quantiles(found[cool])} {int(cool.sum()):4d} {unit}"


@dataclass(frozen=True)
class Sample:
    """Of a plan's peaks: rise, change from twice the spacing, error against half [K]; errors of times."""

    rise: Array
    change: Array
    error: Array
    times: Array


def samples(pieces: Sequence[Piece], grid: int) -> list[Sample]:
    """Compare a grid with the next coarser and the next finer one, plan by plan."""
    found = []
    for piece, plan in product(pieces, (0, 1)):
        if (plan, grid // 2) not in piece.runs:
            continue
        coarse, here, fine = (piece.runs[plan, each] for each in (2 * grid, grid, grid // 2))
        peaks = [np.array(run.peak) for run in (coarse, here, fine)]
        rise = peaks[1] - np.array(here.poured_at)
        ours, theirs = (
            np.concatenate([getattr(run, name) for name in ("gel", "bonds_from", "bonds_until", "demold")])
            for run in (here, fine)
        )
        told = np.isfinite(ours) & np.isfinite(theirs)
        times = ours[told] / theirs[told] - 1.0
        found.append(Sample(rise, peaks[1] - peaks[0], peaks[1] - peaks[2], times))
    return found


def _nine_in_ten(values: Array) -> float:
    return float(np.quantile(np.abs(values), SURE, method="higher"))


def rule(found: Sequence[Sample]) -> tuple[float, float, float]:
    """Shares of change and rise that together cover the peaks of nine plans in ten, and share of times."""
    change, error = (np.concatenate([getattr(each, name) for each in found]) for name in ("change", "error"))
    changed = np.abs(change) >= CHANGED
    share = _nine_in_ten(error[changed] / change[changed]) if changed.any() else 0.0
    left = [
        np.where(np.abs(each.error) > share * np.abs(each.change), np.abs(each.error) / each.rise, 0.0).max()
        for each in found
    ]
    return share, _nine_in_ten(np.array(left)), _nine_in_ten(np.concatenate([each.times for each in found]))


def row(piece: Piece) -> str:
    """One line of a piece: hottest peak on 4 mm, and what 16 and 8 mm miss."""
    peaks = [max(piece.runs[plan, 4].peak) - 273.15 for plan in (0, 1)]
    lines = [f"{piece.name}: {piece.runs[0, 4].cells} cells, peaks {peaks[0]:.1f}, {peaks[1]:.1f} degC"]
    for way, errors in WAYS.items():
        worst = {name: np.abs(errors(piece, name)).max() for name in QUANTITIES}
        lines.append(f"    {way:24s} " + " ".join(f"{name} {value:.2f}" for name, value in worst.items()))
    return "\n".join(lines)


def stated(pieces: Sequence[Piece], grid: int, kept: Path | None) -> str:
    """Say what the plan is to state for a spacing; add the samples it rests on to a file."""
    found = samples(pieces, grid)
    if not found:
        return f"{grid} mm: no casting was run on {grid // 2} mm"
    if kept:
        with kept.open("a", encoding="utf8") as file:
            for number, each in enumerate(found):
                for pour in zip(each.rise, each.change, each.error, strict=True):
                    file.write(",".join([f"{grid}", f"{number}", *(f"{value:.4f}" for value in pour)]) + "\n")
    change, rise, times = rule(found)
    return (
        f"{grid} mm against {grid // 2} mm, {len(found)} plans: {change:.3f} of the change from "
        f"{2 * grid} mm, {rise:.4f} of the rise; times within {times:.3f}"
    )


def main(arguments: Sequence[str] = ()) -> None:
    """Print a line per piece, the table of quantiles, and what a plan is to state."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pieces", type=int, default=PIECES)
    parser.add_argument("--keep", type=Path, help="folder of finished runs")
    parser.add_argument("--samples", type=Path, help="file to add spacing, plan, rise, change, error to")
    chosen = parser.parse_args(list(arguments))
    if chosen.keep:
        chosen.keep.mkdir(parents=True, exist_ok=True)
    pieces = []
    with ProcessPoolExecutor(PROCESSES, get_context("spawn")) as pool:
        for piece in pool.map(partial(run_piece, chosen.keep), range(chosen.pieces)):
            print(row(piece), flush=True)
            pieces.append(piece)
    for grid in GRIDS:
        seconds = [run.seconds for piece in pieces for (_, each), run in piece.runs.items() if each == grid]
        print(f"{grid} mm: {np.median(seconds):.2f} s a plan, longest {max(seconds):.1f} s")
    print("\n".join(table(pieces)))
    for grid in (8, 4):
        print(stated(pieces, grid, chosen.samples))


if __name__ == "__main__":
    main(sys.argv[1:])
