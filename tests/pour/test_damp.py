"""Dew by the hour: in an invented shop, against rules that can be reckoned by hand."""

from math import inf, isnan
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.physics.humidity import dew_point
from pourwright.pour.climate import Climate
from pourwright.pour.damp import Air, damp
from pourwright.pour.faces import FacesSeen, empty_mold_by_the_hour
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import History, Planned, PourSeen, rehearse
from tests.pour.blocks import HOUR, ZERO, ZERO_CELSIUS, block_site, shop

QUICK = settings(max_examples=40, deadline=None, derandomize=True)
DAY = 24 * HOUR
NOTHING = History((), (), (), ())


def day_and_night(day: float, night: float) -> Climate:
    """Warm from 8 to 20 o'clock; time 0 is 9 o'clock."""
    hourly = tuple((day if 8 <= hour < 20 else night) + ZERO_CELSIUS for hour in range(24))
    return Climate(ZERO, ZoneInfo("UTC"), hourly)


def still(mold: float, top: float, start: float = 0.0) -> PourSeen:
    """A pour whose faces keep their temperatures [degC] for three days."""
    faces = FacesSeen((start, start + 3 * DAY), (mold + ZERO_CELSIUS,) * 2, (top + ZERO_CELSIUS,) * 2)
    place = (0.0, 0.0, 0.0)
    return PourSeen(
        0.0, 0.1, start, 293.15, 310.0, start + DAY / 2, place, 300.0, 296.0, start + DAY, start + 1.2 * DAY,
        start + DAY, start + 2 * DAY, 0.8, place, NOTHING, faces,
    )  # fmt: skip


def empty(degrees: float) -> FacesSeen:
    return FacesSeen((-DAY, DAY), (degrees + ZERO_CELSIUS,) * 2, (degrees + ZERO_CELSIUS,) * 2)


def test_a_surface_3_k_above_the_dew_point_is_dry_and_one_below_is_not():
    # ISO 8502-4, as quoted on secondary pages
    air = Air(shop(20.0), 0.6)
    dew = float(dew_point(293.15, 0.6)) - ZERO_CELSIUS
    for mold, dry in ((dew + 3.1, True), (dew + 2.9, False)):
        seen = damp(air, [still(mold, 25.0)], empty(mold)).pours[0]
        assert seen.dry is dry
        assert seen.warm_to == pytest.approx(dew + 3.0 + ZERO_CELSIUS)


def test_air_above_85_per_cent_is_too_damp_however_warm_the_mold():
    # ISO 12944-7, as quoted on secondary pages
    for humidity, dry in ((0.84, True), (0.86, False)):
        assert damp(Air(shop(20.0), humidity), [still(30.0, 30.0)], empty(30.0)).pours[0].dry is dry


@QUICK
@given(st.floats(0.2, 1.0), st.floats(10.0, 26.0), st.floats(14.0, 26.0))
def test_air_as_dry_as_advised_is_dry_and_a_little_damper_is_not(humidity, mold, degrees):
    advised = damp(Air(shop(degrees), humidity), [still(mold, 30.0)], empty(mold)).pours[0].dry_below
    for factor, dry in ((0.995, True), (1.005, False)):
        share = advised * factor
        if share < 1.0:
            assert damp(Air(shop(degrees), share), [still(mold, 30.0)], empty(mold)).pours[0].dry is dry


def test_the_air_keeps_its_water_so_nights_are_damp():
    found = damp(Air(day_and_night(22.0, 14.0), 0.5), [still(18.0, 25.0)], empty(18.0))
    shares = found.hours.humidity
    assert min(shares) == pytest.approx(0.5)
    # 2644 Pa at 22 degC, 1598 Pa at 14 degC (steam tables, from memory): half of one over the other
    assert max(shares) == pytest.approx(0.5 * 2644 / 1598, rel=5e-3)


def test_two_kelvin_drier_air_is_never_worse():
    climate = day_and_night(21.0, 15.0)
    pours = [still(18.5, 22.0), still(18.5, 18.5, 1.5 * DAY)]
    damper, drier = (damp(Air(climate, share), pours, empty(18.5)) for share in (0.75, 0.66))
    assert damper.air.dew - drier.air.dew == pytest.approx(2.0, abs=0.1)
    assert sum(drier.hours.too_close) < sum(damper.hours.too_close)
    assert all(a.damp_hours <= b.damp_hours for a, b in zip(drier.pours, damper.pours, strict=True))


def test_a_damp_top_blushes_and_a_warm_one_does_not():
    air = Air(shop(20.0), 0.7)
    dew = air.dew - ZERO_CELSIUS
    cold, warm = (damp(air, [still(25.0, dew + above)], empty(25.0)).pours[0] for above in (2.0, 4.0))
    assert cold.blushes
    assert cold.damp_hours == pytest.approx(cold.looked_at)
    assert not warm.blushes
    assert warm.damp_hours == 0.0


def test_hours_are_full_and_reach_from_a_day_before_to_the_end_of_the_last_bond():
    hours = damp(Air(shop(20.0), 0.5), [still(20.0, 22.0)], empty(20.0)).hours
    assert hours.time[0] == -DAY
    assert hours.time[-1] == 2 * DAY
    assert len(hours.time) == 24 * 3 + 1
    assert all(isnan(top) for top in hours.top[:24])
    assert not any(isnan(top) for top in hours.top[24:])


def test_the_dry_time_around_a_pour_ends_where_the_night_is_damp():
    # dew point 12.0 degC: an empty mold below 15 degC is too cold
    times = tuple(-DAY + HOUR * n for n in range(49))
    cold = tuple((17.0 if (n + 4) % 24 <= 10 else 13.0) + ZERO_CELSIUS for n in range(49))
    seen = damp(Air(shop(20.0), 0.6), [still(17.0, 20.0)], FacesSeen(times, cold, cold)).pours[0]
    assert seen.dry
    assert seen.dry_from == -4 * HOUR


def test_a_pour_onto_a_top_that_is_still_hot_is_dry():
    pours = [still(60.0, 75.0), still(30.0, 30.0, 1.5 * DAY)]
    second = damp(Air(shop(20.0), 0.6), pours, empty(20.0)).pours[1]
    assert second.dry
    # the air's own limit is all that is left
    assert second.dry_below == pytest.approx(0.85)


def test_a_top_that_never_sets_is_looked_at_for_two_days():
    endless = [still(20.0, 22.0)]
    endless[0] = type(endless[0])(**{**_fields(endless[0]), "bonds_until": inf})
    assert damp(Air(shop(20.0), 0.5), endless, empty(20.0)).hours.time[-1] == 2 * DAY


def _fields(pour: PourSeen) -> dict:
    return {name: getattr(pour, name) for name in pour.__dataclass_fields__}


def test_thick_rubber_lags_behind_the_shop():
    site = block_site(0.06, 0.12)
    swinging = type(site)(**{**vars(site), "climate": day_and_night(23.0, 15.0)})
    seen = empty_mold_by_the_hour(swinging, 0.0)
    # the air is warm from 8 o'clock on and cold from 20; time 0 is 9 o'clock
    morning, evening = (float(np.interp(hour * HOUR, seen.time, seen.mold)) for hour in (0, 12))
    assert morning < 296.15 - 2.0
    assert evening > 288.15 + 2.0
    later = seen.mold[len(seen.mold) // 2 :]
    assert 288.15 < min(later) < max(later) < 296.15
    steady = empty_mold_by_the_hour(site, 0.0)
    assert set(steady.mold) == {293.15}


def test_a_rehearsal_notes_faces_from_the_pour_on():
    site = block_site(0.05, 0.12, degrees=21.0)
    layout = lay_out(site, 0.0125, [0.025, 0.05])
    first, last = rehearse(layout, (Planned(0.025, 0.0), Planned(0.05, 45 * HOUR))).pours
    assert first.faces.time[0] == 0.0
    assert last.faces.time[0] == 45 * HOUR
    assert all(b - a >= 900.0 for a, b in zip(first.faces.time, first.faces.time[1:], strict=False))
    # the reaction warms them, nothing cools them below the shop
    assert min(first.faces.mold) >= 294.15 - 1e-6
    assert max(first.faces.top) > 294.65
