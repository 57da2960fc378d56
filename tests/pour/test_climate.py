"""The shop's wall clock against elapsed time, over both changes of summer time."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from pourwright.pour.climate import Climate

BERLIN = ZoneInfo("Europe/Berlin")
HOURLY = tuple(280.0 + hour for hour in range(24))


@pytest.mark.parametrize(
    ("zero", "elapsed_h", "wall_hour"),
    [
        # clocks go forward on 28 March 2027 at 02:00, back on 31 October 2027 at 03:00
        (datetime(2027, 3, 28, 0, 0, tzinfo=BERLIN), 6.0, 7.0),
        (datetime(2027, 10, 31, 0, 0, tzinfo=BERLIN), 6.0, 5.0),
        (datetime(2027, 6, 1, 0, 0, tzinfo=BERLIN), 6.5, 6.5),
    ],
)
def test_temperature_follows_the_wall_clock(zero, elapsed_h, wall_hour):
    shop = Climate(zero, BERLIN, HOURLY)
    assert shop.temperature(elapsed_h * 3600.0) == pytest.approx(280.0 + wall_hour)


def test_seconds_and_moment_undo_each_other():
    shop = Climate(datetime(2027, 3, 27, 12, tzinfo=UTC), BERLIN, HOURLY)
    for seconds in (0.0, 3600.0, 86400.0, 5e6):
        assert shop.seconds(shop.moment(seconds)) == seconds


def test_midnight_joins_the_last_hour_to_the_first():
    shop = Climate(datetime(2027, 6, 1, 21, 30, tzinfo=UTC), ZoneInfo("UTC"), HOURLY)
    # 23:30 lies half-way between 303 K at 23:00 and 280 K at 00:00
    assert shop.temperature(2 * 3600.0) == pytest.approx(291.5)


# both changes of summer time, a zone with half hours, and one whose summer is half an hour long
@pytest.mark.parametrize(
    ("zone", "zero"),
    [
        ("Europe/Berlin", datetime(2027, 3, 27, 22, 17, 3, tzinfo=UTC)),
        ("Europe/Berlin", datetime(2027, 10, 30, 22, 17, 3, tzinfo=UTC)),
        ("America/New_York", datetime(2027, 11, 6, 23, 0, tzinfo=UTC)),
        ("Asia/Kolkata", datetime(2027, 6, 1, 1, 2, 3, tzinfo=UTC)),
        ("Australia/Lord_Howe", datetime(2027, 4, 3, 10, 40, tzinfo=UTC)),
        ("Australia/Lord_Howe", datetime(2027, 10, 2, 10, 40, tzinfo=UTC)),
    ],
)
def test_every_minute_reads_the_calendar(zone, zero):
    shop = Climate(zero, ZoneInfo(zone), HOURLY)
    for minute in range(-120, 36 * 60):
        now = shop.moment(60.0 * minute + 7.0)
        hour = now.hour + now.minute / 60 + now.second / 3600
        expected = np.interp(hour, range(25), [*HOURLY, HOURLY[0]])
        assert shop.temperature(60.0 * minute + 7.0) == pytest.approx(expected, abs=1e-9)
