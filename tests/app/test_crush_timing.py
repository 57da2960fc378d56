"""Bottles in the calendar: crushed before they are washed, only where the job tells of them."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest

from pourwright.app.crushing import waits
from pourwright.app.diary import Diary
from pourwright.app.document.agenda import _before
from pourwright.app.setup import set_up, working_hours
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import drying_length, washing_length, work_ahead, work_back
from pourwright.jobs import read_job
from tests.app.conftest import SMALL

NOW = datetime(2027, 1, 4, 8, 0, tzinfo=UTC)
BOTTLES = """
[bottles]
crushing_time = "2 h"
washing_time = "1 h"
dries_in = "50 h"
[[bottles.kind]]
name = "wine"
colour = "green"
mass = "450 g"
"""


@pytest.fixture(scope="module")
def setup():
    job = read_job(SMALL + BOTTLES)
    return set_up(job, read_piece(job))


def test_the_bottles_are_crushed_before_they_are_washed(setup):
    diary = Diary(working_hours(setup.job))
    before = work_ahead(setup, diary, NOW)
    assert {each.bottles for each in before.bottles.crush} == {dict(setup.fill.bottles_by_colour)["green"]}
    ends = [each.slot[1] for each in before.bottles.crush]
    assert ends == sorted(ends)
    assert before.wash[0] >= ends[-1]
    # a night in soda
    assert before.bottles.crush[0].slot[0] >= before.bottles.soak[1] + timedelta(hours=12)
    hours = working_hours(setup.job)
    assert all(hours.is_open(moment) for each in before.bottles.crush for moment in each.slot)
    booked = sorted(diary.booked)
    assert all(first[1] <= second[0] for first, second in pairwise(booked))


def test_hours_are_those_of_the_job(setup):
    crushed = dict(setup.fill.bottles_by_colour)["green"] * 0.45
    spent = sum(
        (
            each.slot[1] - each.slot[0]
            for each in work_ahead(setup, Diary(working_hours(setup.job)), NOW).bottles.crush
        ),
        timedelta(),
    )
    # 2 h of crushing and 2 min of sieving a kilogram, a minute a bottle, 15 min for the colour
    least = timedelta(hours=2 * crushed + crushed / 30 + crushed / 0.45 / 60 + 0.25)
    assert least <= spent <= least + timedelta(hours=1)
    assert timedelta(hours=setup.fill.glass_mass) <= washing_length(setup) - timedelta(minutes=30)
    assert drying_length(setup) == timedelta(hours=50) == timedelta(seconds=waits(setup.job))


def test_counted_back_it_is_dry_before_it_is_laid(setup):
    limit = datetime(2027, 3, 1, 12, 0, tzinfo=UTC)
    before = work_back(setup, Diary(working_hours(setup.job)), limit)
    assert before.wash[1] + timedelta(hours=50) <= limit
    assert [each.part for each in before.bottles.crush] == list(range(1, len(before.bottles.crush) + 1))
    assert before.bottles.crush[-1].slot[1] <= before.wash[0]
    assert before.bottles.soak[1] + timedelta(hours=12) <= before.bottles.crush[0].slot[0]
    told = [event.title for event in _before(setup, before, "")]
    assert any(title.startswith("Crush green bottles") for title in told)
    assert told.index("Wash the glass") > max(n for n, title in enumerate(told) if title.startswith("Crush"))


def test_a_job_that_says_nothing_of_bottles_has_its_glass_ready(setup):
    job = read_job(SMALL)
    plain = set_up(job, read_piece(job))
    assert work_ahead(plain, Diary(working_hours(job)), NOW).bottles.crush == ()
    assert drying_length(plain) == timedelta(hours=24)


def test_glass_that_is_bought_is_washed_but_not_crushed(setup):
    job = read_job(SMALL + '\n[bottles]\nbought = ["green"]\n')
    bought = set_up(job, read_piece(job))
    before = work_ahead(bought, Diary(working_hours(job)), NOW)
    assert before.bottles.crush == ()
    assert before.wash is not None
