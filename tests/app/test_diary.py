"""One person's time: working hours, no overlaps, nothing past."""

import itertools
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.app.diary import Diary
from pourwright.planner.hours import WorkingHours

BERLIN = ZoneInfo("Europe/Berlin")
HOUR = timedelta(hours=1)
SHOP = WorkingHours(BERLIN, time(8), time(17), frozenset(range(5)), frozenset({date(2027, 1, 12)}))


def berlin(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2027, 1, day, hour, minute, tzinfo=BERLIN)


def test_work_ends_by_closing_and_begins_at_opening():
    diary = Diary(SHOP)
    # Monday 11 January: nothing fits between 16:30 and 17:00, the 12th is off
    assert diary.after(berlin(11, 16, 30), HOUR) == (berlin(13, 8), berlin(13, 9))
    assert diary.before(berlin(13, 8, 30), HOUR) == (berlin(11, 16), berlin(11, 17))


def test_what_is_booked_is_not_booked_twice():
    diary = Diary(SHOP)
    diary.book(berlin(11, 9), HOUR)
    assert diary.after(berlin(11, 8, 30), HOUR) == (berlin(11, 10), berlin(11, 11))
    assert diary.before(berlin(11, 10), HOUR) == (berlin(11, 8), berlin(11, 9))
    assert diary.left(berlin(11, 11)) == 6 * HOUR


def test_work_longer_than_a_day_begins_at_opening():
    assert Diary(SHOP).after(berlin(11, 9), 12 * HOUR) == (berlin(13, 8), berlin(13, 20))


def test_elapsed_time_is_counted_where_the_clock_changes():
    night = WorkingHours(BERLIN, time(1), time(6))
    # 28 March 2027: 02:00 becomes 03:00, so 01:00 to 06:00 is four hours long
    start, end = Diary(night).before(datetime(2027, 3, 28, 12, tzinfo=BERLIN), 3 * HOUR)
    assert (start.hour, end.hour) == (3, 6)


def test_a_shop_that_never_opens_is_told():
    closed = WorkingHours(BERLIN, time(8), time(17), frozenset())
    with pytest.raises(ValueError, match="no free time"):
        Diary(closed).after(berlin(11, 9), HOUR)


@settings(max_examples=60, deadline=None)
@given(
    opens=st.integers(0, 15 * 4),
    length=st.integers(2 * 4, 8 * 4),
    weekdays=st.frozensets(st.integers(0, 6), min_size=1),
    works=st.lists(st.tuples(st.booleans(), st.integers(0, 300), st.integers(1, 8)), max_size=8),
)
def test_bookings_lie_in_hours_and_never_overlap(opens, length, weekdays, works):
    quarter = timedelta(minutes=15)
    wall = [(datetime(2027, 1, 1) + quarter * at).time() for at in (opens, opens + length)]
    diary = Diary(WorkingHours(BERLIN, *wall, weekdays))
    for back, hours, quarters in works:
        moment = berlin(4, 9) + hours * HOUR
        start, end = (diary.before if back else diary.after)(moment, quarters * quarter)
        assert (end <= moment) if back else (start >= moment)
        assert end - start == quarters * quarter
        assert start.weekday() in weekdays
        assert wall[0] <= start.time() < end.time() <= wall[1]
    slots = sorted(diary.booked)
    assert all(first[1] <= second[0] for first, second in itertools.pairwise(slots))
    assert all(slot[0].tzinfo is UTC for slot in slots)
