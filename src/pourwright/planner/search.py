"""Fewest pours, then earliest finish: a search over levels and starts.

A top that must be washed and sanded counts as much as one more pour.

It leans on three things that hold for heat: a deeper pour is hotter, the same pour on warmer
ground is hotter, and a later start finds cooler ground. What cannot become better by what has
been seen so far, with some optimism, is cut. The tests compare it with brute force.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from pourwright.planner.model import Bench, Choice, Failure, NoPlanError, Trial, Wish, rank

FIRST_POUR_WITHIN = 7 * 86400.0
LOOK_AHEAD = 14 * 86400.0
BUDGET = 30
MORE_POURS = 4
OPTIMISM = 0.5


def plan_pours(
    bench: Bench,
    wish: Wish,
    budget: int = BUDGET,
    tick: Callable[[int], None] = lambda _: None,
    more_pours: int = MORE_POURS,
    before: Choice | None = None,
) -> Choice:
    """Choose levels and starts: fewest pours, then ready first, then coolest.

    Parameters
    ----------
    bench : Bench
        Tries a pour.
    wish : Wish
        Levels, working hours, first moment.
    budget : int
        Most trials spent on any one number of pours.
    tick : callable
        Called with the number of trials so far.
    more_pours : int
        Numbers of pours tried from the least that could do.
    before : Choice, optional
        Made on this bench as it is now, with fewer bounds: nothing better than it is looked for.

    Returns
    -------
    Choice
        The chosen trial and what failed with fewer pours.

    Raises
    ------
    NoPlanError
        Where no number of pours keeps the limits.
    """
    seen = () if before is None else before.seen
    ground = _Ground(bench, wish, tick, {(trial.levels, trial.starts): trial for trial in seen})
    lowest = _lowest_levels(bench, wish)
    failed = {count: _over_limit(bench, wish, count, lowest) for count in range(1, len(lowest))}
    failed |= {} if before is None else {failure.count: failure for failure in before.failed}
    least = 0 if before is None else before.cost
    for count, sanded in _rounds(len(lowest), more_pours, wish.most_sanded):
        if count + sanded < least:
            continue
        ground.sanded = sanded
        search = _Descent(ground, lowest, count, budget)
        best = search.run()
        if best is not None:
            every = tuple(ground.seen.values())
            return Choice(best, _fewer(failed, count), ground.tried, search.finished, every)
        failed[count] = search.failure()
    raise NoPlanError(failed[max(failed)])


def _rounds(least: int, more: int, most_sanded: int) -> list[tuple[int, int]]:
    """Numbers of pours and of sanded tops, by their sum; of equal sums the one with fewer pours."""
    pairs = [(count, done) for count in range(least, least + more) for done in range(most_sanded + 1)]
    return sorted((pair for pair in pairs if pair[1] < pair[0]), key=lambda pair: (sum(pair), pair[0]))


def _fewer(failed: Mapping[int, Failure], chosen: int) -> tuple[Failure, ...]:
    """What stopped each smaller number of pours, by that number."""
    return tuple(failed[count] for count in sorted(failed) if count < chosen)


def _lowest_levels(bench: Bench, wish: Wish) -> list[float]:
    """Lowest level from which 0, 1, 2 .. more pours reach the top, on cold ground at best."""
    lowest = [wish.top]
    while True:
        floor = wish.below(lowest[-1])
        _refuse_unreachable(wish, lowest, floor)
        low, high = -1, len(floor) - 1
        # the thinnest pour that the levels allow: where that is too hot, no number of pours helps
        excess = bench.excess_on_cold_ground(floor[high], lowest[-1])
        if excess > 0.0:
            raise NoPlanError(Failure(len(lowest), "peak", excess, (floor[high], lowest[-1])))
        # halving: a deeper pour is hotter, so one level parts those that hold from those that do not
        while high - low > 1:
            middle = (low + high) // 2
            if bench.excess_on_cold_ground(floor[middle], lowest[-1]) > 0.0:
                low = middle
            else:
                high = middle
        if floor[high] <= 1e-9:
            return lowest
        lowest.append(floor[high])


def _refuse_unreachable(wish: Wish, lowest: list[float], floor: tuple[float, ...]) -> None:
    """Raise where not even the thinnest pour keeps the bounds that need no heat run."""
    if floor:
        return
    upper = lowest[-1]
    under = max((level for level in (0.0, *wish.levels) if level < upper - 1e-9), default=0.0)
    name, amount = wish.broken(under, upper) or ("border", 0.0)
    raise NoPlanError(Failure(len(lowest), name, amount, (under, upper)))


def _over_limit(bench: Bench, wish: Wish, count: int, lowest: list[float]) -> Failure:
    """Say why ``count`` pours are too few even on cold ground: the first one would have to be too deep."""
    place = (0.0, lowest[count - 1])
    border = min((level for level in wish.compulsory if level > 1e-9), default=wish.top)
    broken = wish.broken(*place)
    if broken is not None and border >= place[1]:
        return Failure(count, *broken, place)
    # where a border alone forbids so deep a pour, how hot it would be says nothing
    if border < place[1]:
        return Failure(count, "border", 0.0, (0.0, border))
    return Failure(count, "peak", bench.excess_on_cold_ground(*place, give_up=count > 1), place)


@dataclass
class _Ground:
    """Remembers every trial, so that nothing is simulated twice."""

    bench: Bench
    wish: Wish
    tick: Callable[[int], None]
    seen: dict[tuple[tuple[float, ...], tuple[float, ...]], Trial] = field(default_factory=dict)
    sanded: int = 0
    """So many tops may be sanded in this round."""

    @property
    def tried(self) -> int:
        return len(self.seen)

    def pour(self, before: Trial | None, level: float, start: float) -> Trial:
        levels, starts = (before.levels, before.starts) if before else ((), ())
        key = ((*levels, level), (*starts, start))
        if key not in self.seen:
            found = self.bench.pour(before, level, start)
            self.seen[key] = replace(found, tops_sanded=_tops_sanded(before, start))
            self.tick(len(self.seen))
        return self.seen[key]

    def starts(self, before: Trial | None) -> list[float]:
        if before is not None:
            inside = list(self.wish.starts(before.bonds_from, before.bonds_until))
            # sanding is for where nobody is there in time
            return inside or (self.sandings(before) if before.sanded < self.sanded else [])
        first = self.wish.earliest
        return sorted({first, *self.wish.starts(first, first + FIRST_POUR_WITHIN)})

    def sandings(self, before: Trial) -> list[float]:
        return list(self.wish.sandings(before.bonds_until))

    def complete(self, trial: Trial) -> bool:
        return trial.level >= self.wish.top - 1e-9

    def goes_on(self, trial: Trial, later: float = 0.0) -> bool:
        """Whether somebody is there within the bond window, were the pour ``later`` seconds later."""
        if self.complete(trial):
            return True
        if any(True for _ in self.wish.starts(trial.bonds_from + later, trial.bonds_until + later)):
            return True
        return trial.sanded < self.sanded and trial.bonds_until < float("inf")


def _tops_sanded(before: Trial | None, start: float) -> tuple[int, ...]:
    if before is None:
        return ()
    late = start > before.bonds_until
    return (*before.tops_sanded, len(before.levels) - 1) if late else before.tops_sanded


def _feasible(ground: _Ground, before: Trial | None, level: float) -> Iterator[Trial]:
    """Trials of this pour that keep its limits, by ascending start."""
    starts = ground.starts(before)
    if not starts:
        return
    # a later start finds cooler ground: if the first is cool enough, none has to be skipped
    first = 0
    if ground.pour(before, level, starts[0]).excess > 0.0:
        cool = _first_cool(ground, before, level, starts)
        if cool is None:
            return
        first = cool
    last: Trial | None = None
    for start in starts[first:]:
        # shifted by as much, the window of the start before tells without a run whether anybody is there
        if last is not None and not ground.goes_on(last, start - last.starts[-1]):
            continue
        trial = ground.pour(before, level, start)
        if trial.excess <= 0.0:
            last = trial
            if ground.goes_on(trial):
                yield trial


def _first_cool(ground: _Ground, before: Trial | None, level: float, starts: list[float]) -> int | None:
    """Index of the first start that is cool enough; a later one helps on warm ground only."""
    high = len(starts) - 1
    if before is None or ground.pour(before, level, starts[high]).excess > 0.0:
        return None
    low = 0
    while high - low > 1:
        middle = (low + high) // 2
        if ground.pour(before, level, starts[middle]).excess > 0.0:
            low = middle
        else:
            high = middle
    return high


def _place(trial: Trial) -> tuple[float, float]:
    return (trial.levels[-2] if len(trial.levels) > 1 else 0.0, trial.level)


class _Descent:
    """Depth first over levels and starts for one number of pours, cut where nothing better can come."""

    def __init__(self, ground: _Ground, lowest: list[float], count: int, budget: int) -> None:
        self.ground = ground
        self.count = count
        self.least = [(*lowest, *[0.0] * count)[count - done] for done in range(1, count + 1)]
        self.most = self._highest()
        self.last_trial = ground.tried + budget
        self.best: Trial | None = None
        self.gap = self.cure = float("inf")

    def _highest(self) -> list[float]:
        """Leave at least one level for each pour that follows."""
        levels = self.ground.wish.levels
        return [levels[max(0, len(levels) - 1 - (self.count - done))] for done in range(1, self.count + 1)]

    @property
    def finished(self) -> bool:
        return self.ground.tried < self.last_trial

    def run(self) -> Trial | None:
        """Try every level at its first start, then every start."""
        # first a plan at all, soon; it is what the second, longer round is cut by
        for each_start in (False, True):
            self._descend(None, each_start=each_start)
            if self.count == 1:
                break
        return self.best

    def failure(self) -> Failure:
        """Closest attempt with this number of pours: a window nobody is there for, else too much heat."""
        tried = [trial for trial in self.ground.seen.values() if len(trial.levels) <= self.count]
        missed = [trial for trial in tried if trial.excess <= 0.0 and not self.ground.goes_on(trial)]
        if missed:
            wait, place = min((self._wait(trial), _place(trial)) for trial in missed)
            return Failure(self.count, "bond", wait, place)
        hot = [(trial.excess, _place(trial)) for trial in tried if trial.excess > 0.0]
        excess, place = min(hot, default=(0.0, (0.0, self.ground.wish.top)))
        return Failure(self.count, "peak", excess, place)

    def _wait(self, trial: Trial) -> float:
        until = min(trial.bonds_until, trial.bonds_from + LOOK_AHEAD)
        # a top that never gels waits for ever
        if until == float("inf"):
            return LOOK_AHEAD
        return next(self.ground.wish.starts(until, until + LOOK_AHEAD), until + LOOK_AHEAD) - until

    def _levels(self, before: Trial | None, done: int) -> list[float]:
        base = before.level if before else 0.0
        low, high = self.least[done], self.most[done]
        share = base + (self.ground.wish.top - base) / (self.count - done)
        # even shares first: mostly the coolest, and a good first plan cuts the most
        middle = min(max(share, low), high)
        inside = [level for level in self.ground.wish.above(base) if low - 1e-9 <= level <= high + 1e-9]
        return sorted(inside, key=lambda level: abs(level - middle))

    def _descend(self, before: Trial | None, *, each_start: bool) -> None:
        done, too_hot = len(before.levels) if before else 0, float("inf")
        for level in self._levels(before, done):
            if not self.finished:
                return
            if level < too_hot and not self._visit(before, level, done + 1, each_start=each_start):
                # a higher level is hotter still, so only lower ones are tried from now on
                too_hot = level

    def _visit(self, before: Trial | None, level: float, done: int, *, each_start: bool) -> bool:
        """Go on from this level; False where the pour is too hot at every start."""
        for trial in _feasible(self.ground, before, level):
            self._go_on(trial, done, each_start=each_start)
            # the last pour is never ready earlier for being poured later
            if not each_start or done == self.count or not self.finished or self._hopeless(trial):
                break
        else:
            return not self._always_hot(before, level)
        return True

    def _always_hot(self, before: Trial | None, level: float) -> bool:
        starts = self.ground.starts(before)
        return bool(starts) and self.ground.pour(before, level, starts[-1 if before else 0]).excess > 0.0

    def _go_on(self, trial: Trial, done: int, *, each_start: bool) -> None:
        if done == self.count:
            self._offer(trial)
            return
        self.gap = min(self.gap, trial.bonds_from - trial.starts[-1])
        if not self._hopeless(trial):
            self._descend(trial, each_start=each_start)

    def _offer(self, trial: Trial) -> None:
        if trial.ready is not None:
            self.cure = min(self.cure, trial.ready - trial.starts[-1])
        if self.best is None or rank(trial) < rank(self.best):
            self.best = trial

    def _hopeless(self, trial: Trial) -> bool:
        """Even with gaps and cure half as long as any seen so far it would not be ready earlier."""
        if self.best is None or self.best.ready is None:
            return False
        following = next(iter(self.ground.starts(trial)), None)
        if following is None:
            return True
        more = self.count - len(trial.levels) - 1
        return following + OPTIMISM * (more * self.gap + self.cure) >= self.best.ready
