"""How long a batch may stand, in a plan, and how that splits batches; records that cannot be true."""

from dataclasses import replace
from pathlib import Path

import pytest

from pourwright.app.document.notes import odd_heat
from pourwright.app.document.pails import standing_part, why_within
from pourwright.app.setup import Setup, set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.jobs import load_job
from pourwright.materials import load_materials
from pourwright.materials.batches import Tools, largest_batch, time_to_pour
from pourwright.pour.bucket import pail_of
from pourwright.pour.defaults import DEFAULTS
from tests.app.conftest import SMALL

BIG = SMALL.replace('["80 mm", "60 mm", "50 mm"]', '["400 mm", "300 mm", "200 mm"]').replace("30 mm", "50 mm")


def setup_of(folder: Path, material: str, degrees: int = 22, *, more: str = "") -> Setup:
    job = folder / f"{material}-{degrees}.toml"
    text = BIG.replace("epoxy-slow-deep", material).replace("22 degC", f"{degrees} degC")
    job.write_text(text.replace("[casting]", f"[casting]\n{more}"), "utf8")
    loaded = load_job(job)
    return set_up(loaded, read_piece(loaded))


@pytest.mark.xdist_group("example")
def test_a_plan_says_how_long_each_batch_may_stand(stool):
    plan = stool.plans[0]
    for pour in plan.pours:
        standing = pour.standing
        assert standing.batch_kg == max(batch.mass_kg for batch in pour.batches)
        assert standing.pail_m3 == pytest.approx(0.010)
        assert pour.work_within_h <= min(1.0, standing.warm_after_h)
        assert standing.warm_after_h < (standing.hot_after_h or standing.watched_h)
        assert standing.prewarmed_until_h < standing.watched_h
        assert standing.tray_hot_after_h is None
        assert pour.start_temperature_degC < standing.tray_peak_degC < pour.start_temperature_degC + 5.0
    # warmed, a large batch runs hot sooner; a small one first cools to the shop
    largest = max((pour.standing for pour in plan.pours), key=lambda standing: standing.batch_kg)
    assert largest.prewarmed_until_h < largest.warm_after_h
    assert largest.prewarmed_hot_after_h < largest.hot_after_h
    told = [reason.text for reason in plan.reasons if reason.key == "pours[].work_within_h"]
    assert len(told) == 1
    assert "half the pot life" in told[0]


@pytest.mark.parametrize("material", ["epoxy-slow-deep", "epoxy-medium"])
def test_slow_batches_are_split_by_pail_and_scale_only(tmp_path, material):
    setup = setup_of(tmp_path, material)
    assert setup.most_in_pail > largest_batch(setup.resin.density.value, Tools())
    assert setup.batches(20.0) == setup.fill.batches(20.0)


@pytest.mark.parametrize("degrees", [16, 22, 30])
def test_every_batch_of_fast_epoxy_is_in_the_mold_in_time(tmp_path, degrees):
    setup = setup_of(tmp_path, "epoxy-fast", degrees)
    (first, *_) = made = setup.batches(24.0)
    assert len(made) > len(setup.fill.batches(24.0))
    assert sum(batch.mass for batch in made) >= 24.0
    kelvin = 273.15 + degrees
    pail = pail_of(setup.resin, first.mass, 0.010, kelvin, kelvin)
    # where stirring alone takes half the time, half of it is left to pour
    assert time_to_pour([first]) <= max(pail.work_within, 300.0 + pail.work_within / 2)


def test_warm_resin_makes_smaller_batches(tmp_path):
    cool = setup_of(tmp_path, "epoxy-fast", 20)
    warm = setup_of(tmp_path, "epoxy-fast", 20, more='start_temperature = "32 degC"')
    assert warm.most_in_pail < cool.most_in_pail


def test_the_pail_is_named_where_it_is_the_shortest(tmp_path):
    setup = setup_of(tmp_path, "epoxy-fast", 30)
    pail = pail_of(setup.resin, 5.0, 0.010, 303.15, 303.15)
    assert pail.work_within == pail.standing.pours_until < setup.resin.pot_life.value / 2
    assert "5.00 kg are 5 °C warmer" in why_within(setup, [pail])
    part = standing_part(pail)
    assert part.warm_after_h * 3600.0 == pytest.approx(pail.work_within)
    assert part.tray_depth_m < DEFAULTS["tray_depth"].value


@pytest.mark.parametrize("heat", [150e3, 900e3])
def test_a_heat_that_no_epoxy_has_is_warned_of(heat):
    resin = load_materials().resin["epoxy-medium"]
    assert list(odd_heat(resin)) == []
    odd = replace(resin, heat_of_reaction=replace(resin.heat_of_reaction, value=heat, low=None, high=None))
    (warning,) = odd_heat(odd)
    assert f"{heat / 1000:.0f} kJ/kg at 100 : 45" in warning
    assert list(odd_heat(replace(odd, family="casting polyester"))) == []
