"""Castings, dates and promises against what is reckoned by hand and against exact chances."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from itertools import permutations
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from scipy.stats import nbinom

from pourwright.foundation.errors import UserError
from pourwright.line.dates.asked import Line, Order
from pourwright.line.dates.best import best_dates
from pourwright.line.dates.castings import castings_of
from pourwright.line.dates.dispatch import dispatch
from pourwright.line.dates.halves import Halves, halves_of
from pourwright.line.dates.promise import months_of, promises, remedies
from pourwright.line.dates.room import line_of
from pourwright.line.dates.route import Route, Step
from pourwright.planner.hours import WorkingHours

# poured on one day, out two days later: its mold is free again in the half day after
QUICK = Route("lamp", (Step("pour", 1.0), Step("take out", 1.0, gap=48.0)))


def test_days_are_cut_at_their_middle_and_days_off_left_out(halves: Halves) -> None:
    """8:00 to 18:00 has its middle at 13:00; the sixth day of work is Monday the 11th."""
    assert [half.start.hour for half in halves.halves[:3]] == [8, 13, 8]
    assert halves.day(10) == date(2027, 1, 11)
    assert halves.after_day(date(2027, 1, 10)) == 10
    assert halves.lengths[:2] == pytest.approx([5.0, 5.0])


def test_summer_time_takes_an_hour_from_the_night() -> None:
    """Saturday 27 March 2027 13:00 to Sunday 8:00 are 18 h, not 19: clocks go forward that night."""
    zone = ZoneInfo("Europe/Berlin")
    open_daily = WorkingHours(zone, time(8), time(18))
    some = halves_of(open_daily, datetime(2027, 3, 27, 8, tzinfo=zone), 3)
    assert some.starts == pytest.approx([0.0, 5.0, 23.0])


def test_a_pour_that_would_bond_only_at_night_or_on_a_day_off_forbids_a_start(halves: Halves) -> None:
    """The second pour 20 to 26 h after the first: next day; from Friday it would be Saturday."""
    route = Route(
        "stool", (Step("pour 1", 1.0), Step("pour 2", 1.0, 20.0, 26.0), Step("take out", 1.0, 48.0))
    )
    possible = castings_of(route, halves).possible[:10]
    assert list(possible) == [True] * 8 + [False] * 2


def test_a_casting_follows_its_plan_over_the_weekend(halves: Halves) -> None:
    """Thursday 8:00, second pour Friday 8:00, 48 h later is Sunday: out on Monday, rest until Tuesday."""
    route = Route(
        "stool",
        (Step("pour 1", 1.0), Step("pour 2", 1.0, 24.0, 30.0), Step("take out", 1.0, 48.0)),
        rest=24.0,
    )
    castings = castings_of(route, halves)
    slots, free, moment = castings.begun(np.array([6]), np.ones(1))
    assert [halves.day(int(slot)) for slot in slots[0]] == [date(2027, 1, d) for d in (7, 8, 11)]
    assert halves.moment(float(moment[0])) == datetime(2027, 1, 12, 9, tzinfo=ZoneInfo("Europe/Berlin"))
    assert halves.halves[int(free[0])].start.hour == 13


def test_long_work_is_cut_into_half_days_and_the_next_pour_waits_from_its_beginning(halves: Halves) -> None:
    route = Route("bench", (Step("pour 1", 7.0), Step("pour 2", 1.0, 24.0), Step("take out", 1.0, 24.0)))
    slots, _, _ = castings_of(route, halves).begun(np.array([0]), np.ones(1))
    assert list(slots[0]) == [0, 1, 2, 4]


def test_pieces_of_one_mold_follow_each_other(halves: Halves) -> None:
    """Poured Monday, out Wednesday at 8:00, free at noon; poured then, out on Friday; Monday again."""
    (dated,) = dispatch(Line(halves, 1, (QUICK,), (Order("a", 0, 3, 99),)))
    assert [halves.day(int(each)) for each in dated.begun[0]] == [date(2027, 1, d) for d in (4, 6, 11)]
    assert [halves.day(int(each)) for each in dated.out[0]] == [date(2027, 1, d) for d in (6, 8, 13)]


def test_one_person_finishes_a_piece_before_the_next(halves: Halves) -> None:
    """Out Wednesday morning, 12 h of finishing: 5 h that afternoon, 5 and 2 h on Thursday."""
    route = replace(QUICK, finishing=12.0)
    (dated,) = dispatch(Line(halves, 1, (route,), (Order("a", 0, 1, 99),)))
    assert halves.day(int(dated.ready[0, 0])) == date(2027, 1, 7)


def test_glass_is_washed_and_dry_before_it_is_poured_on(halves: Halves) -> None:
    """8 h of washing end on Monday afternoon, 24 h of drying on Tuesday at 18:00: poured on Wednesday."""
    route = replace(QUICK, before=8.0, dries=24.0)
    (dated,) = dispatch(Line(halves, 1, (route,), (Order("a", 0, 1, 99),)))
    assert halves.day(int(dated.begun[0, 0])) == date(2027, 1, 6)


def _late(line: Line, turns: tuple[int, ...]) -> int:
    dated = dispatch(line, turns)
    return sum(
        int(np.maximum(each.ready + 1 - order.due, 0).sum())
        for each, order in zip(dated, line.orders, strict=True)
    )


@pytest.mark.parametrize("dues", [(8, 12, 30), (30, 12, 8), (10, 10, 10)])
def test_no_order_of_castings_is_less_late(halves: Halves, dues: tuple[int, int, int]) -> None:
    """Two products of one person; every order of the five castings is tried."""
    slow = Route("stool", (Step("pour", 4.0), Step("take out", 3.0, 72.0)), finishing=6.0)
    orders = tuple(
        Order(name, product, count, due)
        for name, product, count, due in zip("abc", (0, 1, 0), (2, 2, 1), dues, strict=True)
    )
    line = Line(halves, 1, (slow, QUICK), orders)
    found = best_dates(line)
    assert found.proven
    assert found.late <= min(_late(line, turns) for turns in set(permutations((0, 0, 1, 1, 2))))


def test_dates_keep_molds_and_people(halves: Halves) -> None:
    """Counted anew from the answer: never more castings than molds, never more hours than there are."""
    route = Route("stool", (Step("pour", 4.0), Step("take out", 3.0, 72.0)), finishing=6.0, molds=2)
    line = Line(halves, 1, (route,), (Order("a", 0, 5, 20),))
    dated = best_dates(line).dated[0]
    castings = castings_of(route, halves)
    slots, free, _ = castings.begun(dated.begun[0], np.ones(5))
    held = [sum(a <= slot < b for a, b in zip(dated.begun[0], free, strict=True)) for slot in range(60)]
    assert max(held) == 2
    worked = np.bincount(slots.ravel(), weights=np.tile(castings.hours, 5), minlength=60)
    assert worked.max() <= 5.0
    assert (dated.ready[0] > dated.out[0]).all()


def test_failed_castings_follow_the_exact_chances(halves: Halves) -> None:
    """Three good pieces, one in four castings fails: by how many castings is the negative binomial."""
    route = replace(QUICK, scrap=0.25)
    line = Line(halves, 1, (route,), (Order("a", 0, 3, 99),))
    (lived,) = months_of(line, (0, 0, 0), months=4000, pace=0.0)
    sure = replace(route, scrap=0.0)
    (ends,) = dispatch(Line(halves, 1, (sure,), (Order("a", 0, 8, 99),)))
    for castings in range(3, 9):
        share = float(np.mean(lived.last <= ends.ready[0, castings - 1]))
        assert share == pytest.approx(nbinom.cdf(castings - 3, 3, 0.75), abs=0.025)


def test_what_replaces_a_failed_casting_is_begun_once_that_is_known(halves: Halves) -> None:
    """Twelve pieces from two molds, one casting in ten fails: both molds are poured each Monday.

    After six Mondays all are there with 0.9**12; after the seventh also those months in which one casting had
    failed and its one replacement is good, or two had and both are: 0.2824 + 0.3766 x 0.9 + 0.2301 x 0.81.
    """
    week = Route(
        "stool", (Step("pour", 1.0), Step("take out", 1.0, gap=100.0)), rest=20.0, molds=2, scrap=0.1
    )
    line = Line(halves, 1, (week,), (Order("a", 0, 12, 99),))
    (lived,) = months_of(line, (0,) * 12, months=4000, pace=0.0)
    mondays = [date(2027, 1, 4) + timedelta(7 * number) for number in range(9)]
    shares = [float(np.mean(lived.last < halves.after_day(monday) - 2)) for monday in mondays]
    assert shares[6] == pytest.approx(0.2824, abs=0.025)
    assert shares[7] == pytest.approx(0.8077, abs=0.025)


def test_promised_dates_hold_in_the_stated_share(halves: Halves) -> None:
    """In 1,000 other months, to 3 in 100."""
    stool = Route(
        "stool", (Step("pour", 3.0), Step("take out", 2.0, 72.0)), finishing=6.0, scrap=0.2, demold_spread=0.1
    )
    orders = (Order("a", 0, 3, 30), Order("b", 1, 5, 40), Order("c", 0, 1, 60))
    line = Line(halves, 1, (stool, replace(QUICK, scrap=0.1, demold_spread=0.1)), orders)
    turns = best_dates(line).turns
    promised = promises(line, months_of(line, turns), 0.9)
    others = months_of(line, turns, months=1000, seed=1)
    for promise, lived in zip(promised, others, strict=True):
        assert promise.slot is not None
        assert promise.holds >= 0.9
        assert float(np.mean(lived.last <= promise.slot)) == pytest.approx(promise.holds, abs=0.03)


def test_a_second_mold_halves_the_time_of_an_order_that_is_late(halves: Halves) -> None:
    """Six quick pieces from one mold take three weeks, from two half of it; a second person helps nothing."""
    line = Line(halves, 1, (QUICK,), (Order("a", 0, 6, 17),))
    mold, person, _ = remedies(line, [0], 0.9)[0]
    assert (mold.molds, mold.people, person.molds, person.people) == (1, 0, 0, 1)
    assert mold.in_time > 0.99
    assert person.in_time < 0.01


def test_a_line_is_as_long_as_its_orders_need(hours: WorkingHours) -> None:
    """60 quick pieces take about 30 weeks of 10 half days, and the slowest months longer."""
    line = line_of(
        hours, datetime(2027, 1, 4, 8, tzinfo=hours.zone), 1, (QUICK,), [("a", 0, 60, date(2027, 9, 1))]
    )
    assert len(line.halves) > 2.5 * 60 * 4


def test_orders_that_take_years_and_pours_at_night_are_refused(hours: WorkingHours) -> None:
    first = datetime(2027, 1, 4, 8, tzinfo=hours.zone)
    with pytest.raises(UserError, match="take longer"):
        line_of(hours, first, 1, (QUICK,), [("a", 0, 400, date(2027, 9, 1))])
    night = Route(
        "stool", (Step("pour 1", 1.0), Step("pour 2", 1.0, 11.0, 12.0), Step("take out", 1.0, 48.0))
    )
    with pytest.raises(UserError, match="working hours"):
        line_of(hours, first, 1, (night,), [("a", 0, 1, date(2027, 9, 1))])
