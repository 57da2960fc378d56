"""Heat of gypsum and concrete on the grid: balances that must close, orderings every workshop knows."""

from dataclasses import replace

import numpy as np
import pytest

from pourwright.fill.minerals import Aggregate, mix_mineral
from pourwright.fill.setting import setting_of
from pourwright.geometry import box
from pourwright.materials import load_materials
from pourwright.pour.layout import lay_out
from pourwright.pour.setting import SettingSite
from pourwright.pour.setting_run import run_setting
from pourwright.pour.site import Bed, Block, FillProperties
from pourwright.pour.stages import add_pour, empty_mold
from pourwright.solver import Control, run
from tests.pour.blocks import HOUR, celsius, shop

MATERIALS = load_materials()
GLASS = MATERIALS.glass["soda-lime-crushed"]
FULL = Aggregate(0.35, 2500.0, 0.45)


def block(name: str, width: float, height: float, degrees: float = 20.0, grains=None) -> SettingSite:
    """A square block, 20 mm of rubber around it, 19 mm below, in 18 mm MDF."""
    record = MATERIALS.mineral[name]
    found = setting_of(record, mix_mineral(0.01, record, aggregate=grains), GLASS)
    return SettingSite(
        piece=box([width, width, height]),
        block=Block((width + 0.04, width + 0.04), 0.019, 0.018, height),
        beds=(Bed(0.0, height, 0.0),),
        rubber=MATERIALS.rubber["silicone-platinum-a25"],
        board=MATERIALS.board["mdf"],
        climate=shop(degrees),
        matter=FillProperties(found.capacity, 0.0, found.conductivity, found.heat),
        law=found.law,
    )


def ran(site: SettingSite, spacing: float = 0.02):
    return run_setting(lay_out(site, spacing, [site.block.height]), 0.5, 20.0)


@pytest.fixture(scope="module")
def gypsum():
    return ran(block("gypsum-casting", 0.2, 0.2))


@pytest.fixture(scope="module")
def concrete():
    return ran(block("concrete-fine", 0.3, 0.3))


@pytest.mark.parametrize(("name", "hours"), [("gypsum-casting", 6.0), ("concrete-fine", 60.0)])
def test_what_loses_no_heat_rises_by_heat_over_capacity(name, hours):
    site = replace(block(name, 0.1, 0.1), bare=True, film=0.0)
    stage = add_pour(empty_mold(lay_out(site, 0.05, [0.1]), 0.0), 0.1)
    done = run(stage.problem, stage.state, hours * HOUR, control=Control(max_step=600.0))
    degree = done.state.conversion[stage.poured]
    rise = done.state.temperature[stage.poured] - 293.15
    np.testing.assert_allclose(rise, degree * site.matter.heat / site.matter.capacity, rtol=1e-3)
    assert np.ptp(rise) < 1e-6
    if name == "gypsum-casting":
        np.testing.assert_allclose(degree, 1.0, atol=1e-3)


def test_heat_balance_closes(gypsum, concrete):
    assert gypsum.energy_error < 1e-10
    assert concrete.energy_error < 1e-10


def test_it_stays_below_what_it_reaches_without_loss(gypsum, concrete):
    for seen, site in (
        (gypsum, block("gypsum-casting", 0.2, 0.2)),
        (concrete, block("concrete-fine", 0.3, 0.3)),
    ):
        assert celsius(seen.peak) < 20.0 + site.matter.heat / site.matter.capacity
        assert seen.peak > seen.rubber_peak > seen.box_peak > 293.15


def test_gypsum_is_hot_within_the_hours_and_concrete_within_the_day(gypsum, concrete):
    assert 0.3 * HOUR < gypsum.peak_time < 4 * HOUR
    assert 8 * HOUR < concrete.peak_time < 36 * HOUR
    assert celsius(gypsum.peak) > 45.0


def test_the_hottest_place_is_inside(concrete):
    x, y, z = concrete.place
    assert abs(x) < 0.05
    assert abs(y) < 0.05
    assert 0.05 < z < 0.25


def test_thicker_is_hotter_and_glass_or_a_cold_shop_cooler(concrete):
    thin, filled, cold = (
        ran(site, 0.025)
        for site in (
            block("concrete-fine", 0.15, 0.1),
            block("concrete-fine", 0.3, 0.3, grains=FULL),
            block("concrete-fine", 0.3, 0.3, degrees=10.0),
        )
    )
    assert thin.peak < concrete.peak - 5.0
    assert filled.peak < concrete.peak - 3.0
    assert cold.peak < concrete.peak - 10.0
    assert cold.peak_time > 1.3 * concrete.peak_time
    assert cold.hard > 1.3 * concrete.hard
    assert thin.history.widest[0] < concrete.history.widest[0]


def test_the_grid_does_not_decide_the_peak(gypsum):
    finer = ran(block("gypsum-casting", 0.2, 0.2), 0.0125)
    assert finer.peak == pytest.approx(gypsum.peak, abs=1.0)
    assert finer.peak_time == pytest.approx(gypsum.peak_time, rel=0.15)


def test_it_may_be_opened_once_it_is_even(concrete):
    """No place is warmer than the shop by 20 K from there on."""
    after = [
        top
        for time, top in zip(concrete.history.time, concrete.history.hottest, strict=True)
        if time >= concrete.even
    ]
    assert max(after) <= 293.15 + 20.0 + 1e-9
    assert concrete.even > concrete.peak_time
