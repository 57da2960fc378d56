"""Time axes on the shop's clock, also when it changes."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from pourwright.sheets.axes import nice_step, thinned, time_ticks


@pytest.mark.parametrize(("day", "hours"), [("2026-03-28", 23.0), ("2026-10-24", 25.0), ("2026-12-01", 24.0)])
def test_days_begin_at_midnight_of_the_clock(day: str, hours: float) -> None:
    first = datetime.fromisoformat(f"{day}T12:00").replace(tzinfo=ZoneInfo("Europe/Berlin"))
    ticks = time_ticks(first, (0.0, 80.0), 510.0)
    assert [tick.moment.hour for tick in ticks] == [0, 0, 0]
    assert ticks[1].hours - ticks[0].hours == hours


def test_short_axis_has_hours() -> None:
    first = datetime(2026, 12, 1, 9, tzinfo=ZoneInfo("America/Chicago"))
    ticks = time_ticks(first, (-1.0, 24.0), 250.0)
    assert [(tick.hours, tick.major) for tick in ticks] == [
        (3.0, False),
        (9.0, False),
        (15.0, True),
        (21.0, False),
    ]


@pytest.mark.parametrize("span", [0.37, 1.0, 6.0, 47.0, 119.0, 3600.0])
def test_step_is_round_and_few(span: float) -> None:
    step = nice_step(span, 6)
    assert span / step <= 6.0 + 1e-9
    assert f"{step:e}"[0] in "125"


def test_thinned_curve_keeps_its_peak_and_its_end() -> None:
    curve = [(float(i), 100.0) for i in range(5000)]
    curve[1234] = (1234.0, 3.0)
    kept = thinned(curve)
    assert len(kept) <= 503
    assert curve[1234] in kept
    assert kept[-1] == curve[-1]
