"""The least lateness by integer program: a variable for every slot in which work may begin."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from pourwright.line.scheduling.tasks import Activity, Floats, Problem, Use

EARLY = 1e-4
"""A unit late for a day outweighs all that can be gained by doing others earlier."""
INFEASIBLE = 2


@dataclass(frozen=True, slots=True)
class Begun:
    """So many units of an activity begun in a slot."""

    activity: int
    slot: int
    count: float


@dataclass(frozen=True)
class Solved:
    """What the program found.

    Parameters
    ----------
    begun : tuple of Begun
        Empty where nothing was found.
    cost : float
        Late units summed over slots, and a little for each slot that a unit is not done; infinite where
        nothing was found.
    bound : float
        No schedule costs less; infinite where there is none at all.
    """

    begun: tuple[Begun, ...]
    cost: float
    bound: float

    @property
    def proven(self) -> bool:
        """Whether nothing better exists."""
        return self.cost <= self.bound + 1e-6 * max(1.0, abs(self.bound))

    @property
    def impossible(self) -> bool:
        """Whether it is proven that no schedule exists."""
        return np.isinf(self.bound) and self.bound > 0


def solve(problem: Problem, *, early: float = EARLY, seconds: float = 60.0, nodes: int = 5_000) -> Solved:
    """Find the schedule with the least lateness.

    Parameters
    ----------
    problem : Problem
        Work and resources.
    early : float
        Worth of a unit done one slot earlier, against one late for a slot; 0: any schedule in time will do.
    seconds : float
        Limit of time [s].
    nodes : int
        Limit of the search, the same on every machine.

    Returns
    -------
    Solved

    Notes
    -----
    Time-indexed: ``x[a, t]`` units of activity a begin in slot t, counts instead of one variable a piece, so
    that equal pieces are not told apart. Cumulated counts carry links and due dates. Solved by HiGHS;
    proven on a job shop of 6 x 6 [fisher-thompson-1963].
    """
    if any(not each.places for each in problem.activities):
        return Solved((), np.inf, np.inf)
    program = _Program(problem, early)
    found = milp(
        np.array(program.costs),
        integrality=np.array(program.whole),
        bounds=Bounds(np.zeros(len(program.costs)), np.array(program.upper)),
        constraints=program.constraint(),
        options={"time_limit": seconds, "node_limit": nodes, "mip_rel_gap": 1e-6},
    )
    if found.status == INFEASIBLE:
        return Solved((), np.inf, np.inf)
    bound = float(found.mip_dual_bound) if found.mip_dual_bound is not None else -np.inf
    if found.x is None:
        return Solved((), np.inf, bound)
    return Solved(tuple(program.read(found.x)), float(found.fun), bound)


@dataclass
class _Program:
    """Columns and rows of the program, as they are written."""

    problem: Problem
    early: float
    costs: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    entries: list[tuple[int, int, float]] = field(default_factory=list)
    limits: list[tuple[float, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.starts = [self._starts(each) for each in self.problem.activities]
        self._counts()
        done = [self._done(at, each) for at, each in enumerate(self.problem.activities)]
        for at, activity in enumerate(self.problem.activities):
            self._due(activity, done[at])
        for link in self.problem.links:
            self._link(link.before, link.after, done[link.before])
        self._resources()

    def _column(self, cost: float = 0.0, upper: float = np.inf, *, whole: bool = False) -> int:
        self.costs.append(cost)
        self.upper.append(upper)
        self.whole.append(int(whole))
        return len(self.costs) - 1

    def _row(self, terms: Sequence[tuple[int, float]], low: float, high: float) -> None:
        row = len(self.limits)
        self.entries += [(row, column, value) for column, value in terms]
        self.limits.append((low, high))

    def _starts(self, activity: Activity) -> dict[int, int]:
        return {
            slot: self._column(self.early * place.done, activity.count, whole=activity.whole)
            for slot, place in activity.places.items()
        }

    def _counts(self) -> None:
        for activity, columns in zip(self.problem.activities, self.starts, strict=True):
            self._row([(column, 1.0) for column in columns.values()], activity.count, activity.count)

    def _running(self, by_slot: dict[int, list[int]], upper: float) -> list[int]:
        """Columns of a sum that grows from slot to slot."""
        columns: list[int] = []
        for slot in range(self.problem.slots + 1):
            columns.append(self._column(upper=upper))
            terms = [(columns[slot], 1.0), *((column, -1.0) for column in by_slot.get(slot, ()))]
            self._row(terms + ([(columns[slot - 1], -1.0)] if slot else []), 0.0, 0.0)
        return columns

    def _done(self, at: int, activity: Activity) -> list[int]:
        """Units that are done when a slot begins; only where somebody asks."""
        if not activity.due and all(link.before != at for link in self.problem.links):
            return []
        ends: dict[int, list[int]] = {}
        for slot, column in self.starts[at].items():
            ends.setdefault(activity.places[slot].done, []).append(column)
        return self._running(ends, activity.count)

    def _due(self, activity: Activity, done: list[int]) -> None:
        for number, (slot, wanted) in enumerate(activity.due):
            last = activity.due[number + 1][0] if number + 1 < len(activity.due) else self.problem.slots + 1
            for each in range(slot, last):
                late = self._column(1.0, activity.count)
                self._row([(late, 1.0), (done[each], 1.0)], wanted, np.inf)

    def _link(self, before: int, after: int, done: list[int]) -> None:
        first, second = self.problem.activities[before].count, self.problem.activities[after].count
        begins = self._running({slot: [column] for slot, column in self.starts[after].items()}, second)
        for slot in range(self.problem.slots + 1):
            self._row([(done[slot], 1.0 / first), (begins[slot], -1.0 / second)], 0.0, np.inf)

    def _resources(self) -> None:
        # a full row for every slot: seven times faster to solve than levels carried from slot to slot
        rows: dict[tuple[int, int], list[tuple[int, float]]] = {}
        for column, use in self._uses():
            for slot in range(use.first, min(use.last, self.problem.slots)):
                rows.setdefault((use.resource, slot), []).append((column, use.amount))
        for (resource, slot), terms in rows.items():
            self._row(terms, -np.inf, float(self.problem.capacity[resource, slot]))

    def _uses(self) -> Iterator[tuple[int, Use]]:
        for activity, columns in zip(self.problem.activities, self.starts, strict=True):
            for slot, column in columns.items():
                for use in activity.places[slot].uses:
                    yield column, use

    def constraint(self) -> LinearConstraint:
        """All rows."""
        rows, columns, values = (np.array(each) for each in zip(*self.entries, strict=True))
        shape = (len(self.limits), len(self.costs))
        low, high = np.array(self.limits).T
        return LinearConstraint(csr_array((values, (rows, columns)), shape=shape), low, high)

    def read(self, values: Floats) -> Iterator[Begun]:
        """What begins when."""
        for at, columns in enumerate(self.starts):
            for slot, column in sorted(columns.items()):
                count = float(values[column])
                if self.problem.activities[at].whole:
                    count = float(round(count))
                if count > 1e-7:
                    yield Begun(at, slot, count)
