"""Cracks and halos of whole pours: which way the lights go, and that a workshop would believe them."""

from dataclasses import replace

import numpy as np
import pytest

from pourwright.geometry import revolve
from pourwright.pour.bearing import Kind, Light
from pourwright.pour.cracks import Cracks, Warmed, after_warm_box, cracks
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.follow import Goal, follow
from pourwright.pour.hardening import HardeningDiary, cool_since
from pourwright.pour.lag import cooling_lag
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, rehearse
from pourwright.pour.site import Bed
from pourwright.pour.snapshots import Recorder
from pourwright.pour.stages import add_pour, empty_mold
from pourwright.solver import Control
from tests.pour.blocks import HOUR, ZERO_CELSIUS, block_site


def judged(depth, width, solid=0.0, degrees=20.0, resin="epoxy-slow-deep", *, change=None, spacing=0.0125):
    """Pour it at once, follow it until it may be opened, judge it; with its peak [degC] and its end."""
    site = block_site(depth, width, solid, degrees, resin)
    site = site if change is None else change(site)
    layout = lay_out(site, spacing, [depth])
    stage = add_pour(empty_mold(layout, 0.0), depth)
    diary = HardeningDiary(layout)
    diary.pour(stage)
    seen = follow(stage, Goal.READY, control=Control(tolerance=0.1), observer=diary)
    return cracks(seen.stage, diary.hardened(seen.stage)), seen


def of(found: Cracks, kind: Kind):
    return next(place for place in found.places if place.kind is kind)


@pytest.fixture(scope="module")
def mild():
    return judged(0.05, 0.12)


@pytest.fixture(scope="module")
def hot():
    return judged(0.06, 0.3)


def test_a_mild_pour_is_all_green(mild):
    found, seen = mild
    assert seen.peak - ZERO_CELSIUS < 50.0
    assert {place.light for place in found.places} == {Light.GREEN}


def test_a_block_that_got_far_too_hot_is_not_green(hot):
    found, seen = hot
    assert 90.0 < seen.peak - ZERO_CELSIUS < 120.0
    assert of(found, Kind.CORE).light is not Light.GREEN


def test_a_block_that_smoked_is_red():
    found, seen = judged(0.09, 0.25)
    assert seen.peak - ZERO_CELSIUS > 150.0
    assert of(found, Kind.CORE).light is Light.RED


def test_deeper_hotter_worse(mild):
    loads = [of(judged(depth, 0.12)[0], Kind.CORE).load.value for depth in (0.03, 0.05, 0.07)]
    assert loads[0] < loads[1] < loads[2]
    warmer, _ = judged(0.05, 0.12, degrees=26.0)
    assert of(warmer, Kind.CORE).load.value > of(mild[0], Kind.CORE).load.value


def test_in_a_bed_the_grains_are_the_worst_place():
    found, _ = judged(0.15, 0.15, 0.55)
    assert found.worst.kind is Kind.GRAIN
    assert not [place for place in found.places if place.kind is Kind.CORE]


def test_over_the_limit_of_the_resin_no_core_is_green(mild):
    def cautious(site):
        limit = replace(site.resin.peak_limit, value=290.0, low=None)
        return replace(site, resin=replace(site.resin, peak_limit=limit))

    found, _ = judged(0.05, 0.12, change=cautious)
    core = of(found, Kind.CORE)
    assert core.load.light is Light.GREEN
    assert core.light is Light.AMBER


def test_a_border_of_neat_and_filled_is_found():
    def banded(site):
        return replace(site, beds=(Bed(0.0, 0.04, 0.0), Bed(0.04, 0.09, 0.55)))

    found, _ = judged(0.09, 0.12, change=banded)
    border = of(found, Kind.BORDER)
    assert border.place[2] == pytest.approx(0.04)
    assert border.case.neat == pytest.approx(0.04)
    assert border.case.filled == pytest.approx(0.05)


def test_a_step_of_the_outline_is_an_inner_corner():
    profile = np.array([[0.0, 0.0], [0.06, 0.0], [0.06, 0.03], [0.03, 0.03], [0.03, 0.07], [0.0, 0.07]])

    def stepped(site):
        return replace(site, piece=revolve(profile))

    found, _ = judged(0.07, 0.12, 0.55, change=stepped, spacing=0.01)
    corner = of(found, Kind.CORNER)
    assert corner.place[2] == pytest.approx(0.03)
    assert corner.load.value > of(found, Kind.SKIN).load.value


def test_what_is_noted_of_a_cell_agrees_with_the_run(hot):
    found, seen = hot
    core = of(found, Kind.CORE)
    # the hottest since gel is the peak of a core that gels on its way up
    assert core.hottest == pytest.approx(seen.peak, abs=8.0)
    # it turns to glass below the glass transition of the cured resin, above the shop
    assert 293.15 < core.glass_at <= 325.15
    total = core.case.cure_soft + core.case.cure_glass
    assert total == pytest.approx(float(seen.stage.state.conversion.max()) - 0.577, abs=0.02)


def test_slower_cooling_leaves_the_core_nearer_its_skin(hot):
    found, _ = hot
    assert found.rate * found.lag == pytest.approx(found.difference, rel=1e-12)
    # what is used up is not left for cooling
    assert found.difference < judged(0.05, 0.12)[0].difference


def test_lag_of_a_wide_wall_is_the_textbook_parabola():
    site = block_site(0.06, 0.6)
    layout = lay_out(site, 0.02, [0.06], layers=np.arange(0.004, 0.06, 0.004))
    diffusivity = site.resin.conductivity.value / (site.resin.density.value * site.resin.heat_capacity.value)
    # 600 mm are ten times as wide as deep: sides lower the middle by less than a part in a thousand
    assert cooling_lag(layout) == pytest.approx(0.03**2 / (2 * diffusivity), rel=0.01)


def test_lag_grows_with_the_square_of_the_size():
    small, large = (cooling_lag(lay_out(block_site(d, d), d / 10, [d])) for d in (0.06, 0.12))
    # the grids are not alike: each has a line 6 mm under the top
    assert large == pytest.approx(4 * small, rel=0.02)


def test_it_is_not_opened_while_the_core_is_hot():
    # a fast resin is hard within hours, with its core far above the shop
    found, seen = judged(0.06, 0.12, 0.55, resin="epoxy-fast")
    left = seen.stage.state.temperature[seen.stage.poured].max() - (DEFAULTS["room"].value)
    assert left <= DEFAULTS["open_within"].value
    assert seen.ready >= found.cool_at - 60.0
    assert found.cool_at > seen.peak_time


def test_when_it_was_last_as_warm():
    rows = [(0.0, 290.0), (1.0, 310.0), (2.0, 290.0), (3.0, 305.0), (5.0, 295.0)]
    assert cool_since(rows, 300.0) == pytest.approx(4.0)
    assert cool_since(rows, 320.0) == 0.0
    assert cool_since(rows, 292.0) == float("inf")


def test_a_neat_top_sinks_by_what_cures_before_gel():
    found, _ = judged(0.05, 0.12)
    (sink,) = found.sinks
    # gelled cold: 4 % (the family's most) of 0.577 of 50 mm, by hand 1.154 mm
    assert sink.most == pytest.approx(1.154e-3, rel=1e-3)
    assert 0.0 < sink.depth < sink.most
    assert sink.liquid == pytest.approx(0.12 * 0.12 * 0.05, rel=1e-6)


def test_a_rehearsal_that_is_recorded_is_judged_and_names_the_right_pours():
    site = block_site(0.06, 0.1)
    layout = lay_out(site, 0.0125, [0.03, 0.06])
    plan = (Planned(0.03, 0.0), Planned(0.06, 40 * HOUR))
    bare = rehearse(layout, plan, Control(tolerance=0.1))
    told = rehearse(layout, plan, Control(tolerance=0.1), recorder=Recorder(layout))
    assert bare.cracks is None
    assert told.cracks is not None
    assert told.ready == bare.ready
    cores = [place for place in told.cracks.places if place.kind is Kind.CORE]
    assert [place.pour for place in cores] == [1, 2]
    assert cores[0].place[2] < 0.03 < cores[1].place[2]
    assert len(told.cracks.sinks) == 2


def test_a_round_casting_loses_no_liquid_to_its_cells():
    profile = np.array([[0.0, 0.0], [0.05, 0.0], [0.05, 0.06], [0.0, 0.06]])
    found, _ = judged(0.06, 0.1, change=lambda site: replace(site, piece=revolve(profile, segments=256)))
    # pi r2 h of a cylinder
    assert found.sinks[0].liquid == pytest.approx(np.pi * 0.05**2 * 0.06, rel=2e-3)


def test_a_warm_box_lets_it_shrink_once_more(mild):
    found, seen = mild
    site = seen.stage.layout.site
    cool = Warmed(hold=295.0, peak=295.0, glass_from=301.0, glass_to=301.0, cured=0.88)
    assert after_warm_box(found, site, cool) is None
    warm, warmer = (
        after_warm_box(found, site, Warmed(hold, hold + 1.0, 301.0, 318.0, 0.95)) for hold in (313.15, 323.15)
    )
    assert warm.load.value > found.worst.load.value
    assert warmer.load.value > warm.load.value
    # glass from the hold on, where the resin's own transition lies higher; else from that
    assert (warm.glass_at, warmer.glass_at) == (313.15, 318.0)
    # by hand: 0.95 less 0.577, and 20 K down to the shop
    assert warm.case.cure_soft == pytest.approx(0.373)
    assert warm.case.cooling_glass == pytest.approx(313.15 - 293.15)
