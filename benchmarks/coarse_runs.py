"""Run the castings of `coarse_pieces` on several grids, and keep what was run."""

from __future__ import annotations

import json
import os
import time
from dataclasses import asdict, dataclass
from itertools import product
from pathlib import Path

from benchmarks.coarse_pieces import HOUR, draw_case
from pourwright.planner.grids import layers_of
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import rehearse

GRIDS, FINEST = (16, 8, 4), 2
FEW_CELLS = 125_000


@dataclass(frozen=True)
class Ran:
    """What a grid said of a plan; per pour, times in hours from the pour's start (demold: the last's)."""

    poured_at: list[float]
    peak: list[float]
    peak_after: list[float]
    gel: list[float]
    bonds_from: list[float]
    bonds_until: list[float]
    demold: list[float]
    limit: float
    cells: int
    seconds: float


@dataclass(frozen=True)
class Piece:
    """Runs of one casting by plan (0, 1) and grid."""

    name: str
    runs: dict[tuple[int, int], Ran]


def run_plan(number: int, plan: int, grid: int) -> Ran:
    """Run one plan of a casting on one grid."""
    case = draw_case(number)
    pours = (case.plan, case.neighbour)[plan]
    began = time.perf_counter()
    levels = [pour.level for pour in pours]
    layout = lay_out(case.site, grid / 1000.0, levels, layers=layers_of(levels, case.site.block))
    seen = rehearse(layout, pours)

    def hours(name: str) -> list[float]:
        return [(getattr(pour, name) - pour.start) / HOUR for pour in seen.pours]

    return Ran(
        [pour.poured_at for pour in seen.pours],
        [pour.peak for pour in seen.pours],
        hours("peak_time"),
        hours("gel_last"),
        hours("bonds_from"),
        hours("bonds_until"),
        [(seen.ready - seen.pours[-1].start) / HOUR],
        case.site.resin.peak_limit.value,
        layout.cavity.size,
        time.perf_counter() - began,
    )


def run_piece(keep: Path | None, number: int) -> Piece:
    """Run all plans and grids of a casting, taking from the folder what was run before."""
    os.environ.setdefault("NUMBA_NUM_THREADS", "1")
    kept = keep / f"{number}.json" if keep else None
    known = json.loads(kept.read_text("utf8")) if kept and kept.exists() else {}

    def run(plan: int, grid: int) -> Ran:
        key = f"{plan} {grid}"
        if key not in known:
            known[key] = asdict(run_plan(number, plan, grid))
            if kept:
                kept.write_text(json.dumps(known), "utf8")
        return Ran(**known[key])

    runs = {(plan, grid): run(plan, grid) for plan, grid in product((0, 1), GRIDS)}
    if runs[0, 4].cells < FEW_CELLS:
        runs |= {(plan, FINEST): run(plan, FINEST) for plan in (0, 1)}
    return Piece(draw_case(number).name, runs)
