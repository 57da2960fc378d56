"""A bench without heat: pours on paper that are hotter when deeper, and cooler when later."""

from dataclasses import dataclass
from itertools import combinations

from pourwright.planner.model import Trial, Wish
from pourwright.planner.search import FIRST_POUR_WITHIN

HOUR = 3600.0


@dataclass(frozen=True)
class PaperBench:
    """Peak grows with the square of the depth, and with how lately the pour below went in.

    Parameters
    ----------
    per_depth : float
        Peak of a pour 1 deep on cold ground.
    warmth : float
        Share that a pour gains from one below that has just gone in.
    fade : float
        Time over which that share fades [s].
    gel, window, cure : float
        Time to the gel of a thin pour, length of the bond window, time to demold [s].
    limit : float
        Highest peak.
    top : float
        Level of the open face.
    """

    per_depth: float
    warmth: float
    fade: float
    gel: float
    window: float
    cure: float
    limit: float
    top: float

    def pour(self, before: Trial | None, level: float, start: float) -> Trial:
        base, levels, starts, peaks = (
            (before.level, before.levels, before.starts, before.peaks) if before else (0.0, (), (), ())
        )
        peak = self.peak(level - base, None if before is None else start - before.starts[-1])
        bonds_from = start + self.gel / (1.0 + peak)
        ready = start + self.cure / (1.0 + 0.2 * peak) if level >= self.top else None
        return Trial(
            (*levels, level),
            (*starts, start),
            (*peaks, peak),
            self.limit,
            bonds_from,
            bonds_from + self.window,
            ready,
        )

    def peak(self, depth: float, since: float | None) -> float:
        warm = 0.0 if since is None else self.warmth / (1.0 + since / self.fade)
        return self.per_depth * depth**2 * (1.0 + warm)

    def excess_on_cold_ground(self, lower: float, upper: float, *, give_up: bool = True) -> float:
        del give_up  # paper does not run away
        return self.peak(upper - lower, None) - self.limit


def all_plans(bench, wish: Wish, most: int):
    """Every plan with up to ``most`` pours, over all levels and all starts."""
    for count in range(1, most + 1):
        for inner in combinations(wish.levels[:-1], count - 1):
            yield from _all_starts(bench, wish, (*inner, wish.top), None)


def _all_starts(bench, wish, levels, before):
    done = len(before.levels) if before else 0
    if done == len(levels):
        yield before
        return
    window = (
        (before.bonds_from, before.bonds_until)
        if before
        else (wish.earliest, wish.earliest + FIRST_POUR_WITHIN)
    )
    for start in wish.starts(*window):
        trial = bench.pour(before, levels[done], start)
        if trial.excess <= 0.0:
            yield from _all_starts(bench, wish, levels, trial)
