"""What the search works on: a trial pour, the bench that tries it, the wishes it keeps."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import islice
from typing import Protocol

HOUR, DAY = 3600.0, 86400.0
SAND_WITHIN = 14 * DAY
A_LITTLE = 2.0  # K; a peak cooler by less is not worth a later start
NEAR = 10.0  # K below the limit, from where cooler is better


@dataclass(frozen=True)
class Trial:
    """A sequence of pours that was tried, up to and including the last of ``levels``.

    Times are seconds from the plan's zero, temperatures K, levels m from the mold's floor.
    """

    levels: tuple[float, ...]
    starts: tuple[float, ...]
    peaks: tuple[float, ...]
    peak_limit: float
    bonds_from: float
    bonds_until: float
    ready: float | None
    tops_sanded: tuple[int, ...] = ()
    """Pours, counted from 0, whose top bonds no more when the next one goes on: it is washed and sanded."""

    @property
    def sanded(self) -> int:
        """Number of tops that are sanded."""
        return len(self.tops_sanded)

    @property
    def level(self) -> float:
        """Level reached by the last pour [m]; 0 before the first."""
        return self.levels[-1] if self.levels else 0.0

    @property
    def excess(self) -> float:
        """How far the last pour goes over its limit [K]; negative where it keeps it."""
        return self.peaks[-1] - self.peak_limit


class Bench(Protocol):
    """Tries one more pour on top of what was poured."""

    def pour(self, before: Trial | None, level: float, start: float) -> Trial:
        """Return the trial of pouring up to ``level`` [m] at ``start`` [s]."""
        ...

    def excess_on_cold_ground(self, lower: float, upper: float, *, give_up: bool = True) -> float:
        """How far a pour between two levels goes over its limit [K] where all below is cold and cured.

        With ``give_up`` at least so far: a run-away need not be followed to its peak.
        """
        ...


Starts = Callable[[float, float], Iterator[float]]
"""Moments [s] at which a pour may start between two moments, ascending."""


class Bound(Protocol):
    """A limit on one pour that needs no heat run, such as the head of liquid on a seam."""

    @property
    def name(self) -> str:
        """What fails where it is broken; a key of `Failure.constraint`."""
        ...

    def excess(self, lower: float, upper: float) -> float:
        """By how much a pour between two levels [m] breaks it, in its own unit; not above 0 where kept.

        A deeper pour never breaks it by less.
        """
        ...


@dataclass(frozen=True)
class Refuted:
    """A pour that goes over the limit too often, and any that holds it.

    Parameters
    ----------
    lower, upper : float
        Its levels [m].
    over : float
        Share of castings in which it does, beyond what may [-].
    """

    lower: float
    upper: float
    over: float
    name: str = "chance"

    def excess(self, lower: float, upper: float) -> float:
        """Share of castings too many [-]; 0 for a pour that does not hold this one."""
        holds = lower <= self.lower + 1e-9 and upper >= self.upper - 1e-9
        return self.over if holds else 0.0


@dataclass(frozen=True)
class Wish:
    """What is to be planned.

    Parameters
    ----------
    levels : tuple of float
        Levels at which a pour may end [m], ascending; the last is the top.
    earliest : float
        First moment of the plan [s].
    starts : Starts
        Working hours.
    compulsory : tuple of float
        Levels that no pour may run through [m].
    bounds : tuple of Bound
        Limits on each pour besides its heat.
    most_sanded : int
        So many pours may go on where the one below bonds no more, once that is washed and sanded.
    sand_after : float
        When a top can be sanded, after it bonds no more [s].
    """

    levels: tuple[float, ...]
    earliest: float
    starts: Starts
    compulsory: tuple[float, ...] = ()
    bounds: tuple[Bound, ...] = ()
    most_sanded: int = 0
    sand_after: float = 0.0
    _known: dict[tuple[float, float], tuple[str, float] | None] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )

    @property
    def top(self) -> float:
        """Level of the open face [m]."""
        return self.levels[-1]

    def above(self, level: float) -> tuple[float, ...]:
        """Levels that a pour from ``level`` may reach, ascending [m]."""
        barrier = next((item for item in sorted(self.compulsory) if item > level + 1e-9), self.top)
        inside = (item for item in self.levels if level + 1e-9 < item <= barrier + 1e-9)
        return tuple(item for item in inside if self.broken(level, item) is None)

    def below(self, level: float) -> tuple[float, ...]:
        """Levels, the floor among them, from which one pour may reach ``level``, ascending [m]."""
        barrier = max((item for item in self.compulsory if item < level - 1e-9), default=0.0)
        inside = (item for item in (0.0, *self.levels) if barrier - 1e-9 <= item < level - 1e-9)
        return tuple(item for item in inside if self.broken(item, level) is None)

    def broken(self, lower: float, upper: float) -> tuple[str, float] | None:
        """Name the bound that a pour between two levels breaks most, and by how much, if any."""
        pour = (lower, upper)
        if pour not in self._known:
            found = [(bound.name, bound.excess(lower, upper)) for bound in self.bounds]
            passed = (each for each in found if each[1] > 0.0)
            self._known[pour] = max(passed, key=lambda each: each[1], default=None)
        return self._known[pour]

    def sandings(self, bonds_until: float) -> Iterator[float]:
        """Moments at which the next pour may go onto a top that was washed and sanded [s]."""
        if bonds_until < float("inf"):
            first = bonds_until + self.sand_after
            # somebody is there to sand it, and pours an hour later or when the shop opens again
            there = next(self.starts(first, first + SAND_WITHIN), None)
            begun = None if there is None else next(self.starts(there + HOUR, there + SAND_WITHIN), None)
            if begun is not None:
                yield begun
                # one start a day is enough: what is waited for now is only that the ground cools
                yield from islice(self.starts(begun + DAY, begun + 2 * DAY), 1)


@dataclass(frozen=True)
class Choice:
    """The plan that was chosen, and what was seen on the way.

    Parameters
    ----------
    trial : Trial
        Levels, starts and peaks of the chosen pours.
    failed : tuple of Failure
        For each smaller number of pours, what stopped it.
    tried : int
        Number of pours simulated.
    proven : bool
        Whether the search ended by itself; False where its budget did.
    seen : tuple of Trial
        All that was tried.
    """

    trial: Trial
    failed: tuple[Failure, ...]
    tried: int
    proven: bool
    seen: tuple[Trial, ...] = ()

    @property
    def cost(self) -> int:
        """Pours, and tops that are sanded."""
        return len(self.trial.levels) + self.trial.sanded


@dataclass(frozen=True)
class Failure:
    """What stopped a smaller number of pours.

    Parameters
    ----------
    count : int
        Number of pours.
    constraint : str
        "peak", "bond", "border", or the name of a `Bound`.
    amount : float
        By how much the closest attempt failed, at least: [K] over the limit, [s] from the end of
        a bond window to the next working hour, or in the unit of the bound.
    place : tuple of float
        Levels of the pour that failed [m].
    """

    count: int
    constraint: str
    amount: float
    place: tuple[float, float]


class NoPlanError(Exception):
    """No plan keeps all limits.

    Parameters
    ----------
    failure : Failure
        Of the largest number of pours that was tried.
    """

    def __init__(self, failure: Failure) -> None:
        super().__init__(failure.constraint)
        self.failure = failure


def rank(trial: Trial) -> tuple[int, float, float, tuple[float, ...], tuple[float, ...]]:
    """Order of preference among complete plans with the same number of pours.

    Parameters
    ----------
    trial : Trial
        Complete.

    Returns
    -------
    tuple
        Lower is better: fewest tops sanded, then ready first, then farther from the limit where it
        is near, then started earlier.
    """
    ready = float("inf") if trial.ready is None else trial.ready
    close = max(0.0, max(trial.peaks) - trial.peak_limit + NEAR)
    return (trial.sanded, round(ready), round(close / A_LITTLE), trial.starts, trial.levels)
