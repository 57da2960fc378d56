"""Thin layers and ribs: what every workshop knows of them, and the search that finds the least."""

import dataclasses
from math import inf

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.physics.cure_law import holding_time
from pourwright.physics.glass_transition import dibenedetto_conversion
from pourwright.planner.grids import layers_of
from pourwright.pour.follow import Goal, follow
from pourwright.pour.layout import lay_out
from pourwright.pour.shallow import Cured, Form, Verdict, _search, cure_of, least_thickness
from pourwright.pour.site import cure_law
from pourwright.pour.stages import add_pour, empty_mold
from pourwright.solver import Control
from tests.pour.blocks import ZERO_CELSIUS, block_site

QUICK = settings(max_examples=40, deadline=None, derandomize=True)
DAY = 86400.0
NEAT = block_site(0.04, 0.2, degrees=17.0)
WEEKS = 21 * DAY


def hard_after(site, form, thickness, solid=0.0):
    return cure_of(site, form, thickness, solid, watch=WEEKS).hard_after


@pytest.mark.parametrize("form", list(Form))
def test_a_film_takes_as_long_as_the_cure_law_at_the_shops_temperature(form):
    # nothing warms a film of 1 mm: the law at one temperature is its limit
    law = cure_law(NEAT.resin.cure)
    needed = float(dibenedetto_conversion(20.0 + 5.0 + ZERO_CELSIUS, *law.glass))
    start = NEAT.resin.cure.initial_conversion.value
    alone = holding_time(17.0 + ZERO_CELSIUS, start, needed, law)
    assert hard_after(NEAT, form, 0.001) == pytest.approx(alone, rel=0.02)
    assert hard_after(NEAT, form, 0.001) < alone


@pytest.mark.parametrize("form", list(Form))
def test_more_resin_is_hard_sooner(form):
    times = [hard_after(NEAT, form, thickness) for thickness in (0.003, 0.012, 0.03)]
    assert times == sorted(times, reverse=True)
    assert times[-1] < 0.95 * times[0]


def test_glass_keeps_it_cold_and_soft_for_longer():
    assert hard_after(NEAT, Form.LAYER, 0.03, 0.55) > hard_after(NEAT, Form.LAYER, 0.03)


def test_a_rib_between_rubber_walls_keeps_its_warmth_better_than_a_layer_under_air():
    assert hard_after(NEAT, Form.RIB, 0.02) < hard_after(NEAT, Form.LAYER, 0.02)


def test_a_colder_shop_needs_more_resin_until_none_will_do():
    found = [
        least_thickness(dataclasses.replace(NEAT, climate=NEAT.climate.shifted(kelvin)), Form.LAYER)
        for kelvin in (3.0, -1.0, -3.0, -12.0)
    ]
    assert [each.verdict for each in found] == [Verdict.ANY, Verdict.FROM, Verdict.FROM, Verdict.NONE]
    assert found[1].at.thickness < found[2].at.thickness
    assert found[3].at.hard_after == inf


def test_a_wide_layer_is_the_middle_of_a_wide_block():
    # 30 mm in a mold of 0.6 m: what lies in the middle knows nothing of the sides
    site = block_site(0.03, 0.6, degrees=21.0)
    layout = lay_out(site, 0.05, [0.03], layers=layers_of((0.03,), site.block))
    whole = follow(add_pour(empty_mold(layout, 0.0), 0.03), Goal.READY, control=Control(tolerance=0.1))
    alone = cure_of(site, Form.LAYER, 0.03)
    assert alone.peak == pytest.approx(whole.peak, abs=0.3)
    # the corners of the block come later than its middle
    assert 0.9 * whole.ready < alone.hard_after < whole.ready


@QUICK
@given(st.floats(0.0031, 0.09), st.floats(1.2, 3.0))
def test_the_search_ends_just_above_the_least(least, factor):
    hot = least * factor

    def tried(thickness):
        after = 3 * DAY if thickness >= least else inf
        return Cured(thickness, after, 300.0, 0.8, too_hot=thickness > hot)

    verdict, found = _search(tried)
    assert verdict is Verdict.FROM
    assert least <= found.thickness <= 1.1 * least + 1e-12


@QUICK
@given(st.floats(0.004, 0.09))
def test_what_is_too_hot_before_it_is_hard_is_refused(hot):
    verdict, found = _search(lambda thickness: Cured(thickness, inf, 300.0, 0.8, too_hot=thickness > hot))
    assert verdict is Verdict.NONE
    assert found.thickness <= hot
