"""Our own solver on the block that all codes are given."""

from __future__ import annotations

import numpy as np

from benchmarks.bench_solver import autocatalytic
from benchmarks.rival_block import (
    FILM,
    HOURS,
    MATTER,
    RESIN,
    SEED,
    SHOP,
    WARM,
    Array,
    at_corner,
    cells,
    lines,
)
from pourwright.solver import Control, Exchange, Problem, Surfaces, run, start


def solve(spacing: float, tolerance: float) -> tuple[Array, int]:
    """Highest temperatures at the points [K] and the number of steps tried."""
    kind = cells(spacing)
    capacity, conductivity, heat = (np.ascontiguousarray(MATTER[kind, column]) for column in range(3))
    air = Exchange(FILM, SHOP)
    around = Surfaces(x_high=air, y_high=air, z_low=air, z_high=air)
    x, y, z = lines(spacing)
    problem = Problem(
        x, y, z, capacity, conductivity, heat, surfaces=around, rate=autocatalytic, parameters=RESIN
    )
    state = start(problem, np.where(kind == 2, WARM, SHOP), np.where(kind == 2, SEED, 0.0))
    outcome = run(problem, state, HOURS * 3600.0, control=Control(tolerance=tolerance))
    peaks = outcome.state.records.peak_temperature
    return at_corner(peaks, spacing), outcome.steps + outcome.rejected
