"""What the search works on: a trial pour, the bench that tries it, the wishes it keeps."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

A_LITTLE = 2.0  # K; a peak cooler by less is not worth a later start
NEAR = 10.0  # K below the limit, from where cooler is better


Item = TypeVar("Item")
Found = TypeVar("Found")


class Map(Protocol):
    """Does the same for each of several things, maybe several at a time; answers in their order."""

    def __call__(self, function: Callable[[Item], Found], items: Sequence[Item], /) -> list[Found]:
        """Call ``function``, which must be importable, with each item."""
        ...


def one_by_one(function: Callable[[Item], Found], items: Sequence[Item], /) -> list[Found]:
    """Call a function with each item, one after the other."""
    return [function(item) for item in items]


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
    """

    levels: tuple[float, ...]
    earliest: float
    starts: Starts
    compulsory: tuple[float, ...] = ()

    @property
    def top(self) -> float:
        """Level of the open face [m]."""
        return self.levels[-1]

    def above(self, level: float) -> tuple[float, ...]:
        """Levels that a pour from ``level`` may reach, ascending [m]."""
        barrier = next((item for item in sorted(self.compulsory) if item > level + 1e-9), self.top)
        return tuple(item for item in self.levels if level + 1e-9 < item <= barrier + 1e-9)

    def below(self, level: float) -> tuple[float, ...]:
        """Levels, the floor among them, from which one pour may reach ``level``, ascending [m]."""
        barrier = max((item for item in self.compulsory if item < level - 1e-9), default=0.0)
        floors = [0.0, *self.levels]
        return tuple(item for item in floors if barrier - 1e-9 <= item < level - 1e-9)


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
    """

    trial: Trial
    failed: tuple[Failure, ...]
    tried: int
    proven: bool


@dataclass(frozen=True)
class Failure:
    """What stopped a smaller number of pours.

    Parameters
    ----------
    count : int
        Number of pours.
    constraint : str
        "peak" or "bond".
    amount : float
        By how much the closest attempt failed, at least: [K] over the limit, or [s] from the end of
        a bond window to the next working hour.
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


def rank(trial: Trial) -> tuple[float, float, tuple[float, ...], tuple[float, ...]]:
    """Order of preference among complete plans with the same number of pours.

    Parameters
    ----------
    trial : Trial
        Complete.

    Returns
    -------
    tuple
        Lower is better: ready first, then farther from the limit where it is near, then started earlier.
    """
    ready = float("inf") if trial.ready is None else trial.ready
    close = max(0.0, max(trial.peaks) - trial.peak_limit + NEAR)
    return (round(ready), round(close / A_LITTLE), trial.starts, trial.levels)
