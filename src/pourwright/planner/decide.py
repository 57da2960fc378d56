"""Decide a plan: search on a coarse grid, prove it on finer ones, weigh its chances, search again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Protocol, cast

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.progress import SILENT, Progress
from pourwright.planner.bench import CoarseBench, Correction
from pourwright.planner.chances import Chances, apart, weigh
from pourwright.planner.compare import Looked, comparisons, looks_of, weighed
from pourwright.planner.grid_error import grid_error
from pourwright.planner.grids import layers_of
from pourwright.planner.hot import envelope, hot_directions
from pourwright.planner.model import Choice, Failure, NoPlanError, Refuted, Trial
from pourwright.planner.request import Request, Search, search
from pourwright.pour.follow import NEVER, Followed
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, PourSeen, Rehearsal, rehearse
from pourwright.pour.site import Site
from pourwright.pour.snapshots import Recorder
from pourwright.pour.store import Map, in_turn

Array = NDArray[np.float64]
ROUNDS = 6
SLACK = 0.25
MARGIN = 0.01
LATEST = 10.0
LONGEST = 14 * 86400.0
"""No wait is told longer [s]."""
CHANCE_ROUNDS = 6
AGAIN = 15
"""Trials of a number of pours where most were tried before."""
CHANCE_SLACK = 0.01
"""Above the share that may go over the limit, so much is left to how it is counted [-]."""
SEARCHING, PROVING, WEIGHING = (
    "searching for the fewest pours",
    "heat and cure on finer grids",
    "how sure it is",
)


@dataclass(frozen=True)
class Decision:
    """A plan that keeps its limits on the final grid.

    Parameters
    ----------
    request : Request
        The one that was chosen, of those asked.
    option : int
        Its place among them.
    choice : Choice
        What the search found, and what failed with fewer pours.
    final, coarser : Rehearsal
        The plan at the asked spacing and at twice that.
    hot : Rehearsal
        The plan with the hot casting, at twice the spacing; ``coarser`` where nothing is in doubt.
    chances : Chances or None
        None where nothing is in doubt.
    looked : tuple of Looked
        Other plans.
    """

    request: Request
    option: int
    choice: Choice
    final: Rehearsal
    coarser: Rehearsal
    hot: Rehearsal
    chances: Chances | None = None
    looked: tuple[Looked, ...] = ()

    @property
    def grid_errors(self) -> tuple[float, ...]:
        """Error of each pour's peak by the grid [K], as nine of ten random castings keep it."""
        pairs = zip(self.final.pours, self.coarser.pours, strict=True)
        error = grid_error(self.final.spacing)
        return tuple(
            error.peak(fine.peak - fine.poured_at, fine.peak - coarse.peak) for fine, coarse in pairs
        )

    @property
    def time_error(self) -> float:
        """Error of the times of gel, bond and demolding by the grid, over the time [-]."""
        return grid_error(self.final.spacing).times.value


def decide(
    request: Request,
    progress: Progress = SILENT,
    *,
    options: Sequence[Request] = (),
    what_if: Sequence[Request] = (),
    each: Map = in_turn,
) -> Decision:
    """Find the plan with fewest pours, then earliest finish, that keeps all limits.

    Parameters
    ----------
    request : Request
        Site, hours, limits.
    progress : Progress
        May raise Cancelled.
    options : sequence of Request
        Others that may be chosen instead: another mix, shop or resin.
    what_if : sequence of Request
        Others that are only looked at.
    each : Map
        Does the heat runs, maybe several at a time.

    Returns
    -------
    Decision
        Proven on the final grid, and at the request's probability by an ensemble.

    Raises
    ------
    NoPlanError
        Where no plan keeps all limits.
    """
    progress.step(SEARCHING, 0, 1)
    asked = (request, *options)
    ways = [_ways(one, each) for one in asked]
    mains = [Search(one, one.hot(envelope(way))) for one, way in zip(asked, ways, strict=True)]
    others = comparisons(
        request, ways[0], [(one, _ways_like(request, ways[0], one, each)) for one in what_if]
    )
    found = each(search, [*mains, *others])
    looks = looks_of(others, found[len(mains) :], len(what_if), ways[0])
    failed: NoPlanError | None = None
    for chosen, choice in _by_cost(found[: len(mains)]):
        if chosen:
            looks = _about(asked[chosen], ways[chosen], looks, each)
        try:
            decision = _Proof(asked[chosen], looks, progress, each).prove(mains[chosen], choice)
        except NoPlanError as error:
            failed = failed or error
            continue
        return replace(decision, option=chosen)
    raise failed or NoPlanError(cast("Failure", found[0]))


def _ways_like(request: Request, ways: tuple[Array, ...], other: Request, each: Map) -> tuple[Array, ...]:
    """The directions of another request; the same where resin and beds are."""
    same = other.site.resin == request.site.resin and other.site.beds == request.site.beds
    return ways if same else _ways(other, each)


def _about(request: Request, ways: tuple[Array, ...], looks: Sequence[Looked], each: Map) -> list[Looked]:
    """Other chances of the option that was chosen, beside the changes that were asked for."""
    others = comparisons(request, ways, ())
    own = looks_of(others, each(search, others), 0, ways)
    return [*own, *(look for look in looks if look.changed is not None)]


def find(request: Request, each: Map = in_turn) -> Choice:
    """Search on the coarse grid only and not far: whether there is a plan at all.

    Parameters
    ----------
    request : Request
        Site, hours, limits.
    each : Map
        Does the heat runs.

    Returns
    -------
    Choice
        Not yet proven on a finer grid.

    Raises
    ------
    NoPlanError
        Where none was found.
    """
    found = each(search, [Search(request, request.hot(envelope(_ways(request, each))), more_pours=2)])[0]
    if isinstance(found, Failure):
        raise NoPlanError(found)
    return found


def _ways(request: Request, each: Map) -> tuple[Array, ...]:
    if request.doubt is None:
        return (np.zeros(0),)
    return hot_directions(request.doubt, request.wish, request.peak_limit, each)


def _by_cost(found: Sequence[Choice | Failure]) -> list[tuple[int, Choice]]:
    """Those that get hard at all first, then the fewest pours and sanded tops, then those ready first."""
    plans = [(number, one) for number, one in enumerate(found) if isinstance(one, Choice)]
    return sorted(plans, key=lambda plan: _cost(plan[1]))


def _cost(choice: Choice) -> tuple[bool, int, int, float]:
    trial = choice.trial
    ready = NEVER if trial.ready is None else trial.ready
    return trial.ready is None, choice.cost, len(trial.levels), ready


@dataclass(frozen=True)
class Rehearsing:
    """One plan on one grid, for a map over processes.

    Parameters
    ----------
    site : Site
        The casting.
    plan : tuple of Planned
        Its pours.
    spacing : float
        Widest cell [m].
    record : bool
        Whether snapshots are kept for pictures.
    """

    site: Site
    plan: tuple[Planned, ...]
    spacing: float
    record: bool = False

    def run(self) -> Rehearsal:
        """Rehearse the plan."""
        levels = [pour.level for pour in self.plan]
        layout = lay_out(self.site, self.spacing, levels, layers=layers_of(levels, self.site.block))
        return rehearse(layout, self.plan, recorder=Recorder(layout) if self.record else None)


class Task(Protocol):
    """A piece of work that any process can do."""

    def run(self) -> Any:
        """Do it."""
        ...


def perform(task: Task) -> Any:
    """Do one piece of work; for a map over processes.

    Parameters
    ----------
    task : Task
        What is to be done.

    Returns
    -------
    object
        What comes of it.
    """
    return task.run()


@dataclass
class _Proof:
    """Proves a plan on finer grids and by an ensemble; searches again where it does not hold."""

    request: Request
    looks: Sequence[Looked]
    progress: Progress
    each: Map

    def prove(self, task: Search, choice: Choice) -> Decision:
        """Alternate between finer grids and chances, the cheap ones first, until both are kept."""
        allowed = 1.0 - self.request.probability
        failure = Failure(len(choice.trial.levels), "peak", 0.0, (0.0, choice.trial.level))
        for _ in range(CHANCE_ROUNDS):
            task, choice, runs = self._on_coarser_grid(task, choice)
            chances = self._weigh(choice, runs[0])
            if chances is not None and chances.any_over > allowed + CHANCE_SLACK:
                failure = replace(failure, constraint="chance", amount=chances.any_over - allowed)
                task = _refuting(task, choice, chances, allowed)
                choice = self._search(task)
                continue
            final = self._final(choice)
            if _keeps(final, runs[-1], choice.trial, self.request):
                finer = self._finer(chances, final)
                return Decision(self.request, 0, choice, final, runs[0], runs[-1], finer, tuple(self.looks))
            failure = _worst(choice, final, runs[-1], self.request)
            task = _learned(task, choice.trial, final, runs[-1])
            choice = self._search(task)
        raise NoPlanError(failure)

    def _on_coarser_grid(self, task: Search, choice: Choice) -> tuple[Search, Choice, list[Rehearsal]]:
        """Search again until a plan keeps its limits at twice the spacing, as it is likely and when hot."""
        site = self.request.site
        for _ in range(ROUNDS):
            plan = _planned(choice)
            sites = [site] if task.hot is None else [site, task.hot]
            self.progress.step(PROVING, 0, 2)
            runs = self.each(perform, [Rehearsing(one, plan, 2 * self.request.spacing) for one in sites])
            if _keeps(runs[0], runs[-1], choice.trial, self.request):
                return task, choice, runs
            task = _learned(task, choice.trial, runs[0], runs[-1])
            choice = self._search(task)
        raise NoPlanError(_worst(choice, runs[0], runs[-1], self.request))

    def _final(self, choice: Choice) -> Rehearsal:
        """The plan on the final grid, and beside it how far the other plans are from the limit."""
        self.progress.step(PROVING, 1, 2)
        task = Rehearsing(self.request.site, _planned(choice), self.request.spacing, record=True)
        ways = [look.way for look in self.looks if look.way is not None]
        work: list[Task] = [task, *ways]
        final, *shares = self.each(perform, work)
        self.looks = weighed(self.looks, shares)
        return cast("Rehearsal", final)

    def _finer(self, chances: Chances | None, final: Rehearsal) -> Chances | None:
        """The chances, with the likely peaks where the final grid has them."""
        if chances is None:
            return None
        return replace(chances, finer=apart([pour.peak for pour in final.pours], chances.likely))

    def _search(self, task: Search) -> Choice:
        self.progress.step(SEARCHING, 0, 1)
        found = self.each(search, [task])[0]
        if isinstance(found, Failure):
            raise NoPlanError(found)
        return found

    def _weigh(self, choice: Choice, likely: Rehearsal) -> Chances | None:
        asked, trial = self.request, choice.trial
        if asked.doubt is None:
            return None
        self.progress.step(WEIGHING, 0, 1)
        plan = list(zip(trial.levels, trial.starts, strict=True))
        peaks = [pour.peak for pour in likely.pours]
        return weigh(
            asked.doubt, plan, asked.hours, asked.peak_limit, peaks=peaks, seed=asked.seed, each=self.each
        )


def _planned(choice: Choice) -> tuple[Planned, ...]:
    return tuple(map(Planned, choice.trial.levels, choice.trial.starts))


def _worst(choice: Choice, seen: Rehearsal, hot: Rehearsal, asked: Request) -> Failure:
    """What fails most: heat before bonds, since their amounts have different units."""
    broken = [found for found in _violations(seen, hot, choice.trial, asked) if found[1] > 0.0]
    kinds = [name for name in ("peak", "box", "bond") if any(one[0] == name for one in broken)]
    amount = max(one[1] for one in broken if one[0] == kinds[0])
    place = (0.0, choice.trial.level)
    return Failure(len(choice.trial.levels), kinds[0], min(amount, LONGEST), place)


def _keeps(seen: Rehearsal, hot: Rehearsal, trial: Trial, asked: Request) -> bool:
    return all(amount <= 0.0 for _, amount in _violations(seen, hot, trial, asked))


def _violations(seen: Rehearsal, hot: Rehearsal, trial: Trial, asked: Request) -> Iterator[tuple[str, float]]:
    """Constraint and by how much it is broken; not above 0 where it is kept."""
    for likely, unlikely in zip(seen.pours, hot.pours, strict=False):
        yield "peak", max(likely.peak, unlikely.peak) - asked.peak_limit
        yield "box", max(likely.box_peak, unlikely.box_peak) - asked.box_limit
    for number, (below, above) in enumerate(zip(seen.pours, seen.pours[1:], strict=False)):
        yield "bond", below.bonds_from - above.start
        if number not in trial.tops_sanded:
            yield "bond", above.start - below.bonds_until


def _refuting(task: Search, choice: Choice, chances: Chances, allowed: float) -> Search:
    """The same search without the pour that goes over most often, and what it has learned already."""
    levels = (0.0, *choice.trial.levels)
    worst = max(range(len(levels) - 1), key=chances.over_limit)
    over = max(chances.over_limit(worst), chances.any_over) - allowed
    refuted = Refuted(levels[worst], levels[worst + 1], over)
    bounds = (*task.request.bounds, refuted)
    request = replace(task.request, bounds=bounds, budget=min(task.request.budget, AGAIN))
    return replace(task, request=request, before=choice)


def _learned(task: Search, trial: Trial, seen: Rehearsal, hot: Rehearsal) -> Search:
    """What the coarse grid missed in this plan and must not miss again, and a little more."""
    likely, unlikely = task.benches()
    broken = {name: amount for name, amount in _violations(seen, hot, trial, task.request) if amount > 0.0}
    if "peak" in broken:
        unlikely.correction = _learn_peak(unlikely, trial, hot if unlikely is not likely else seen)
    if "box" in broken:
        # the search does not see the box: cooler pours are what cools it
        cooler = unlikely.correction.peak + broken["box"] + SLACK
        unlikely.correction = replace(unlikely.correction, peak=cooler)
    if "bond" in broken:
        likely.correction = _learn_bonds(likely, trial, seen)
    return replace(task, likely_correction=likely.correction, hot_correction=unlikely.correction, before=None)


def _learn_peak(bench: CoarseBench, trial: Trial, seen: Rehearsal) -> Correction:
    more = max(fine.peak - coarse.peak for fine, coarse in _pairs(bench, trial, seen)) + SLACK
    return replace(bench.correction, peak=max(more, bench.correction.peak + SLACK))


def _learn_bonds(bench: CoarseBench, trial: Trial, seen: Rehearsal) -> Correction:
    pairs = _pairs(bench, trial, seen)[:-1]
    if not pairs:
        return bench.correction
    late = max(_off(*pair, "bonds_from") for pair in pairs)
    early = min(_off(*pair, "bonds_until") for pair in pairs)
    return replace(
        bench.correction,
        bonds_from=max(late + MARGIN, bench.correction.bonds_from),
        bonds_until=min(early - MARGIN, bench.correction.bonds_until),
    )


def _pairs(bench: CoarseBench, trial: Trial, seen: Rehearsal) -> list[tuple[PourSeen, Followed]]:
    """Each pour on the finer grid, and the same on the bench."""
    before: Trial | None = None
    for level, start in zip(trial.levels, trial.starts, strict=True):
        before = bench.pour(before, level, start)
    prefixes = [(trial.levels[:n], trial.starts[:n]) for n in range(1, len(trial.levels) + 1)]
    return [(fine, bench.kept[key]) for fine, key in zip(seen.pours, prefixes, strict=False)]


def _off(fine: PourSeen, coarse: Followed, name: str) -> float:
    """How far a time of the coarse grid is off, over the time since the pour."""
    coarse_time, fine_time = (getattr(run, name) - fine.start for run in (coarse, fine))
    # a top that never comes to it on the finer grid is later than any plan waits for
    return float(min(fine_time / coarse_time - 1.0, LATEST)) if coarse_time < NEVER else 0.0
