"""What the planner is asked, and one search for it as a piece of work that any process can do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.progress import SILENT, Progress
from pourwright.planner.bench import CoarseBench, Correction
from pourwright.planner.grids import layers_of, search_parts
from pourwright.planner.hot import deviations
from pourwright.planner.hours import WorkingHours
from pourwright.planner.levels import candidate_levels, compulsory_levels
from pourwright.planner.model import Bench, Bound, Choice, Failure, NoPlanError, Wish
from pourwright.planner.paired import PairedBench
from pourwright.planner.search import BUDGET, MORE_POURS, plan_pours
from pourwright.planner.starts import working_starts
from pourwright.pour.doubt import Doubt
from pourwright.pour.layout import lay_out
from pourwright.pour.site import Site

Array = NDArray[np.float64]
AT_FIRST = Correction(peak=0.5, bonds_from=0.04, bonds_until=-0.02)
"""What nine of ten coarse runs miss at most, times over the time since the pour; see record 0011."""
COARSEST, FINEST = 0.025, 0.006
CELLS_ACROSS, MOST_ACROSS, CELLS = 12, 24, 8000
PROBABILITY = 0.95


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
    doubt : Doubt or None
        What is not known exactly of the casting; None plans as if all were.
    probability : float
        With which the limits are kept [-].
    seed : int
        Of the draws.
    bounds : tuple of Bound
        Limits on each pour besides its heat.
    box_limit : float
        Hottest that the box, its glue and its sealed seams may get [K].
    stops : tuple of float
        Levels that no pour may run through, besides those that none can [m].
    most_sanded : int
        So many pours may go onto a top that bonds no more and was sanded.
    sand_after : float
        When a top can be sanded, after it bonds no more [s].
    """

    site: Site
    hours: WorkingHours
    peak_limit: float
    level_step: float
    spacing: float = 0.008
    budget: int = BUDGET
    doubt: Doubt | None = None
    probability: float = PROBABILITY
    seed: int = 0
    bounds: tuple[Bound, ...] = ()
    box_limit: float = float("inf")
    stops: tuple[float, ...] = ()
    most_sanded: int = 0
    sand_after: float = 0.0

    @property
    def wish(self) -> Wish:
        """Levels, hours and bounds, for the search."""
        site = self.site
        return Wish(
            candidate_levels(site.beds, self.level_step),
            0.0,
            working_starts(site.climate, self.hours),
            tuple(sorted({*compulsory_levels(site.beds), *self.stops})),
            self.bounds,
            self.most_sanded,
            self.sand_after,
        )

    def hot(self, direction: Array, probability: float | None = None) -> Site | None:
        """The casting that stands for all but the hottest few.

        Parameters
        ----------
        direction : array (size,)
            From `envelope`.
        probability : float, optional
            Else the request's own.

        Returns
        -------
        Site or None
            None where nothing is in doubt.
        """
        if self.doubt is None:
            return None
        return self.doubt.site(
            deviations(self.probability if probability is None else probability) * direction
        )


@dataclass(frozen=True)
class Search:
    """One search over levels and starts.

    Parameters
    ----------
    request : Request
        What is asked.
    hot : Site or None
        The casting whose peaks are judged; None where nothing is in doubt: the request's own.
    likely_correction, hot_correction : Correction
        What the coarse grid is known to miss.
    more_pours : int
        Numbers of pours tried from the least that could do.
    before : Choice or None
        Made with the same castings and corrections, but fewer bounds.
    """

    request: Request
    hot: Site | None
    likely_correction: Correction = field(default=AT_FIRST)
    hot_correction: Correction = field(default=AT_FIRST)
    more_pours: int = MORE_POURS
    before: Choice | None = None

    def benches(self) -> tuple[CoarseBench, CoarseBench]:
        """Benches of the likely casting and of the hot one; the same where nothing is in doubt."""
        likely = _bench(self.request, self.request.site, self.likely_correction)
        if self.hot is None:
            return likely, likely
        return likely, _bench(self.request, self.hot, self.hot_correction)

    def run(self, tick: Callable[[int], None] = lambda _: None) -> Choice | Failure:
        """Search; a failure where no number of pours keeps the limits."""
        likely, hot = self.benches()
        bench: Bench = likely if likely is hot else PairedBench(likely, hot)
        try:
            return plan_pours(
                bench, self.request.wish, self.request.budget, tick, self.more_pours, self.before
            )
        except NoPlanError as failed:
            return failed.failure


def search(task: Search, progress: Progress = SILENT) -> Choice | Failure:
    """Run a search; for a map over processes.

    Parameters
    ----------
    task : Search
        What is asked.
    progress : Progress
        Told about which share is done.

    Returns
    -------
    Choice or Failure
        What was found.
    """
    return task.run(lambda tried: progress.step("searching", tried, tried + 20))


def moved(request: Request, site: Site) -> Request:
    """Ask the same of another casting.

    Parameters
    ----------
    request : Request
        As it is.
    site : Site
        In the place of the request's.

    Returns
    -------
    Request
        With the same doubts about the other casting.
    """
    doubt = None if request.doubt is None else request.doubt.about(site)
    return replace(request, site=site, doubt=doubt)


def _bench(request: Request, site: Site, correction: Correction) -> CoarseBench:
    climate = site.climate
    levels = candidate_levels(site.beds, request.level_step)
    layers = layers_of(levels, site.block, search_parts(levels))
    return CoarseBench(
        lay_out(site, coarse_spacing(site, len(levels) + len(layers)), levels, layers=layers),
        request.peak_limit,
        lambda ready: climate.seconds(request.hours.next_open(climate.moment(ready))),
        correction,
    )


def coarse_spacing(site: Site, layers: int) -> float:
    """Say how wide the cells of a search are: up to twelve across, fewer where too many, 24 where wide.

    Parameters
    ----------
    site : Site
        The casting.
    layers : int
        How many it is cut into.

    Returns
    -------
    float
        [m]
    """
    width, depth = (side + 2 * site.block.board for side in site.block.inside)
    narrow = min(width, depth)
    affordable = float(width * depth * layers / CELLS) ** 0.5
    widest = max(COARSEST, narrow / MOST_ACROSS)
    return float(min(widest, max(FINEST, affordable, narrow / CELLS_ACROSS)))
