"""How one pour behaves: orderings every workshop knows, and balances that must close."""

import dataclasses
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from pourwright.pour.climate import Climate
from pourwright.pour.follow import Goal
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, _Diary, rehearse
from pourwright.pour.stages import add_pour, cured_ground, empty_mold
from tests.pour.blocks import HOUR, ZERO, block_site, celsius, one_pour


@pytest.fixture(scope="module")
def warm():
    return one_pour(block_site(0.04, 0.2, degrees=21.0), goal=Goal.READY)


@pytest.fixture(scope="module")
def cold():
    return one_pour(block_site(0.04, 0.2, degrees=16.0), goal=Goal.READY)


@pytest.mark.parametrize("mark", ["gel_first", "gel_last", "bonds_from", "bonds_until", "ready"])
def test_every_mark_comes_later_in_a_shop_5_k_colder(warm, cold, mark):
    # rates fall by about 1.4 over 5 K (check B24); nothing but the simulated fields moves them
    assert getattr(cold, mark) > 1.2 * getattr(warm, mark)


def test_marks_come_in_order(warm):
    assert 0 < warm.gel_first <= warm.bonds_from <= warm.gel_last
    assert warm.bonds_from < warm.bonds_until < warm.ready


def test_a_cold_shop_stays_cooler(warm, cold):
    assert celsius(cold.peak) < celsius(warm.peak) - 4


def test_heat_balance_closes(warm):
    assert warm.energy_error < 1e-10


def test_deeper_is_hotter_and_glass_is_cooler():
    thin, deep, filled = (
        one_pour(block_site(depth, 0.2, solid), goal=Goal.PEAK).peak
        for depth, solid in ((0.025, 0.0), (0.06, 0.0), (0.06, 0.55))
    )
    assert celsius(thin) < 35
    assert deep > thin + 20
    assert filled < deep - 20


def test_hottest_place_is_inside_the_piece(warm):
    layout = warm.stage.layout
    x, y, z = layout.place(warm.peak_cell)
    assert abs(x) < 0.06
    assert abs(y) < 0.06
    assert 0.0 < z < 0.04


def test_warm_resin_over_cold_glass_mixes_by_capacity():
    site = block_site(0.05, 0.1, solid=0.55)
    warm_site = type(site)(**{**vars(site), "resin_temperature": 313.15})
    layout = lay_out(warm_site, 0.0125, [0.05])
    stage = add_pour(empty_mold(layout, 0.0), 0.05)
    # 0.45 x 1090 x 1650 of resin at 40 degC, 0.55 x 2500 x 780 of glass at 20 degC
    resin, glass = 0.45 * 1090 * 1650, 0.55 * 2500 * 780
    mixed = (resin * 40 + glass * 20) / (resin + glass)
    inside = stage.state.temperature[layout.cavity == 1.0]
    assert celsius(inside) == pytest.approx(mixed, abs=1e-9)


def test_heat_set_free_is_the_resin_times_its_heat_of_reaction():
    site = block_site(0.05, 0.1, solid=0.55)
    layout = lay_out(site, 0.0125, [0.05])
    released = float((layout.full_heat * layout.grid.cell_volumes).sum())
    # 0.1 x 0.1 x 0.05 m3, 45 % of it resin of 1090 kg/m3 with 340 kJ/kg
    assert released == pytest.approx(0.1 * 0.1 * 0.05 * 0.45 * 1090 * 340e3, rel=1e-9)


def test_cured_ground_gives_no_heat():
    layout = lay_out(block_site(0.08, 0.1), 0.0125, [0.04, 0.08])
    stage = cured_ground(layout, 0.04)
    assert np.all(stage.state.conversion[stage.poured] == 1.0)
    assert np.ptp(stage.state.temperature[stage.problem.active]) == 0.0


def test_a_second_pour_on_warm_ground_is_hotter_than_on_cold():
    site = block_site(0.06, 0.2, degrees=21.0)
    layout = lay_out(site, 0.0125, [0.03, 0.06])
    early, late = (
        rehearse(layout, (Planned(0.03, 0.0), Planned(0.06, start * HOUR))).pours[1].peak
        for start in (24, 60)
    )
    assert early > late + 0.5


def test_rehearsal_reports_what_the_watch_saw():
    site = block_site(0.05, 0.15, degrees=21.0)
    layout = lay_out(site, 0.0125, [0.025, 0.05])
    seen = rehearse(layout, (Planned(0.025, 0.0), Planned(0.05, 45 * HOUR)))
    first, last = seen.pours
    # the peak is read between steps, the history at their ends
    assert first.peak == pytest.approx(max(first.history.hottest), abs=0.02)
    assert first.history.time[0] == 0.0
    assert first.history.time[-1] == pytest.approx(45 * HOUR)
    assert last.history.time[-1] >= seen.ready
    assert 0.0 < last.least_cured <= 1.0
    assert seen.energy_error < 1e-10


def test_the_shop_by_the_hour_is_felt():
    # poured at 9 o'clock; the fast resin gels within hours, so it matters which half of the day is warm
    still = block_site(0.01, 0.1, resin="epoxy-fast")
    day = tuple(296.15 if 8 <= hour < 20 else 290.15 for hour in range(24))
    night = tuple(290.15 if 8 <= hour < 20 else 296.15 for hour in range(24))
    gelled = [
        one_pour(dataclasses.replace(still, climate=Climate(ZERO, ZoneInfo("UTC"), hourly)), goal=Goal.PEAK)
        for hourly in (day, (293.15,) * 24, night)
    ]
    by_day, steady, by_night = (seen.gel_last for seen in gelled)
    assert by_day < 0.95 * steady
    assert by_night > 1.05 * steady


@pytest.mark.parametrize("steps", [1, 150, 319, 320, 1000])
def test_a_history_has_at_most_200_points_and_keeps_ends_and_peak(steps):
    diary = _Diary(np.ones((1, 1, 1), dtype=bool))
    heights = np.sin(np.linspace(0.0, 3.0, steps))
    for time, height in enumerate(heights.tolist()):
        diary(float(time), np.full((1, 1, 1), height), np.zeros((1, 1, 1)))
    told = diary.history()
    assert min(steps, 99) <= len(told.time) <= 200
    assert (told.time[0], told.time[-1]) == (0.0, steps - 1.0)
    assert max(told.hottest) == heights.max()
