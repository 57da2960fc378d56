"""The hour that comes twice and the one that is left out (IANA time zone data: Berlin 2026)."""

from datetime import UTC, datetime

import pytest

from pourwright.app.booking.clock import read_when, shown_when
from pourwright.foundation.errors import UserError

ZONE = "Europe/Berlin"


def test_an_hour_that_comes_twice_must_say_which() -> None:
    with pytest.raises(UserError) as refused:
        read_when("2026-10-25 02:30", ZONE)
    assert "came twice on 2026-10-25" in str(refused.value)
    first, second = "2026-10-25 02:30+02:00", "2026-10-25 02:30+01:00"
    assert first in refused.value.allowed
    assert second in refused.value.allowed
    assert read_when(first, ZONE) == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
    assert read_when(second, ZONE) == datetime(2026, 10, 25, 1, 30, tzinfo=UTC)


def test_an_hour_that_was_left_out_is_refused() -> None:
    with pytest.raises(UserError, match="there was no 02:30 on 2026-03-29") as refused:
        read_when("2026-03-29 02:30", ZONE)
    assert refused.value.allowed == "times before or after, as 01:30 or 03:30"
    assert read_when("2026-03-29 01:59", ZONE) == datetime(2026, 3, 29, 0, 59, tzinfo=UTC)
    assert read_when("2026-03-29 03:00", ZONE) == datetime(2026, 3, 29, 1, 0, tzinfo=UTC)


def test_both_halves_of_the_repeated_hour_are_shown_apart() -> None:
    times = [datetime(2026, 10, 25, hour, 10, tzinfo=UTC) for hour in (0, 1, 2)]
    assert [shown_when(one, ZONE, "metric") for one in times] == [
        "Sun 25 Oct, 02:10 CEST",
        "Sun 25 Oct, 02:10 CET",
        "Sun 25 Oct, 03:10",
    ]


@pytest.mark.parametrize("text", ["", "2026-12-01", "09:00", "2026-13-01 09:00", "noon", "2026-12-01T9"])
def test_what_is_no_time_is_refused(text: str) -> None:
    with pytest.raises(UserError, match="no day and time"):
        read_when(text, ZONE)
