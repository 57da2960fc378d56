"""Working hours by the wall clock."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from pourwright.planner.hours import WorkingHours

BERLIN = ZoneInfo("Europe/Berlin")
WEEK = WorkingHours(BERLIN, time(8), time(17), frozenset(range(5)), frozenset({date(2026, 12, 25)}))
HOUR = timedelta(hours=1)


def local(*when: int) -> datetime:
    return datetime(*when, tzinfo=BERLIN)


def test_open_and_closed():
    assert WEEK.is_open(local(2026, 12, 1, 8))
    assert WEEK.is_open(local(2026, 12, 1, 17))
    assert not WEEK.is_open(local(2026, 12, 1, 17, 1))
    assert not WEEK.is_open(local(2026, 12, 5, 10))
    assert not WEEK.is_open(local(2026, 12, 25, 10))


def test_next_opening_skips_weekend_and_day_off():
    assert WEEK.next_open(local(2026, 12, 4, 18)) == local(2026, 12, 7, 8)
    assert WEEK.next_open(local(2026, 12, 24, 18)) == local(2026, 12, 28, 8)
    assert WEEK.next_open(local(2026, 12, 1, 9, 30)) == local(2026, 12, 1, 9, 30)


def test_starts_are_full_hours_of_working_days():
    found = list(WEEK.starts(local(2026, 12, 4, 15, 30), local(2026, 12, 7, 9, 30), HOUR))
    assert found == [
        local(2026, 12, 4, 16),
        local(2026, 12, 4, 17),
        local(2026, 12, 7, 8),
        local(2026, 12, 7, 9),
    ]


def test_an_elapsed_day_over_the_change_of_clocks_is_another_hour():
    # 28 March 2027 has 23 hours; hours of work stay on the wall clock
    before, after = local(2027, 3, 26, 8), local(2027, 3, 29, 8)
    assert WEEK.next_open(local(2027, 3, 26, 18)) == after
    assert (after.astimezone(UTC) - before.astimezone(UTC)) == timedelta(hours=71)


def test_a_shop_that_never_opens_says_so():
    shut = WorkingHours(BERLIN, time(8), time(17), frozenset())
    with pytest.raises(ValueError, match="does not open within a year"):
        shut.next_open(local(2026, 12, 1, 9))
