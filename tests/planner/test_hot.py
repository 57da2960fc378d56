"""The casting that stands for the hottest few: its direction, and draws that live through a plan."""

from dataclasses import dataclass, replace
from datetime import time
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from scipy.special import ndtr

from pourwright.planner.bench import CoarseBench
from pourwright.planner.compare import FARTHEST, HALVINGS, NEAREST, Way, share_over
from pourwright.planner.hot import deviations, envelope, hot_directions
from pourwright.planner.hours import WorkingHours
from pourwright.planner.lived import Life, live
from pourwright.planner.model import Wish
from pourwright.planner.paired import PairedBench
from pourwright.pour.doubt import Shifts, shifted
from pourwright.pour.follow import NEVER
from pourwright.pour.layout import lay_out
from pourwright.pour.site import Site
from tests.pour.blocks import HOUR, block_site

TOP, LIMIT = 0.05, 338.15
DAY = 24 * HOUR
SHOP = WorkingHours(ZoneInfo("UTC"), time(8), time(16))


@dataclass(frozen=True)
class ShopAndFilm:
    """A casting whose shop and films are in doubt; a third deviate changes nothing."""

    likely: Site
    size: int = 3

    @property
    def groups(self):
        return [slice(number, number + 1) for number in range(self.size)]

    def site(self, deviates):
        return shifted(
            self.likely,
            Shifts(
                shop=2.0 * float(deviates[0]), voids=(0.0,), film_factor=float(np.exp(-0.2 * deviates[1]))
            ),
        )

    def about(self, site):
        return replace(self, likely=site)


@pytest.fixture(scope="module")
def doubt():
    return ShopAndFilm(block_site(TOP, 0.1, degrees=21.0))


def anytime(first, last):
    hour = -(-first // HOUR)
    while hour * HOUR <= min(last, first + 14 * DAY):
        yield hour * HOUR
        hour += 1


def test_the_direction_heats_and_leaves_out_what_changes_nothing(doubt):
    ways = hot_directions(doubt, Wish((0.025, TOP), 0.0, anytime), LIMIT)
    assert len(ways) == 1
    way = envelope(ways)
    assert np.linalg.norm(way) == pytest.approx(1.0)
    assert way[0] > 0.0
    assert way[1] > 0.0
    assert way[2] == pytest.approx(0.0, abs=1e-6)


def test_the_likely_casting_is_the_one_with_no_deviates(doubt):
    assert doubt.site(np.zeros(3)).climate == doubt.likely.climate
    assert doubt.site(np.zeros(3)).film_factor == 1.0


def test_deviations_are_those_of_the_normal_distribution():
    assert deviations(0.95) == pytest.approx(1.6448536, abs=1e-6)  # a table of the normal distribution
    assert deviations(0.5) == pytest.approx(0.0, abs=1e-12)


def test_hotter_peaks_and_likely_times(doubt):
    def bench(site):
        return CoarseBench(lay_out(site, 0.025, (0.025, TOP)), LIMIT, snap=lambda ready: ready)

    likely, hot = bench(doubt.likely), bench(doubt.site(np.array([1.5, 1.0, 0.0])))
    trial = PairedBench(likely, hot).pour(None, 0.025, 0.0)
    alone = likely.pour(None, 0.025, 0.0)
    assert trial.peak_limit == LIMIT
    assert trial.peaks[0] > alone.peaks[0]
    assert (trial.bonds_from, trial.bonds_until) == (alone.bonds_from, alone.bonds_until)


def test_share_over_lies_where_the_direction_meets_the_limit(doubt):
    # a limit that the casting itself just reaches: half of all castings go over
    plan = ((TOP,), (0.0,))
    peak = live(Life(doubt.likely, *plan, SHOP, 400.0)).pours[0].peak
    way = Way(doubt, (np.array([1.0, 0.0, 0.0]),), *plan, SHOP, peak)
    step = (FARTHEST - NEAREST) / 2**HALVINGS
    assert share_over(way) == pytest.approx(0.5, abs=float(ndtr(step) - 0.5) + 1e-9)
    assert share_over(replace(way, limit=peak + 60.0)) < 0.001


def test_a_late_gel_is_waited_for_in_working_hours(doubt):
    too_soon = (0.0, 2 * HOUR)
    lived = live(Life(doubt.likely, (0.025, TOP), too_soon, SHOP, 400.0))
    assert len(lived.pours) == 2
    assert lived.begun >= lived.pours[0].bonds_from
    # the shop of the block opens at 9 o'clock, which is its time 0
    assert 8.0 <= (lived.begun / HOUR + 9.0) % 24 <= 16.0


def test_a_pour_that_comes_too_late_misses_the_bond(doubt):
    lived = live(Life(doubt.likely, (0.025, TOP), (0.0, 12 * DAY), SHOP, 400.0))
    assert lived.pours[0].missed
    assert lived.begun == 12 * DAY
    assert not lived.pours[1].missed


def test_nothing_follows_a_run_away(doubt):
    cap = 296.0
    lived = live(Life(doubt.likely, (0.025, TOP), (0.0, 2 * DAY), SHOP, cap))
    assert len(lived.pours) == 1
    assert lived.ready == NEVER
