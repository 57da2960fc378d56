"""Two ways of filling: air, sinking, work and choice against sums by hand, and the way everything pulls."""

from math import log

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy.integrate import quad

from pourwright.fill.ways.choice import BEYOND, Strain, choose, sinking_borne, strain
from pourwright.fill.ways.coat import face_coat
from pourwright.fill.ways.dry_air import DryBed, air_in_dry_bed
from pourwright.fill.ways.low_point import tube_fill
from pourwright.fill.ways.stirred import Mix, bubbles_that_stay, glass_that_goes_in
from pourwright.fill.ways.work import dry_work, stirred_work
from pourwright.materials.batches import Batch, Tools
from pourwright.physics.infiltration import flow_needed

GRAVITY = 9.80665
FLOWS = st.floats(1.0, 1e6)
THICK = st.floats(0.05, 90.0)


def bed(grain: float = 0.0012, depth: float = 0.1, permeability: float = 3e-9) -> DryBed:
    return DryBed(depth, 0.45, grain, permeability, 1100.0, 0.040)


def mix(share: float = 0.45, fluidity: float = 5000.0, **more: float) -> Mix:
    wanted = {"depth": 0.1, "packed": 0.55, "grain": 0.0019, "resin": 1100.0, "glass": 2500.0, "air": 1.2}
    return Mix(**(wanted | more), glass_share=share, fluidity=fluidity)


def batches(*masses: float) -> tuple[Batch, ...]:
    return tuple(Batch(number, mass, mass / 2, mass / 2, 0.0) for number, mass in enumerate(masses, 1))


def test_a_front_that_stops_half_way_leaves_the_other_half_dry() -> None:
    air = air_in_dry_bed(bed(grain=0.01), reached=0.05, left=1e9)
    assert air.dry == pytest.approx(0.45 / 2)
    assert air.total == air.dry


def test_what_a_slow_front_leaves_is_held_or_late() -> None:
    """Bond number far below 0.00667: 14.3 % of the voids, whatever the time."""
    held = air_in_dry_bed(bed(grain=0.0001), reached=0.1, left=1e9)
    assert held.total == held.held == pytest.approx(0.143 * 0.45)
    # coarse grains hold nothing; without time nothing comes up either
    late = air_in_dry_bed(bed(grain=0.01), reached=0.1, left=0.0)
    assert late.total == late.late == pytest.approx(0.143 * 0.45)


def test_loose_air_rises_as_fast_as_resin_runs_down() -> None:
    """Green & Ampt without a pond and pores: the same depth takes the same flow."""
    needed = flow_needed(0.1, 3e-9, 1100.0, 0.45)
    assert bed().rises(needed) == pytest.approx(0.1)
    # half of that: the lower half of what is loose stays
    half = air_in_dry_bed(bed(grain=0.01), reached=0.1, left=needed / 2)
    assert half.late == pytest.approx(0.143 * 0.45 / 2)


@given(FLOWS, FLOWS, st.floats(1e-4, 0.02), st.floats(1e-4, 0.02))
@settings(max_examples=60, deadline=None)
def test_more_time_and_coarser_grains_leave_less_air(
    one: float, two: float, fine: float, coarse: float
) -> None:
    short, long = sorted((one, two))
    assert air_in_dry_bed(bed(), 0.1, long).total <= air_in_dry_bed(bed(), 0.1, short).total
    airs = [air_in_dry_bed(bed(grain=grain), 0.1, 1e9).total for grain in sorted((fine, coarse))]
    assert airs[0] >= airs[1]


def test_grains_sink_as_stokes_and_richardson_and_zaki_say() -> None:
    """1400 x 9.80665 x 0.0019^2 / 18 x (1 - 0.3)^4.65, for 2 1/Pa."""
    found = mix(share=0.3, fluidity=2.0)
    assert found.falls == pytest.approx(2.0 * 1400.0 * GRAVITY * 0.0019**2 / 18.0 * 0.7**4.65)
    assert found.sinks == found.falls


def test_glass_that_lies_as_a_bed_sinks_no_more() -> None:
    """0.45 of the volume packed to 0.55 takes 0.45 / 0.55 of the depth."""
    assert mix(fluidity=1e6).sinks == pytest.approx(0.1 * (1.0 - 0.45 / 0.55))
    assert mix(fluidity=1e6, glass=1000.0).sinks == 0.0


@given(st.floats(0.0, 0.54), FLOWS)
@settings(max_examples=60, deadline=None)
def test_a_border_never_sinks_below_the_bed(share: float, fluidity: float) -> None:
    found = mix(share=share, fluidity=fluidity)
    assert 0.0 <= found.sinks <= found.clear_at_most + 1e-12


@given(THICK, THICK, st.floats(0.3, 0.65))
@settings(max_examples=60, deadline=None)
def test_thicker_resin_takes_less_glass(one: float, two: float, packed: float) -> None:
    thin, thick = sorted((one, two))
    assert glass_that_goes_in(thick, packed) <= glass_that_goes_in(thin, packed) < packed


def test_a_resin_too_thick_or_gelled_takes_none() -> None:
    assert glass_that_goes_in(200.0, 0.55) == 0.0
    assert glass_that_goes_in(np.inf, 0.55) == 0.0
    # common practice of the table: 100 Pa s, exponent 2; a resin of 1 Pa s
    assert glass_that_goes_in(1.0, 0.55) == pytest.approx(0.55 * 0.9)


@pytest.mark.parametrize("smallest", [0.00012, 0.0005, 0.0029, 0.01])
def test_bubbles_that_stay_by_adding_up_sizes(smallest: float) -> None:
    least, most = 0.0001, 0.003
    end = min(smallest, most)
    total = quad(lambda x: 1.0 - (np.exp(x) / smallest) ** 2, log(least), log(end))[0] / log(most / least)
    assert bubbles_that_stay(smallest) == pytest.approx(total, rel=1e-6)


@given(FLOWS, FLOWS)
@settings(max_examples=60, deadline=None)
def test_more_time_leaves_less_air_in_a_mix(one: float, two: float) -> None:
    short, long = sorted((one, two))
    assert mix(fluidity=long).air_left <= mix(fluidity=short).air_left


def test_stirring_takes_ten_minutes_a_pail_and_one_a_kilogram() -> None:
    """8 l in pails of 10 l, three quarters full: two of them; 12 kg at a kilogram a minute."""
    found = stirred_work(9.0, 0.008, batches(3.0), 3600.0, Tools(pail=0.010))
    assert (found.batches, found.time / 60.0) == (2, pytest.approx(32.0))
    assert found.batch_time / 60.0 == pytest.approx(16.0)


def test_a_fast_resin_wants_small_pails() -> None:
    """12 minutes leave two for pouring: two kilograms a batch."""
    found = stirred_work(9.0, 0.004, batches(3.0), 720.0, Tools(pail=0.010))
    assert found.batches == 6
    assert found.batch_time <= 720.0 + 1e-6


def test_dry_glass_is_laid_at_five_kilograms_a_minute() -> None:
    found = dry_work(10.0, batches(3.0, 3.0))
    assert (found.batches, found.time / 60.0) == (2, pytest.approx(2.0 + 2 * 5.0 + 6.0))


def test_a_wide_band_takes_a_tube_longer() -> None:
    narrow, wide = (tube_fill(area * 0.1, 0.1, 0.45, 3e-9, 1100.0) for area in (0.02, 0.04))
    assert wide.needed > 2.0 * narrow.needed
    assert wide.volume == pytest.approx(0.04 * 0.1 * 0.45)


def test_a_coat_stands_once_little_flow_is_left() -> None:
    """Half-way up 0.4 m: 1 mm stays for 0.2 / (1100 g 1e-6) = 18.5 1/Pa."""
    times, fluidity = np.array([0.0, 3600.0, 7200.0]), np.array([0.0, 5000.0, 6000.0])
    coat = face_coat(0.5, 0.4, 1100.0, times, fluidity)
    assert coat.mass == pytest.approx(0.55)
    assert coat.thins_to == pytest.approx((0.2 / (1100.0 * GRAVITY * 6000.0)) ** 0.5)
    left = 0.2 / (1100.0 * GRAVITY * 1e-6)
    assert coat.stands_from == pytest.approx(7200.0 - 3600.0 * left / 1000.0)


@given(st.floats(0.0, 20.0), st.floats(0.0, 20.0))
def test_dry_glass_unless_it_is_strained_more(dry: float, stirred: float) -> None:
    found = choose((Strain("air", dry),), (Strain("sinking", stirred),))
    if dry <= 1.0 or dry <= stirred:
        assert found.way == "over-dry-glass"
    elif dry > 1.2 * stirred:
        assert found.way == "stirred-in"


def test_what_nothing_bears_is_a_number_all_the_same() -> None:
    assert strain("time", np.inf, 10.0).ratio == strain("time", 1.0, 0.0).ratio == BEYOND
    assert strain("air", 0.02, 0.01).ratio == pytest.approx(2.0)
    assert sinking_borne(0.02, 0.003) == pytest.approx(0.005)
