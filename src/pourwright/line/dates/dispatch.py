"""One order after the other, each casting as early as it can: a month as thought, or many months at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.line.dates.asked import Line
from pourwright.line.dates.castings import Castings

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]
MOST = 6
"""Castings begun for a good piece; what is still missing then is later than all half days."""
BEYOND = 2**40
LOOK = 40
"""Half days that are looked at first for work that may be spread."""


@dataclass(frozen=True)
class Luck:
    """What happens in each of many months.

    Parameters
    ----------
    pace : array
        Hours of work over those thought of, shape (months,) [-].
    seed : int
        Of what is drawn for each casting; None draws nothing: every casting is as thought and comes out good.
    """

    pace: Floats
    seed: int | None = None


AS_THOUGHT = Luck(np.ones(1))


@dataclass(frozen=True)
class Dated:
    """When the pieces of an order are cast and ready, by month.

    Parameters
    ----------
    begun, out, ready : array of int
        Half day of first pour, of taking out and of the last finishing, shape (months, pieces); the number of
        half days where it is later than all of them.
    """

    begun: Ints
    out: Ints
    ready: Ints

    @property
    def last(self) -> Ints:
        """When the whole order is ready, shape (months,)."""
        return np.asarray(self.ready.max(axis=1), dtype=np.int64)


def dispatch(line: Line, turns: Sequence[int] | None = None, luck: Luck = AS_THOUGHT) -> list[Dated]:
    """Give each order its turn.

    Parameters
    ----------
    line : Line
        What is asked.
    turns : sequence of int, optional
        Order of every casting, one after another; else all of the order wanted first, then the next.
    luck : Luck
        What happens.

    Returns
    -------
    list of Dated
        By order.
    """
    if turns is None:
        turns = [at for at in line.by_need for _ in range(line.orders[at].count)]
    return _Months(line, luck).run(turns)


class _Run:
    """Castings of one product in every month, one attempt after the other."""

    def __init__(self, months: int, wanted: int) -> None:
        self.wanted = wanted
        self.begun: list[Ints] = []
        self.out: list[Ints] = []
        self.good: list[Bools] = []
        self._months = months

    @property
    def enough(self) -> Bools:
        """In which months there are as many good ones as are wanted."""
        if not self.good:
            return np.full(self._months, self.wanted == 0)
        return np.asarray(np.sum(self.good, axis=0) >= self.wanted)

    def since(self, count: int) -> Ints:
        """From when on the next casting is wanted; beyond all half days where it is not.

        As many as are wanted are begun at once; each one more once it is known that another has failed.
        """
        extra = len(self.begun) - self.wanted
        if extra < 0:
            return np.zeros(self._months, dtype=np.int64)
        failed = np.where(np.stack(self.good), BEYOND, np.stack(self.out))
        known = np.sort(failed, axis=0)[extra] + 1
        return np.asarray(np.where(known > count, BEYOND, known), dtype=np.int64)

    def add(self, begun: Ints, out: Ints, good: Bools) -> None:
        """Note a casting; where none was begun it is beyond all half days."""
        self.begun.append(begun)
        self.out.append(out)
        self.good.append(good)

    def in_order(self, count: int) -> tuple[Ints, Ints]:
        """First pours and taking out of the good ones, the first to be out first, shape (months, wanted)."""
        if not self.begun:
            return np.empty((self._months, 0), dtype=np.int64), np.empty((self._months, 0), dtype=np.int64)
        out = np.where(np.stack(self.good), np.stack(self.out), BEYOND)
        order = np.argsort(out, axis=0, kind="stable")[: self.wanted]
        both = (np.take_along_axis(each, order, axis=0).T for each in (np.stack(self.begun), out))
        begun, out = (np.minimum(each, count) for each in both)
        return begun, out


class _Months:
    """Molds and people of many months, side by side."""

    def __init__(self, line: Line, luck: Luck) -> None:
        self.line, self.luck = line, luck
        self.months = len(luck.pace)
        self.lots = None if luck.seed is None else np.random.default_rng(luck.seed)
        self.left: Floats = np.tile(line.halves.lengths * line.people, (self.months, 1))
        self.free = [np.zeros((self.months, route.molds), dtype=np.int64) for route in line.routes]

    def run(self, turns: Sequence[int]) -> list[Dated]:
        """All castings in their turn, then those that replace failed ones; then finishing."""
        products = [self.line.orders[at].product for at in turns]
        runs = [_Run(self.months, products.count(number)) for number in range(len(self.line.routes))]
        for product in products:
            self._attempt(product, runs[product])
        for product, run in enumerate(runs):
            while len(run.begun) < MOST * run.wanted and not run.enough.all():
                self._attempt(product, run)
        return self._finished(turns, runs)

    def _attempt(self, product: int, run: _Run) -> None:
        """One casting more, where one is wanted: as soon as its mold is free and its want is known."""
        since = run.since(len(self.line.halves))
        which = since <= len(self.line.halves)
        begun, out = np.full((2, self.months), BEYOND, dtype=np.int64)
        good = np.zeros(self.months, dtype=bool)
        if which.any():
            begun[which], out[which] = self._cast(product, which, since)
            good[which] = ~self._fails(product, int(which.sum()))
        run.add(begun, out, good)

    def _finished(self, turns: Sequence[int], runs: Sequence[_Run]) -> list[Dated]:
        """Good castings go to the orders in their turn, the first to be out first."""
        count = len(self.line.halves)
        everywhere = np.ones(self.months, dtype=bool)
        sorted_runs = [run.in_order(count) for run in runs]
        done = [0] * len(runs)
        pieces: list[list[tuple[Ints, Ints, Ints]]] = [[] for _ in self.line.orders]
        for at in turns:
            product = self.line.orders[at].product
            begun, out = (each[:, done[product]] for each in sorted_runs[product])
            done[product] += 1
            ready = self._work(everywhere, out + 1, self.line.routes[product].finishing)
            pieces[at].append((begun, out, ready))
        return [Dated(*(np.stack(each, axis=1) for each in zip(*of, strict=True))) for of in pieces]

    def _fails(self, product: int, count: int) -> Bools:
        if self.lots is None:
            return np.zeros(count, dtype=bool)
        return self.lots.random(count) < self.line.routes[product].scrap

    def _longer(self, product: int, count: int) -> Floats:
        if self.lots is None:
            return np.ones(count)
        return np.exp(self.lots.normal(0.0, self.line.routes[product].demold_spread, count))

    def _cast(self, product: int, which: Bools, since: Ints) -> tuple[Ints, Ints]:
        """One casting in some months: half days of its first pour and of taking out."""
        casting, route = self.line.castings[product], self.line.routes[product]
        rows = np.flatnonzero(which)
        mold = self.free[product][rows].argmin(axis=1)
        earliest = np.maximum(self.free[product][rows, mold], since[rows])
        if route.before or route.dries:
            earliest = np.maximum(earliest, self._dry(which, route.before, route.dries))
        first, slots, free = self._fit(casting, rows, earliest, self._longer(product, len(rows)))
        self.free[product][rows, mold] = free
        return first, slots[:, -1]

    def _dry(self, which: Bools, before: float, dries: float) -> Ints:
        """First half day in which what was washed is dry."""
        washed = self._work(which, np.zeros(self.months, dtype=np.int64), before)
        ends = np.append(self.line.halves.ends, np.inf)[washed]
        return np.searchsorted(self.line.halves.starts, ends + dries - 1e-9).astype(np.int64)

    def _fit(self, casting: Castings, rows: Ints, earliest: Ints, longer: Floats) -> tuple[Ints, Ints, Ints]:
        """Take the first time at which somebody is there for every step."""
        count = len(self.line.halves)
        need = casting.hours * self.luck.pace[rows, None]
        first = casting.next_possible[np.minimum(earliest, count)]
        open_ = np.arange(len(rows))
        slots = np.full((len(rows), need.shape[1]), count, dtype=np.int64)
        free = np.full(len(rows), count, dtype=np.int64)
        while len(open_ := open_[first[open_] < count]):
            slots[open_], free[open_], _ = casting.begun(first[open_], longer[open_])
            fits = self._fits(rows[open_], slots[open_], need[open_])
            first[open_[~fits]] = casting.next_possible[first[open_[~fits]] + 1]
            open_ = open_[~fits]
        slots[first >= count], free[first >= count] = count, count
        self._take(rows, slots, need)
        return first, slots, free

    def _fits(self, rows: Ints, slots: Ints, need: Floats) -> Bools:
        inside = slots < self.left.shape[1]
        left = np.where(inside, self.left[rows[:, None], np.where(inside, slots, 0)], np.inf)
        together = slots[:, :, None] == slots[:, None, :]
        wanted = (together * need[:, None, :]).sum(axis=2)
        # hours that run longer than thought are worked late: half a day always takes one step
        wanted = np.minimum(wanted, self.line.halves.lengths.min())
        return np.asarray((np.maximum(left, 0.0) >= wanted - 1e-9).all(axis=1))

    def _take(self, rows: Ints, slots: Ints, need: Floats) -> None:
        inside = slots < self.left.shape[1]
        each = np.broadcast_to(rows[:, None], slots.shape)
        np.subtract.at(self.left, (each[inside], slots[inside]), need[inside])

    def _work(self, which: Bools, since: Ints, hours: float) -> Ints:
        """Spread hours over the time that is left from a half day on; the half day in which they end."""
        rows, count = np.flatnonzero(which), len(self.line.halves)
        wanted = hours * self.luck.pace[rows]
        if not hours or not len(rows):
            return np.minimum(np.maximum(since[rows] - 1, 0), count)
        first, last = int(since[rows].min(initial=count)), 0
        # most work is done soon: look only as far as it takes
        if first >= count:
            return np.full(len(rows), count, dtype=np.int64)
        while last < count:
            last = min(count, max(first + LOOK, 2 * last - first))
            total = self._spread(rows, since[rows, None], wanted, (first, last))
            if (total[:, -1] >= wanted - 1e-9).all():
                break
        self.left[rows, first:last] -= np.diff(total, axis=1, prepend=0.0)
        enough = total >= wanted[:, None] - 1e-9
        return np.asarray(np.where(enough.any(axis=1), first + enough.argmax(axis=1), count), dtype=np.int64)

    def _spread(self, rows: Ints, since: Ints, wanted: Floats, span: tuple[int, int]) -> Floats:
        """Hours that are done by the end of each half day of a span."""
        first, last = span
        left = np.maximum(self.left[rows, first:last], 0.0)
        usable = np.where(np.arange(first, last) >= since, left, 0.0)
        return np.asarray(np.minimum(np.cumsum(usable, axis=1), wanted[:, None]))
