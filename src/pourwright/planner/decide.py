"""Decide a plan: search on a coarse grid, prove it on finer ones, correct, search again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import timedelta

from pourwright.foundation.progress import SILENT, Progress
from pourwright.planner.bench import CoarseBench, Correction
from pourwright.planner.grid_error import grid_error
from pourwright.planner.grids import layers_of, search_parts
from pourwright.planner.hours import WorkingHours
from pourwright.planner.levels import candidate_levels, compulsory_levels
from pourwright.planner.model import Choice, Failure, NoPlanError, Starts, Trial, Wish
from pourwright.planner.search import BUDGET, plan_pours
from pourwright.pour.climate import Climate
from pourwright.pour.follow import NEVER, Followed
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, PourSeen, Rehearsal, rehearse
from pourwright.pour.site import Site
from pourwright.pour.snapshots import Recorder

HOUR = timedelta(hours=1)
ROUNDS = 6
SLACK = 0.25
MARGIN = 0.01
LATEST = 10.0
AT_FIRST = Correction(peak=0.5, bonds_from=0.04, bonds_until=-0.02)
"""What nine of ten coarse runs miss at most, times over the time since the pour; see record 0011."""
MONTH = 31 * 86400.0
COARSEST, FINEST = 0.025, 0.006
CELLS_ACROSS, MOST_ACROSS, CELLS = 12, 24, 8000


@dataclass(frozen=True)
class Request:
    """What is to be decided.

    Parameters
    ----------
    site : Site
        The casting, its climate's zero being the earliest first pour.
    hours : WorkingHours
        When a pour may start.
    peak_limit : float
        Hottest the casting may get [K]; the rubber's own limit is not lower.
    level_step : float
        Distance of levels [m].
    spacing : float
        Of the final run [m]; the plan is proven on twice this first.
    budget : int
        Trials per number of pours.
    """

    site: Site
    hours: WorkingHours
    peak_limit: float
    level_step: float
    spacing: float = 0.008
    budget: int = BUDGET


@dataclass(frozen=True)
class Decision:
    """A plan that keeps its limits on the final grid.

    Parameters
    ----------
    choice : Choice
        What the search found, and what failed with fewer pours.
    final, coarser : Rehearsal
        The plan at the asked spacing and at twice that.
    """

    choice: Choice
    final: Rehearsal
    coarser: Rehearsal

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


def decide(request: Request, progress: Progress = SILENT) -> Decision:
    """Find the plan with fewest pours, then earliest finish, that keeps all limits.

    Parameters
    ----------
    request : Request
        Site, hours, limits.
    progress : Progress
        May raise Cancelled.

    Returns
    -------
    Decision
        Proven on the final grid.

    Raises
    ------
    NoPlanError
        Where no plan keeps all limits.
    """
    bench, wish = _bench(request), _wish(request)
    for _ in range(ROUNDS):
        choice = plan_pours(bench, wish, request.budget, _ticker(progress))
        plan = tuple(map(Planned, choice.trial.levels, choice.trial.starts))
        coarser = _rehearse(request, plan, 2 * request.spacing, progress)
        seen = coarser
        if _keeps(coarser, request.peak_limit):
            final = _rehearse(request, plan, request.spacing, progress, record=True)
            if _keeps(final, request.peak_limit):
                return Decision(choice, final, coarser)
            seen = final
        bench.correction = _learn(bench, choice.trial, seen, request.peak_limit)
    raise NoPlanError(Failure(len(plan), *_broken(seen, request.peak_limit), (0.0, wish.top)))


def find(request: Request, progress: Progress = SILENT) -> Choice:
    """Search on the coarse grid only and not far: whether there is a plan at all.

    Parameters
    ----------
    request : Request
        Site, hours, limits.
    progress : Progress
        May raise Cancelled.

    Returns
    -------
    Choice
        Not yet proven on a finer grid.

    Raises
    ------
    NoPlanError
        Where none was found.
    """
    bench, wish = _bench(request), _wish(request)
    return plan_pours(bench, wish, request.budget, _ticker(progress), more_pours=2)


def working_starts(climate: Climate, hours: WorkingHours) -> Starts:
    """Turn working hours into starts in seconds after the climate's zero.

    Parameters
    ----------
    climate : Climate
        Carries zero and zone.
    hours : WorkingHours
        Of the shop.

    Returns
    -------
    callable
        ``starts(first, last)`` yields every full hour in which somebody is there.
    """

    def starts(first: float, last: float) -> Iterator[float]:
        if first < last < float("inf") or (first < float("inf") and last > first):
            end = min(last, first + MONTH)
            for moment in hours.starts(climate.moment(first), climate.moment(end), HOUR):
                yield climate.seconds(moment)

    return starts


def _bench(request: Request) -> CoarseBench:
    site, climate = request.site, request.site.climate
    levels = candidate_levels(site.beds, request.level_step)
    layers = layers_of(levels, site.block, search_parts(levels))
    return CoarseBench(
        lay_out(site, _coarse_spacing(site, len(levels) + len(layers)), levels, layers=layers),
        request.peak_limit,
        lambda ready: climate.seconds(request.hours.next_open(climate.moment(ready))),
        AT_FIRST,
    )


def _coarse_spacing(site: Site, layers: int) -> float:
    """Up to twelve cells across the narrower side, fewer where too many; up to 24 where they are wide."""
    width, depth = (side + 2 * site.block.board for side in site.block.inside)
    narrow = min(width, depth)
    affordable = float(width * depth * layers / CELLS) ** 0.5
    widest = max(COARSEST, narrow / MOST_ACROSS)
    return float(min(widest, max(FINEST, affordable, narrow / CELLS_ACROSS)))


def _wish(request: Request) -> Wish:
    site = request.site
    levels = candidate_levels(site.beds, request.level_step)
    return Wish(levels, 0.0, working_starts(site.climate, request.hours), compulsory_levels(site.beds))


def _ticker(progress: Progress) -> Callable[[int], None]:
    return lambda tried: progress.step("searching for the fewest pours", tried, tried + 20)


def _rehearse(
    request: Request, plan: tuple[Planned, ...], spacing: float, progress: Progress, *, record: bool = False
) -> Rehearsal:
    levels = [pour.level for pour in plan]
    layout = lay_out(request.site, spacing, levels, layers=layers_of(levels, request.site.block))
    return rehearse(layout, plan, progress=progress, recorder=Recorder(layout) if record else None)


def _keeps(seen: Rehearsal, limit: float) -> bool:
    return all(amount <= 0.0 for _, amount in _violations(seen, limit))


def _broken(seen: Rehearsal, limit: float) -> tuple[str, float]:
    return max(_violations(seen, limit), key=lambda found: found[1])


def _violations(seen: Rehearsal, limit: float) -> Iterator[tuple[str, float]]:
    """Constraint and by how much it is broken; not above 0 where it is kept."""
    for pour in seen.pours:
        yield "peak", pour.peak - limit
    for below, above in zip(seen.pours, seen.pours[1:], strict=False):
        yield "bond", below.bonds_from - above.start
        yield "bond", above.start - below.bonds_until


def _learn(bench: CoarseBench, trial: Trial, seen: Rehearsal, limit: float) -> Correction:
    """What the coarse grid missed in this plan and must not miss again, and a little more."""
    prefixes = [(trial.levels[:n], trial.starts[:n]) for n in range(1, len(trial.levels) + 1)]
    pairs = [(fine, bench.kept[key]) for fine, key in zip(seen.pours, prefixes, strict=True)]
    broken = {name for name, amount in _violations(seen, limit) if amount > 0.0}
    learned = bench.correction
    if "peak" in broken:
        more = max(fine.peak - coarse.peak for fine, coarse in pairs) + SLACK
        learned = replace(learned, peak=max(more, learned.peak + SLACK))
    if "bond" in broken and len(pairs) > 1:
        late = max(_off(*pair, "bonds_from") for pair in pairs[:-1])
        early = min(_off(*pair, "bonds_until") for pair in pairs[:-1])
        learned = replace(
            learned,
            bonds_from=max(late + MARGIN, learned.bonds_from),
            bonds_until=min(early - MARGIN, learned.bonds_until),
        )
    return learned


def _off(fine: PourSeen, coarse: Followed, name: str) -> float:
    """How far a time of the coarse grid is off, over the time since the pour."""
    coarse_time, fine_time = (getattr(run, name) - fine.start for run in (coarse, fine))
    # a top that never comes to it on the finer grid is later than any plan waits for
    return float(min(fine_time / coarse_time - 1.0, LATEST)) if coarse_time < NEVER else 0.0
