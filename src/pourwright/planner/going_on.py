"""A plan that goes on from pours that are in the mold already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from pourwright.planner.bench import CoarseBench
from pourwright.planner.grids import layers_of, search_parts
from pourwright.planner.levels import candidate_levels
from pourwright.planner.model import Bench, Bound, Choice, Failure, NoPlanError, Starts, Trial, Wish
from pourwright.planner.request import AT_FIRST, Request, coarse_spacing
from pourwright.planner.search import BUDGET, plan_pours
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned

NEAR = 1e-6


@dataclass(frozen=True)
class Shifted:
    """A bound of which the floor is the level that stands already.

    Parameters
    ----------
    bound : Bound
        Of the whole piece.
    floor : float
        Where the pours to come begin [m].
    """

    bound: Bound
    floor: float

    @property
    def name(self) -> str:
        """As that of the bound."""
        return self.bound.name

    def excess(self, lower: float, upper: float) -> float:
        """By how much a pour breaks it."""
        return self.bound.excess(max(lower, self.floor), upper)


@dataclass
class Onward:
    """A bench on which the first pour goes onto what stands already.

    Parameters
    ----------
    bench : Bench
        Of the whole piece.
    stands : Trial
        What is in the mold.
    """

    bench: Bench
    stands: Trial

    def pour(self, before: Trial | None, level: float, start: float) -> Trial:
        """Try one more pour; the answer tells of the pours to come only."""
        done = len(self.stands.levels)
        below = self.stands if before is None else self._whole(before)
        found = self.bench.pour(below, level, start)
        return replace(
            found, levels=found.levels[done:], starts=found.starts[done:], peaks=found.peaks[done:]
        )

    def excess_on_cold_ground(self, lower: float, upper: float, *, give_up: bool = True) -> float:
        """As of the whole piece, from the level that stands."""
        floor = max(lower, self.stands.level)
        return self.bench.excess_on_cold_ground(floor, upper, give_up=give_up)

    def whole(self, trial: Trial, *, sanded: bool) -> Trial:
        """The trial with what stands already before it."""
        done = len(self.stands.levels)
        first = (done - 1,) if sanded else ()
        return replace(self._whole(trial), tops_sanded=(*first, *(done + each for each in trial.tops_sanded)))

    def _whole(self, trial: Trial) -> Trial:
        before = self.stands
        return replace(
            trial,
            levels=(*before.levels, *trial.levels),
            starts=(*before.starts, *trial.starts),
            peaks=(*before.peaks, *trial.peaks),
        )


def go_on(request: Request, poured: Sequence[Planned], now: float) -> Choice:
    """Plan the pours that are left.

    Parameters
    ----------
    request : Request
        As for the whole piece, its climate's zero not after the first pour; doubts are not weighed.
    poured : sequence of Planned
        Levels reached and starts, as logged.
    now : float
        No pour goes in before [s after the climate's zero].

    Returns
    -------
    Choice
        Its trial holds the logged pours and then those to come: the fewest of them, ready first.

    Raises
    ------
    NoPlanError
        Where no number of pours keeps the limits, and where nobody is there for the next one.
    """
    bench = _bench(request, poured)
    stands: Trial | None = None
    for level, start in poured:
        stands = bench.pour(stands, level, start)
    assert stands is not None
    return continued(bench, request.wish, stands, now, request.budget)


def continued(bench: Bench, wish: Wish, stands: Trial, now: float, budget: int = BUDGET) -> Choice:
    """Search the pours that are left on a bench.

    Parameters
    ----------
    bench : Bench
        Of the whole piece.
    wish : Wish
        For the whole piece.
    stands : Trial
        What is in the mold.
    now : float
        No pour goes in before [s].
    budget : int
        Most trials spent on any one number of pours.

    Returns
    -------
    Choice
        As `go_on`.

    Raises
    ------
    NoPlanError
        As `go_on`.
    """
    onward, (left, sanded) = Onward(bench, stands), _left(wish, stands, now)
    found = plan_pours(onward, left, budget)
    return replace(found, trial=onward.whole(found.trial, sanded=sanded), seen=())


def _bench(request: Request, poured: Sequence[Planned]) -> CoarseBench:
    """With a line at each level that stands, and at those that may be asked for."""
    site, hours = request.site, request.hours
    known = [pour.level for pour in poured]
    levels = sorted({*_apart(candidate_levels(site.beds, request.level_step), known), *known})
    layers = layers_of(levels, site.block, search_parts(levels))
    layout = lay_out(site, coarse_spacing(site, len(levels) + len(layers)), levels, layers=layers)
    climate = site.climate
    return CoarseBench(
        layout,
        request.peak_limit,
        lambda ready: climate.seconds(hours.next_open(climate.moment(ready))),
        AT_FIRST,
    )


def _apart(levels: Sequence[float], known: Sequence[float]) -> Iterator[float]:
    """Levels that no logged one stands in the place of."""
    return (level for level in levels if min(abs(level - each) for each in known) > 1e-3)


def _left(whole: Wish, stands: Trial, now: float) -> tuple[Wish, bool]:
    """Levels above what stands, and starts of the first pour to come; whether its ground is sanded."""
    floor = stands.level
    first, until, sanded = _first(whole, stands, now)
    levels = tuple(level for level in whole.levels if level > floor + 1e-3)
    if not levels:
        raise NoPlanError(Failure(0, "border", 0.0, (floor, whole.top)))
    return Wish(
        levels,
        first,
        _within(whole.starts, first, until),
        tuple(level for level in whole.compulsory if level > floor + 1e-3),
        tuple(Shifted(bound, floor) for bound in whole.bounds),
        whole.most_sanded,
        whole.sand_after,
    ), sanded


def _first(whole: Wish, stands: Trial, now: float) -> tuple[float, float, bool]:
    """First start of the next pour, the last moment for it, and whether its ground is sanded."""
    begins = max(now, stands.bonds_from)
    inside = list(islice(whole.starts(begins, stands.bonds_until), 1))
    if inside:
        return inside[0], stands.bonds_until, False
    late = next((each for each in whole.sandings(max(stands.bonds_until, now)) if each >= now), None)
    if late is None:
        place = (stands.level, whole.top)
        raise NoPlanError(Failure(0, "bond", 0.0, place))
    return late, float("inf"), True


def _within(starts: Starts, first: float, until: float) -> Starts:
    """The same starts, but those of the first pour end with its bond window."""

    def inside(begin: float, end: float) -> Iterator[float]:
        return starts(begin, min(end, until) if abs(begin - first) < NEAR else end)

    return inside
