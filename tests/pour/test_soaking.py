"""Resin down through dry glass: against closed forms and a stepped cure, and the way everything pulls."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy.integrate import solve_ivp

from pourwright.materials import load_materials
from pourwright.materials.batches import MIXING_TIME
from pourwright.physics.capillarity import capillary_rise, pore_radius
from pourwright.physics.cure_law import cure_rate
from pourwright.physics.infiltration import flow_needed
from pourwright.physics.permeability import kozeny_carman
from pourwright.pour.bucket import viscosity
from pourwright.pour.site import Bed, Site, cure_law
from pourwright.pour.soaking import smallest_bubble, soak, soak_margin
from pourwright.pour.thickening import thickening
from tests.pour.blocks import ZERO_CELSIUS, block_site

FINE = 0.0019


def filled(depth: float = 0.1, grain: float = FINE, solid: float = 0.55, **more) -> Site:
    """A block of glass whose grain is told."""
    plain = block_site(depth, 0.1, solid, **more)
    return replace(plain, beds=(Bed(0.0, depth, solid, grain),))


def with_beds(*beds: Bed, **more) -> Site:
    return replace(block_site(beds[-1].upper, 0.1, **more), beds=beds)


@pytest.mark.parametrize("resin", ["epoxy-slow-deep", "epoxy-fast"])
@pytest.mark.parametrize("degrees", [15.0, 25.0])
def test_thickens_as_a_stepped_cure_does(resin: str, degrees: float) -> None:
    record, temperature = load_materials().resin[resin], degrees + ZERO_CELSIUS
    law = cure_law(record.cure)

    def change(time: float, at: np.ndarray) -> list[float]:
        cure = min(float(at[0]), record.cure.gel_conversion.value - 1e-9)
        thick = float(viscosity(record, np.array([temperature]), np.array([cure]))[0])
        return [float(cure_rate(temperature, cure, law)), 1.0 / thick]

    found = thickening(record, temperature)
    seen = solve_ivp(
        change, (0.0, found.limit), [record.cure.initial_conversion.value, 0.0], rtol=1e-8, atol=1e-12,
        t_eval=[MIXING_TIME.value, found.limit],
    )  # fmt: skip
    at_limit = viscosity(record, np.array([temperature]), seen.y[0, -1:])[0]
    assert at_limit == pytest.approx(5.0, rel=0.01)
    assert found.until(found.limit) == pytest.approx(seen.y[1, -1] - seen.y[1, 0], rel=0.005)
    assert found.until_gel > found.until(found.limit)


def test_a_slow_resin_soaks_as_one_of_steady_viscosity() -> None:
    site, depth, voids = filled(), 0.1, 0.45
    mixed = float(viscosity(site.resin, np.array([293.15]), np.array([1e-4]))[0])
    # common numbers of the record: sphericity 0.65, 0.040 N/m, 60 degrees
    rise = capillary_rise(0.040, pore_radius(FINE, voids, sphericity=0.65), 1090.0, angle=60.0)
    exact = flow_needed(depth, kozeny_carman(FINE, voids, sphericity=0.65), 1090.0, voids, head=rise)
    found = soak(site, 0.0, depth, 0.0)
    assert found is not None
    assert found.after - MIXING_TIME.value == pytest.approx(mixed * exact, rel=0.02)
    assert found.depth == pytest.approx(depth)


def test_too_thick_before_it_is_through() -> None:
    found = soak(filled(0.3, 0.0006, resin="epoxy-fast"), 0.0, 0.3, 0.0)
    assert found is not None
    assert found.margin < 0.0
    assert found.after == np.inf


def test_it_is_through_in_time_just_where_the_margin_says_so() -> None:
    grains = np.geomspace(0.0003, 0.005, 40)
    found = [soak(filled(0.15, float(grain), resin="epoxy-fast"), 0.0, 0.15, 0.0) for grain in grains]
    told = [each for each in found if each is not None]
    assert [each.after < np.inf for each in told] == [each.margin >= 0.0 for each in told]
    assert {each.margin >= 0.0 for each in told} == {True, False}


@given(
    st.floats(0.02, 0.3), st.floats(0.0005, 0.01), st.floats(0.42, 0.6), st.floats(12.0, 28.0),
    st.sampled_from(["epoxy-slow-deep", "epoxy-medium", "epoxy-fast"]),
)  # fmt: skip
@settings(max_examples=40, deadline=None)
def test_deeper_finer_and_denser_glass_leaves_less(depth, grain, solid, degrees, resin) -> None:
    def left(depth: float = depth, grain: float = grain, solid: float = solid) -> float:
        return soak_margin(filled(depth, grain, solid, degrees=degrees, resin=resin), 0.0, depth, 0.0)

    assert left(depth=1.1 * depth) < left()
    assert left(grain=0.9 * grain) < left()
    assert left(solid=solid + 0.02) < left()


def test_a_run_that_gels_sooner_leaves_less() -> None:
    site = filled(0.15, resin="epoxy-fast")
    free, held = soak(site, 0.0, 0.15, 3600.0), soak(site, 0.0, 0.15, 3600.0, gels=3600.0 + 1800.0)
    assert free is not None
    assert held is not None
    assert held.limit == pytest.approx(1800.0)
    assert held.margin < 0.0 < free.margin
    assert held.after == np.inf


def test_a_warmer_mix_is_through_sooner_and_too_thick_sooner() -> None:
    cool, warm = (soak(filled(degrees=degrees), 0.0, 0.1, 0.0) for degrees in (16.0, 26.0))
    assert cool is not None
    assert warm is not None
    assert warm.after < cool.after
    assert warm.limit < cool.limit


def test_cold_glass_takes_the_warmth_out_of_a_warm_mix() -> None:
    cold = filled(degrees=12.0)
    poured_warm = replace(cold, resin_temperature=303.15)
    times = [soak(site, 0.0, 0.1, 0.0).after for site in (cold, poured_warm, filled(degrees=30.0))]
    assert times[0] > times[1] > times[2]


def test_only_glass_below_the_neat_cover_counts() -> None:
    covered = with_beds(Bed(0.0, 0.08, 0.55, FINE), Bed(0.08, 0.1, 0.0))
    found, alone = soak(covered, 0.0, 0.1, 0.0), soak(covered, 0.0, 0.08, 0.0)
    assert found is not None
    assert alone is not None
    assert found.depth == alone.depth == pytest.approx(0.08)
    assert found.after == pytest.approx(alone.after)


def test_fine_glass_above_coarse_slows_the_whole_way() -> None:
    fine_above = with_beds(Bed(0.0, 0.05, 0.55, 0.008), Bed(0.05, 0.1, 0.55, FINE))
    coarse_above = with_beds(Bed(0.0, 0.05, 0.55, FINE), Bed(0.05, 0.1, 0.55, 0.008))
    slow, quick = (soak(site, 0.0, 0.1, 0.0) for site in (fine_above, coarse_above))
    assert slow is not None
    assert quick is not None
    assert slow.depth == quick.depth == pytest.approx(0.1)
    assert slow.after > quick.after


def test_a_pour_soaks_its_own_glass_only() -> None:
    site = filled(0.2)
    whole, upper = soak(site, 0.0, 0.2, 0.0), soak(site, 0.1, 0.2, 0.0)
    assert whole is not None
    assert upper is not None
    assert upper.depth == pytest.approx(0.1)
    assert upper.after < whole.after


@pytest.mark.parametrize("site", [block_site(0.1, 0.1), block_site(0.1, 0.1, 0.55)])
def test_nothing_is_said_without_glass_or_where_nobody_told_its_grain(site: Site) -> None:
    assert soak(site, 0.0, 0.1, 0.0) is None
    assert soak_margin(site, 0.0, 0.1, 0.0) == np.inf


def test_small_bubbles_stay_above_all_in_fast_resin_and_deep_pours() -> None:
    slow, fast = (block_site(0.1, 0.1, resin=name) for name in ("epoxy-slow-deep", "epoxy-fast"))
    assert smallest_bubble(slow, 0.0, 0.1, 0.0) < smallest_bubble(fast, 0.0, 0.1, 0.0)
    shallow, deep = (smallest_bubble(fast, 0.0, depth, 0.0) for depth in (0.025, 0.1))
    assert deep / shallow == pytest.approx(2.0)
