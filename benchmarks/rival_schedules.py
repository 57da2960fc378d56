"""Other ways to a job shop's end: HiGHS with a choice for each pair of operations, and OR-Tools."""

import importlib
from itertools import combinations, pairwise
from time import perf_counter
from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from benchmarks.job_shops import Jobs


class Ended(NamedTuple):
    """When all is done, no sooner than when it can be, and the time it took to say so [s]."""

    ends: float
    bound: float
    seconds: float


def in_pairs(jobs: Jobs, latest: int, seconds: float) -> Ended:
    """A beginning for each operation, a choice for each pair on a machine, switched by a large number."""
    operations = [(job, machine, time) for job, row in enumerate(jobs) for machine, time in row]
    rows: list[tuple[list[tuple[int, float]], float]] = []
    for at, (first, second) in enumerate(pairwise(operations)):
        if first[0] == second[0]:
            rows.append(([(at + 1, 1.0), (at, -1.0)], first[2]))
    end = len(operations)
    rows += [([(end, 1.0), (at, -1.0)], each[2]) for at, each in enumerate(operations)]
    columns = end + 1
    for one, other in combinations(range(len(operations)), 2):
        if operations[one][1] == operations[other][1]:
            rows.append(([(other, 1.0), (one, -1.0), (columns, latest)], operations[one][2]))
            rows.append(([(one, 1.0), (other, -1.0), (columns, -latest)], operations[other][2] - latest))
            columns += 1
    entries = [(row, column, value) for row, (terms, _) in enumerate(rows) for column, value in terms]
    at_row, at_column, values = (np.array(each) for each in zip(*entries, strict=True))
    matrix = csr_array((values.astype(float), (at_row, at_column)), shape=(len(rows), columns))
    whole = np.r_[np.zeros(end + 1), np.ones(columns - end - 1)]
    upper = np.r_[np.full(end + 1, float(latest)), np.ones(columns - end - 1)]
    begun = perf_counter()
    found = milp(
        np.eye(1, columns, end)[0],
        integrality=whole,
        bounds=Bounds(np.zeros(columns), upper),
        constraints=LinearConstraint(matrix, np.array([low for _, low in rows]), np.inf),
        options={"time_limit": seconds},
    )
    took = perf_counter() - begun
    bound = -np.inf if found.mip_dual_bound is None else float(found.mip_dual_bound)
    return Ended(np.inf if found.x is None else round(found.fun), bound, took)


def by_constraints(jobs: Jobs, latest: int, seconds: float, workers: int = 2) -> Ended:
    """OR-Tools, its constraint solver, as its own examples write a job shop."""
    model_of = importlib.import_module("ortools.sat.python.cp_model")
    model = model_of.CpModel()
    end = model.new_int_var(0, latest, "end")
    on_machine: dict[int, list[object]] = {}
    for job in jobs:
        before = None
        for machine, time in job:
            start = model.new_int_var(0, latest, "")
            on_machine.setdefault(machine, []).append(model.new_fixed_size_interval_var(start, time, ""))
            if before is not None:
                model.add(start >= before)
            before = start + time
        model.add(end >= before)
    for intervals in on_machine.values():
        model.add_no_overlap(intervals)
    model.minimize(end)
    solver = model_of.CpSolver()
    solver.parameters.max_time_in_seconds, solver.parameters.num_workers = seconds, workers
    begun = perf_counter()
    solver.solve(model)
    return Ended(solver.objective_value, solver.best_objective_bound, perf_counter() - begun)
