"""What a small run costs beside its arithmetic: the planner and its chances are hundreds of such runs.

A block of 0.3 x 0.3 x 0.42 m in rubber and board, three pours, followed until it can be demolded, on
about 8,000 and 64,000 cells. Invented numbers. A step costs what a cell costs, times cells, and a
rest that does not depend on them: both are fitted to the two grids. The same run with films that
the solver must call from Python, as any film but a table is, shows in the same minute what tables in a
kernel bring. Processor time, one thread; a step is one of the plan, those that look for the end of a
bond window come on top.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from datetime import UTC, datetime
from math import cos, pi
from zoneinfo import ZoneInfo

import numpy as np

from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.geometry import box
from pourwright.materials import load_materials
from pourwright.planner.grids import layers_of
from pourwright.pour.climate import Climate
from pourwright.pour.layout import Layout, lay_out
from pourwright.pour.rehearse import Planned, Rehearsal, rehearse
from pourwright.pour.site import Bed, Block, Site
from pourwright.solver import Control, Exchange, FilmTable, Surfaces, warm_up

HOUR = 3600.0
ZERO = datetime(2026, 12, 1, 9, tzinfo=UTC)
LEVELS = (0.045, 0.09, 0.42)
PLAN = tuple(Planned(level, hour * HOUR) for level, hour in zip(LEVELS, (5.0, 48.0, 77.0), strict=True))
CONTROL = Control(tolerance=0.3)
REPEATS = 5
Film = Callable[[np.ndarray, float], np.ndarray]


@dataclass(frozen=True)
class Cost:
    """Processor seconds of laying out and of running, and what was run."""

    layout: float
    run: float
    seen: Rehearsal

    @property
    def step(self) -> float:
        """Seconds a step."""
        return self.run / self.seen.steps


def stool() -> Site:
    """A block that is neat below and glass above."""
    materials = load_materials()
    shop = tuple(ZERO_CELSIUS + 19.0 + 2.0 * cos(2.0 * pi * (hour - 15) / 24) for hour in range(24))
    return Site(
        box([0.3, 0.3, LEVELS[-1]]),
        Block((0.33, 0.33), 0.018, 0.018, LEVELS[-1]),
        (Bed(0.0, LEVELS[1], 0.0), Bed(LEVELS[1], LEVELS[2], 0.55)),
        materials.resin["epoxy-slow-deep"],
        materials.glass["soda-lime-crushed"],
        materials.rubber["silicone-platinum-a25"],
        materials.board["mdf"],
        Climate(ZERO, ZoneInfo("UTC"), shop),
    )


def _lay_out(site: Site, spacing: float, parts: int) -> Layout:
    return lay_out(site, spacing, LEVELS, layers=layers_of(LEVELS, site.block, parts))


def called(layout: Layout) -> Layout:
    """The same layout with films that kernels cannot look up."""
    films: dict[int, Film] = {}

    def hidden(exchange: Exchange) -> Exchange:
        if not isinstance(exchange.film, FilmTable):
            return exchange
        return replace(exchange, film=films.setdefault(id(exchange.film), exchange.film.__call__))

    faces = {part.name: hidden(getattr(layout.surfaces, part.name)) for part in fields(Surfaces)}
    return replace(layout, surfaces=Surfaces(**faces))


def cost(spacing: float, parts: int, *, tables: bool = True) -> Cost:
    """Best of some repeats."""
    site = stool()
    found: list[Cost] = []
    for _ in range(REPEATS):
        began = time.process_time()
        layout = _lay_out(site, spacing, parts)
        ready = time.process_time()
        seen = rehearse(layout if tables else called(layout), PLAN, control=CONTROL)
        found.append(Cost(ready - began, time.process_time() - ready, seen))
    return Cost(min(each.layout for each in found), min(each.run for each in found), found[0].seen)


def show(name: str, found: Cost) -> None:
    """Print a line."""
    seen, step = found.seen, found.step
    sizes = f"{name:22s} {seen.cells:7d} {seen.steps:6d} {1e3 * found.layout:8.1f} {1e3 * found.run:9.1f}"
    print(f"{sizes} {1e6 * step:10.0f} {1e9 * step / seen.cells:8.1f}", flush=True)


def main() -> None:
    """Print the table."""
    os.environ["NUMBA_NUM_THREADS"] = "1"
    warm_up()
    print(" " * 22 + "   cells  steps  lay out       run     a step   a cell\n" + " " * 38, end="")
    print("     [ms]      [ms]       [us]     [ns]")
    small, large = cost(0.03, 6), cost(0.012, 12)
    show("films in tables", small)
    show("films in tables", large)
    plain = cost(0.03, 6, tables=False)
    show("films called", plain)
    each = (large.step - small.step) / (large.seen.cells - small.seen.cells)
    rest = small.step - each * small.seen.cells
    print(f"a cell takes {1e9 * each:.0f} ns, the rest of a step {1e6 * rest:.0f} us")
    print(f"films called over films in tables, whole run: {plain.run / small.run:.2f}")
    peaks = [max(pour.peak for pour in each.seen.pours) for each in (small, plain)]
    print(f"their peaks differ by {abs(peaks[0] - peaks[1]):.0e} K")


if __name__ == "__main__":
    main()
