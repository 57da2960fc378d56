"""What bands shrink by, and resin poured over the open face."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, strategies as st

from pourwright.fill import BandChoice
from pourwright.fill.shrinking import Contracting, last_poured, liquid_layers, overfill_wanted
from pourwright.geometry import box
from pourwright.pour.sink import sink_depth

COARSE = BandChoice(grade="coarse", colour="green", void_fraction=0.45)
EPOXY = Contracting(
    cure_shrinkage=0.025,
    gel_conversion=0.577,
    cure_reached=0.92,
    cooling=20.0,
    resin_expansion=65e-6,
    grain_expansion=9e-6,
    resin_modulus=2.8e9,
    resin_poisson=0.37,
    grain_modulus=70e9,
    grain_poisson=0.2,
    touching=0.5,
)
solids = st.floats(0.01, 0.95)


def test_the_volume_rule() -> None:
    """2.5 % at 92 % cured in the 45 % that is resin: 1.035 %; before gel 2.5 % x 0.577 x 0.45."""
    assert EPOXY.by_volume(0.55) == pytest.approx(0.01035, rel=1e-12)
    assert EPOXY.before_gel(0.55) == pytest.approx(0.00649125, rel=1e-12)


def test_without_glass_all_ways_are_neat() -> None:
    """After gel 2.5 % x 0.343 by volume, and 20 K of 65e-6."""
    neat = 1.0 - (1.0 - 0.025 * 0.343) ** (1 / 3) + 20 * 65e-6
    assert EPOXY.stirred_in(0.0) == pytest.approx(neat, rel=1e-12)
    assert EPOXY.as_a_bed(0.0) == pytest.approx(neat, rel=1e-12)
    assert EPOXY.gaps(0.0) == 0.0


def test_all_glass_only_cools() -> None:
    assert EPOXY.stirred_in(1.0) == pytest.approx(20 * 9e-6, rel=1e-12)
    assert EPOXY.by_volume(1.0) == 0.0


@given(solids, st.floats(0.0, 1.0))
def test_grains_that_touch_hold_more_than_grains_apart(solid: float, touching: float) -> None:
    """Bonded grains apart already hold more than the volume rule, which lets them follow freely."""
    bed = replace(EPOXY, touching=touching).as_a_bed(solid)
    assert 20 * 9e-6 - 1e-15 <= bed <= EPOXY.stirred_in(solid) * (1 + 1e-3)
    assert bed >= replace(EPOXY, touching=1.0).as_a_bed(solid) - 1e-15


@given(solids, solids)
def test_more_glass_shrinks_less(one: float, other: float) -> None:
    few, many = sorted((one, other))
    for shrinks in (EPOXY.by_volume, EPOXY.before_gel, EPOXY.stirred_in, EPOXY.as_a_bed, EPOXY.gaps):
        assert shrinks(many) <= shrinks(few) + 1e-15


def test_what_is_cured_less_than_gel_loses_nothing_after_it() -> None:
    soft = replace(EPOXY, cure_reached=0.4, cooling=0.0)
    assert soft.by_volume(0.2) == pytest.approx(soft.before_gel(0.2), rel=1e-12)
    assert soft.stirred_in(0.2) == 0.0


def test_a_sunk_bed_worked_by_hand(fill) -> None:
    """200 mm with 45 % voids under 5 mm of cover hold 95 mm of liquid: 1.44 % of it are 1.37 mm of cover."""
    made = fill(box([0.3, 0.2, 0.205]), COARSE, neat_cover=0.005)
    bed = made.bands[0]
    made = replace(made, bands=(replace(bed, void_fraction=0.45), made.bands[1]))
    thick, liquid = liquid_layers(last_poured(made.bands), made.levels)
    assert liquid.sum() == pytest.approx(0.06 * 0.095, rel=1e-9)
    assert thick.sum() == pytest.approx(0.205, rel=1e-12)
    assert sink_depth(thick, liquid, 0.0144 * liquid.sum()) == pytest.approx(0.001368, abs=1e-6)


def test_the_last_pour_is_the_topmost_band_with_its_cover(fill, prism) -> None:
    neat_below = BandChoice(to=0.1)
    covered = fill(prism, neat_below, COARSE).bands
    assert [band.name for band in last_poured(covered)] == ["band 2", "neat cover"]
    neat = fill(prism, BandChoice(to=0.1, grade="coarse"), BandChoice(to=0.2), BandChoice()).bands
    assert [band.name for band in last_poured(neat)] == ["band 3"]


def test_nothing_is_poured_over_unless_asked(fill, prism) -> None:
    assert fill(prism, COARSE).ledger.overfill == 0.0


def test_overfill_is_the_open_face_times_its_depth(fill, prism, resin) -> None:
    """0.3 x 0.2 m, 3 mm deep."""
    made = fill(prism, COARSE, overfill=0.003)
    assert made.ledger.overfill == pytest.approx(0.06 * 0.003 * resin.density.value, rel=1e-9)
    assert made.piece_mass == pytest.approx(fill(prism, COARSE).piece_mass, rel=1e-12)


@given(st.floats(0.0, 0.05), st.floats(0.0, 1.0))
def test_resin_to_mix_is_linear_in_the_overfill(fill, prism, depth: float, share: float) -> None:
    none, part, all_ = (
        fill(prism, COARSE, overfill=each).resin_mixed for each in (0.0, depth * share, depth)
    )
    assert part - none == pytest.approx(share * (all_ - none), rel=1e-6, abs=1e-9)


def test_only_the_pour_that_reaches_the_top_goes_over_it(fill, hourglass) -> None:
    made = fill(hourglass, COARSE, overfill=0.002)
    over = [made.resin_between(a, b).overfill for a, b in itertools.pairwise((0.0, 0.1, 0.3, 0.4))]
    assert over[:2] == [0.0, 0.0]
    assert over[2] == pytest.approx(made.ledger.overfill, rel=1e-12)
    # 64 sides of a circle of 150 mm
    face = 64 / 2 * np.sin(2 * np.pi / 64) * 0.15**2
    density = made.choices.resin.density.value
    assert over[2] == pytest.approx(face * 0.002 * density, rel=1e-6)


@given(st.floats(0.0, 0.02), st.floats(0.0, 0.01))
def test_overfill_covers_sink_and_planing_to_half_a_millimetre(sinks: float, planed: float) -> None:
    wanted = overfill_wanted(sinks, planed)
    assert sinks + planed - 1e-9 <= wanted < sinks + planed + 0.0005
    assert wanted / 0.0005 == pytest.approx(round(wanted / 0.0005), abs=1e-9)
