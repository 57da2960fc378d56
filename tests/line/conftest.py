"""A shop that is open from 8 to 18 on workdays, from Monday 4 January 2027 on."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

import pytest

from pourwright.line.dates.halves import Halves, halves_of
from pourwright.planner.hours import WorkingHours

ZONE = ZoneInfo("Europe/Berlin")
MONDAY = datetime(2027, 1, 4, 8, tzinfo=ZONE)


@pytest.fixture(scope="session")
def hours() -> WorkingHours:
    return WorkingHours(ZONE, time(8), time(18), frozenset(range(5)))


@pytest.fixture(scope="session")
def halves(hours: WorkingHours) -> Halves:
    return halves_of(hours, MONDAY, 400)
