"""Gypsum and concrete: balances of mass and volume, batches, drying, heat of setting."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.fill.drying import drying
from pourwright.fill.mineral_batches import split
from pourwright.fill.minerals import Aggregate, mix_mineral, paste_densities, water_range
from pourwright.fill.setting import at_temperature, setting_of
from pourwright.foundation.errors import UserError
from pourwright.materials import load_materials
from pourwright.materials.batches import Tools
from pourwright.physics.concrete_mix import mix_by_absolute_volume
from pourwright.physics.hydration import hydration_heat, ultimate_hydration
from pourwright.physics.plaster import SETTING_HEAT, dry_density, slurry_density, water_to_set

MINERAL = load_materials().mineral
GLASS = load_materials().glass["soda-lime-crushed"]
NAMES = st.sampled_from(sorted(MINERAL))
VOLUMES = st.floats(1e-4, 0.5)
GRAINS = st.builds(Aggregate, st.floats(0.0, 0.5), st.floats(2300.0, 2700.0), st.floats(0.40, 0.48))
AIR = (293.15, 0.5)


def wetter(name: str, share: float) -> float:
    """A ratio of water between the least and the most that can be reckoned."""
    low, high = water_range(MINERAL[name])
    return low + share * (high - low)


@settings(max_examples=60, deadline=None)
@given(NAMES, VOLUMES, GRAINS, st.floats(0.0, 1.0), st.floats(0.0, 0.3))
def test_mass_is_neither_lost_nor_made(name, volume, grains, water, allowance):
    mix = mix_mineral(volume, MINERAL[name], allowance, water_ratio=wetter(name, water), aggregate=grains)
    assert mix.powder + mix.water + mix.aggregate == pytest.approx(mix.mixed, rel=1e-12)
    assert mix.piece_mass + mix.dries_out == pytest.approx(mix.wet_mass, rel=1e-12)
    assert mix.mixed == pytest.approx((1 + allowance) * mix.wet_mass, rel=1e-12)
    assert mix.aggregate == pytest.approx(
        grains.share * volume * (1 + allowance) * grains.density, rel=1e-12, abs=1e-12
    )
    # what dries out is water, and no more of it than went in
    assert -1e-9 <= mix.dries_out <= mix.water / (1 + allowance) + 1e-9


@settings(max_examples=30, deadline=None)
@given(NAMES, VOLUMES, GRAINS)
def test_masses_are_linear_in_the_volume(name, volume, grains):
    one, three = (mix_mineral(n * volume, MINERAL[name], aggregate=grains) for n in (1, 3))
    for field in ("mixed", "powder", "water", "aggregate", "piece_mass", "binder"):
        assert getattr(three, field) == pytest.approx(3 * getattr(one, field), rel=1e-12)
    assert three.wet_density == pytest.approx(one.wet_density, rel=1e-12)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(["gypsum-casting", "concrete-fine"]), st.floats(0.1, 0.95), st.floats(0.01, 0.05))
def test_more_water_makes_it_lighter_and_longer_to_dry(name, at, step):
    little, much = (
        mix_mineral(0.01, MINERAL[name], water_ratio=wetter(name, share)) for share in (at, at + step)
    )
    assert much.wet_density < little.wet_density
    assert much.piece_mass < little.piece_mass
    assert much.dries_out > little.dries_out


def test_gypsum_keeps_to_its_stoichiometry():
    """Densities of the record against those of grains and water; it binds 18.6 of water to 100 (E05, E06)."""
    gypsum = MINERAL["gypsum-casting"]
    for ratio in (0.5, 0.6, 0.7, 0.9):
        wet, dry = paste_densities(gypsum, ratio)
        assert wet == pytest.approx(slurry_density(ratio), rel=0.01)
        assert dry == pytest.approx(dry_density(ratio), rel=0.01)
        mix = mix_mineral(0.01, gypsum, 0.0, water_ratio=ratio)
        assert mix.dries_out == pytest.approx(mix.water - water_to_set() * mix.powder, rel=0.01)
    assert gypsum.setting_heat.value == SETTING_HEAT["alpha"].value


@pytest.mark.parametrize("share", [0.15, 0.3, 0.45])
def test_concrete_keeps_to_absolute_volumes(share):
    """The same cubic metre by the method of ACI 211: with 2 % of air its sand is that of the mix."""
    mix = mix_mineral(1.0, MINERAL["concrete-fine"], 0.0, aggregate=Aggregate(share, 2500.0, 0.45))
    lying = 0.55 * 2500.0
    made = mix_by_absolute_volume(
        mix.water,
        mix.water / mix.binder,
        coarse_bulk=share / 0.55,
        coarse_rodded=lying,
        air=0.022 * (1 - share),
        coarse_density=2500.0,
    )
    assert made.cement == pytest.approx(mix.binder, rel=1e-9)
    assert made.coarse == pytest.approx(mix.aggregate, rel=1e-9)
    assert made.sand == pytest.approx(mix.powder - mix.binder, rel=0.005)


@pytest.mark.parametrize(
    ("choice", "told"),
    [
        ({"water_ratio": 0.1}, "cannot be reckoned"),
        ({"water_ratio": 2.1}, "0.2 to 2"),
        ({"aggregate": Aggregate(0.55, 2500.0, 0.45)}, "leave no room"),
        ({"aggregate": Aggregate(0.9, 2500.0, 0.45)}, "less than 55%"),
    ],
)
def test_what_cannot_be_mixed_is_refused(choice, told):
    with pytest.raises(UserError, match=told):
        mix_mineral(0.01, MINERAL["gypsum-casting"], **choice)


@settings(max_examples=40, deadline=None)
@given(NAMES, st.floats(1e-3, 0.2), st.floats(0.002, 0.03), st.sampled_from([0.001, 0.01]))
def test_batches_hold_all_of_it(name, volume, pail, step):
    record, tools = MINERAL[name], Tools(pail=pail, scale_step=step)
    mix = mix_mineral(volume, record)
    made = split(mix, record.binder, record.working_time.value, tools)
    for field in ("powder", "water"):
        weighed = sum(getattr(batch, field) for batch in made.each)
        assert getattr(mix, field) - 1e-6 <= weighed <= getattr(mix, field) + len(made.each) * step + 1e-6
    assert made.each[0].mass <= made.most + 3 * step
    ends = [batch.in_after for batch in made.each]
    assert np.allclose(np.diff([0.0, *ends]), made.apart)


def test_less_working_time_makes_more_batches():
    gypsum = MINERAL["gypsum-casting"]
    mix = mix_mineral(0.03, gypsum)
    count = [len(split(mix, "gypsum", 60.0 * time, Tools()).each) for time in (20, 10, 5, 4)]
    assert count == sorted(count)
    assert count[0] < count[-1]


@settings(max_examples=40, deadline=None)
@given(st.floats(1.05, 3.0), st.floats(0.2, 0.85), st.sampled_from(["gypsum", "cement"]))
def test_it_dries_later_thicker_and_damper(more, humid, binder):
    def of(scale: float, humidity: float):
        side = 0.1 * scale
        water = 400.0 * side**3
        return drying(water, side**3, 6 * side**2, (side, side, side), binder, (293.15, humidity))

    thin, thick, damp = of(1.0, humid), of(more, humid), of(1.0, humid + 0.05)
    assert thin.soonest < thick.soonest
    assert thin.latest < thick.latest
    assert thin.latest < damp.latest
    assert thin.soonest <= damp.soonest
    assert thin.soonest < thin.latest


def test_full_air_dries_nothing():
    found = drying(1.0, 0.001, 0.06, (0.1, 0.1, 0.1), "gypsum", (293.15, 1.0))
    assert found.soonest is None
    assert found.latest is None


def test_heat_of_concrete_is_that_of_its_cement():
    record = MINERAL["concrete-fine"]
    mix = mix_mineral(1.0, record, 0.0)
    found = setting_of(record, mix, GLASS)
    assert found.heat == pytest.approx(
        hydration_heat(ultimate_hydration(mix.water / mix.binder), mix.binder, record.setting_heat.value)
    )
    # 1 m3 of 2300 kg with 228 kg of water in it, powder at 1000 J/(kg K)
    assert found.rise == pytest.approx(found.heat / (mix.powder * 1000.0 + mix.water * 4186.0))


def test_grains_keep_it_cooler_and_an_unknown_binder_has_no_heat():
    record = MINERAL["gypsum-casting"]
    plain, filled = (
        setting_of(record, mix_mineral(0.01, record, aggregate=grains), GLASS)
        for grains in (None, Aggregate(0.3, 2500.0, 0.45))
    )
    assert 30.0 < plain.rise < 40.0  # workshops see 20 K in a thin cast to 40 K in a block
    assert filled.rise < plain.rise - 5.0
    unknown = dataclasses.replace(record, binder="", setting_heat=None)
    assert setting_of(unknown, mix_mineral(0.01, record), GLASS) is None


def test_the_cold_slows_concrete_alone():
    assert at_temperature(24.0, "cement", 283.15) > 1.5 * 24.0
    assert at_temperature(24.0, "gypsum", 283.15) == pytest.approx(24.0)


def test_a_record_with_another_binder_is_refused():
    with pytest.raises(UserError, match="gypsum, cement"):
        dataclasses.replace(MINERAL["gypsum-casting"], binder="lime")
