"""Lights in words: where, why, and what to do about it."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from pourwright.app.document.crack_words import reason, remedy, small, where
from pourwright.app.document.cracks import _cover_words, _sink_words, cracks_warnings
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.plan_cracks import Cracks
from pourwright.pour.bearing import Case, Kind, Light, Load
from pourwright.pour.crack_places import Found
from pourwright.pour.sink import Sink
from tests.sheets.sample_cracks import PLACES, cracks

METRIC, US = UnitSystem.METRIC, UnitSystem.US
FOUND = Found(
    Kind.CORE, 2, (0.0, 0.0, 0.09), Case(apart_soft=6.0, apart_glass=1.5, depth=0.04),
    Load(0.4, 0.2, 0.7), Light.GREEN, 0.005, 0.0012, 326.15, 309.15,
)  # fmt: skip
LIMIT, SHOP = 338.15, 294.15


def of(kind, **changes):
    return replace(FOUND, kind=kind, **changes)


def test_where_speaks_the_makers_units():
    assert where(of(Kind.GRAIN), METRIC) == "between the grains, pour 2"
    assert where(of(Kind.BORDER), METRIC) == "where neat meets glass, up 90 mm"
    assert where(of(Kind.CORNER), US) == "inner corner, up 3 9/16 in"


def test_why_a_core_has_its_light():
    text = reason(FOUND, SHOP, LIMIT, METRIC)
    assert (
        "Hottest 53 °C, glass from 36 °C on: shrinks 0.50 % while soft, 0.12 % as glass down to 21 °C."
        in text
    )
    assert "127 °F" in reason(FOUND, SHOP, LIMIT, US)


def test_a_place_hotter_than_its_resin_is_kept_below_says_so():
    assert "65 °C" not in reason(FOUND, SHOP, LIMIT, METRIC)
    assert "hotter than the 65 °C" in reason(of(Kind.CORE, hottest=350.0), SHOP, LIMIT, METRIC)


def test_a_skin_is_judged_by_its_core():
    skin = of(Kind.SKIN, hottest=math.nan, glass_at=math.nan)
    assert reason(skin, SHOP, LIMIT, METRIC) == (
        "The core is at most 6.0 °C warmer while the skin is soft, 1.5 °C once it is glass."
    )


def test_a_sharp_corner_says_how_much_it_gathers():
    # 1 + 2 sqrt(40/0.5) by hand: 18.9
    assert "up to 19 times" in reason(of(Kind.CORNER, hottest=math.nan), SHOP, LIMIT, METRIC)


@pytest.mark.parametrize("kind", list(Kind))
def test_green_needs_nothing_and_all_else_has_a_remedy(kind):
    assert remedy(of(kind), METRIC) == ""
    assert "pour 2" in remedy(of(kind, light=Light.AMBER), METRIC)


def test_a_corner_is_rounded_by_a_quarter_of_its_depth():
    assert "to 10 mm" in remedy(of(Kind.CORNER, light=Light.RED), METRIC)


def test_small_lengths_keep_a_tenth_of_a_millimetre():
    assert small(0.0023, METRIC) == "2.3 mm"
    assert small(0.0023, US) == "0.09 in (2.3 mm)"


def test_red_places_warn_one_by_one_and_amber_ones_together():
    told = list(cracks_warnings(Cracks.model_validate(cracks())))
    assert len(told) == 2
    assert told[0].startswith("Expect a crack or a halo: inner corner")
    assert told[1] == "Cool it slowly and look for cracks and halos: between the grains, pour 1."
    assert list(cracks_warnings(Cracks.model_validate(cracks(places=PLACES[:2])))) == []
    assert list(cracks_warnings(None)) == []


def told_in(rim, overfill=0.0):
    """A piece 100 mm high whose panels end at ``rim``, with so much mixed to stand over it."""
    return SimpleNamespace(
        fill=SimpleNamespace(choices=SimpleNamespace(overfill=overfill)),
        mold=SimpleNamespace(rim=rim),
        piece=SimpleNamespace(frame=SimpleNamespace(height=0.1)),
        system=METRIC,
    )


def test_what_a_sinking_top_needs():
    sink = Sink(2, 1e-3, 8e-6, 2e-5, 0.0008, 0.002, 0.0)
    over = _sink_words(told_in(0.11), sink, 0.0218, last=True)
    assert over.startswith("Pour 2: the top sinks by 0.8 mm until it gels, at most 2.0 mm.")
    assert "Pour it 2.0 mm over" in over
    assert "keep 22 g of the mix ready" in over
    assert "No wall stands above" in _sink_words(told_in(0.1), sink, 0.0218, last=True)
    assert "the next pour fills it up" in _sink_words(told_in(0.11), sink, 0.0218, last=False)
    swollen = replace(sink, depth=-0.001)
    assert "its own warmth swells it" in _sink_words(told_in(0.11), swollen, 0.0218, last=True)


def test_an_overfill_that_is_mixed_is_poured():
    sink = Sink(2, 1e-3, 8e-6, 2e-5, 0.0008, 0.002, 0.0)
    over = _sink_words(told_in(0.11, 0.003), sink, 0.0218, last=True)
    assert "Pour it 3.0 mm over: that is mixed" in over
    assert "strip" not in over
    assert "strip around the opening" in _sink_words(told_in(0.1, 0.003), sink, 0.0218, last=True)
    assert "it wants 2.0 mm" in _sink_words(told_in(0.11, 0.001), sink, 0.0218, last=True)


def test_a_cover_that_sinks_below_one_grain_is_told_how_deep_it_should_be():
    assert _cover_words(told_in(0.1), None, None, 0.002) == ""
    # a neat band of its own is no cover
    assert _cover_words(told_in(0.1), 0.09, 0.006, 0.002) == ""
    assert "still covers the glass" in _cover_words(told_in(0.1), 0.009, 0.006, 0.002)
    thin = _cover_words(told_in(0.1), 0.006, 0.006, 0.002)
    assert "4.0 mm are left over the glass" in thin
    assert "make the cover 8.0 mm deep" in thin


@pytest.mark.xdist_group("example")
def test_a_mild_lamp_is_green_everywhere_and_says_what_its_open_face_needs(lamp):
    plan = lamp.plans[0]
    found = plan.cracks
    assert plan.pours[0].peak_temperature_degC < 40.0
    assert {place.light for place in found.places} == {"green"}
    assert {place.kind for place in found.places} == {"skin", "grain", "top", "border"}
    # by hand: 0.577 of the family's 4 % of all its liquid, 0.77 l of resin by the ledger
    liquid = plan.fill.resin.voids_kg + plan.fill.resin.neat_kg
    top = found.tops[0]
    assert top.missing_kg == pytest.approx(0.04 * 0.577 * liquid, rel=0.005)
    # no panels stand above its rim, so it is topped up, not poured over
    assert "No wall stands above its level" in top.text
    # cool long before it is hard: the cure decides when it is opened
    assert found.opening.cool_after_h < plan.demold.after_h
    # half a grain of cover is lost at most, and the page says how deep it should be
    assert found.cover_m == pytest.approx(0.0063)
    assert "neat_cover" in found.cover_text


@pytest.mark.xdist_group("example")
def test_what_the_lights_rest_on_is_among_the_sources(lamp):
    used = {source.id for source in lamp.plans[0].sources}
    assert {"selsing-1961", "timoshenko-1925", "asp-1996", "inglis-1913", "en-572-1"} <= used
