"""Change of size between master and piece, against theory worked out another way and published ranges."""

import numpy as np
import pytest

from pourwright.materials import load_materials
from pourwright.physics.filled_contraction import filled_contraction
from pourwright.physics.rubber_size import boxed_growth, cold_shrinkage
from pourwright.physics.wall_layer import MIDDLE, bared_share, skin_over_grains

RESIN, GLASS = (2.8e9, 0.37), (70e9, 0.2)


def coated_ball(
    inside: tuple[float, float, float], outside: tuple[float, float, float], share: float
) -> float:
    """Free contraction of a ball in a shell, from elasticity: each is modulus, Poisson's ratio, contraction.

    u = A r inside and B r + C/r^2 outside; equal displacement and radial stress at the border, none at the
    outer face. Ball of radius share^(1/3) in a shell of radius 1.
    """
    (bulk_in, _), (bulk_out, shear_out) = (
        (e / (3 * (1 - 2 * nu)), e / (2 * (1 + nu))) for e, nu, _ in (inside, outside)
    )
    a3 = share
    equations = [
        [1.0, -1.0, -1.0 / a3],
        [3 * bulk_in, -3 * bulk_out, 4 * shear_out / a3],
        [0.0, 3 * bulk_out, -4 * shear_out],
    ]
    loads = [0.0, -3 * bulk_in * inside[2] + 3 * bulk_out * outside[2], -3 * bulk_out * outside[2]]
    _, b, c = np.linalg.solve(equations, loads)
    return -float(b + c)


@pytest.mark.parametrize("share", [0.1, 0.45, 0.55, 0.62])
def test_grains_apart_contract_as_coated_balls(share: float) -> None:
    # Hashin's coated balls fill space and have the bulk modulus of the lower bound exactly
    exact = coated_ball((*GLASS, 0.0002), (*RESIN, 0.0042), share)
    assert filled_contraction(0.0042, 0.0002, share, *RESIN, *GLASS, 0.0) == pytest.approx(exact, rel=1e-12)


@pytest.mark.parametrize("share", [0.1, 0.45, 0.55, 0.62])
def test_grains_that_are_one_body_contract_as_balls_of_resin_in_glass(share: float) -> None:
    exact = coated_ball((*RESIN, 0.0042), (*GLASS, 0.0002), 1.0 - share)
    assert filled_contraction(0.0042, 0.0002, share, *RESIN, *GLASS, 1.0) == pytest.approx(exact, rel=1e-12)


def test_ends_of_the_mix_are_its_parts() -> None:
    for touching in (0.0, 0.5, 1.0):
        assert filled_contraction(0.0042, 0.0002, 0.0, *RESIN, *GLASS, touching) == pytest.approx(0.0042)
        assert filled_contraction(0.0042, 0.0002, 1.0, *RESIN, *GLASS, touching) == pytest.approx(0.0002)


def test_a_bed_shrinks_less_than_the_rule_of_volumes() -> None:
    # Schapery 1968: stiff grains hold more than their share of the volume
    for share in (0.3, 0.5, 0.6):
        rule = 0.0042 * (1 - share) + 0.0002 * share
        assert 0.0002 < filled_contraction(0.0042, 0.0002, share, *RESIN, *GLASS, 1.0) < rule
        assert 0.0002 < filled_contraction(0.0042, 0.0002, share, *RESIN, *GLASS, 0.0) < rule


@pytest.mark.parametrize(("held", "factor"), [(0.0, 1.5), (1.0, 3.0)])
def test_squeezed_rubber_follows_hooke(held: float, factor: float) -> None:
    # strains of a layer free across (1), held along (2), and up (3) free or held: solved for nu near 1/2
    nu, thermal = 0.4999999, 0.004
    compliance = np.array([[1, -nu, -nu], [-nu, 1, -nu], [-nu, -nu, 1]])
    free = [0] if held else [0, 2]
    held_axes = [axis for axis in range(3) if axis not in free]
    stress = np.zeros(3)
    stress[held_axes] = np.linalg.solve(compliance[np.ix_(held_axes, held_axes)], [-thermal] * len(held_axes))
    across = (compliance @ stress + thermal)[0]
    assert across == pytest.approx(factor * thermal, rel=1e-5)
    assert boxed_growth(thermal, 0.0, held).inward == pytest.approx(across, rel=1e-5)


def test_rubber_fills_its_gap_before_it_is_squeezed() -> None:
    small, large = boxed_growth(0.0008, 0.001, 0.5), boxed_growth(0.0015, 0.001, 0.5)
    assert (small.across, small.up, small.inward) == (0.0008, 0.0008, 0.0)
    assert large.across == 0.001
    # of 0.5 per mille that find no room, what goes in and what goes up are their volume: 3 e
    assert large.inward + large.up - large.across == pytest.approx(3 * 0.0005)


def test_rubber_that_cured_warm_shrinks_by_its_expansion_too() -> None:
    assert cold_shrinkage(0.0, 280e-6, 20.0) == pytest.approx(280e-6 * 20.0)
    assert cold_shrinkage(0.001, 280e-6, 0.0) == pytest.approx(0.001)


def test_the_skin_is_the_mean_over_a_ball() -> None:
    # mean of D/2 - sqrt(R^2 - r^2) over the disc under a ball, by rings
    radius = 0.5 * 0.0045
    r = (np.arange(100_000) + 0.5) / 100_000 * radius
    depth = np.average(radius - np.sqrt(radius**2 - r**2), weights=r)
    assert skin_over_grains(0.0045) == pytest.approx(depth, rel=1e-6)


def test_sanding_bares_circles_of_balls() -> None:
    grain = 0.0045
    for depth in (0.0, 0.0002, 0.001, 0.00225):
        circle = np.pi * (0.25 * grain**2 - (0.5 * grain - depth) ** 2)
        # balls per area so that their middles' plane is theirs by MIDDLE
        count = MIDDLE / (np.pi * 0.25 * grain**2)
        assert bared_share(depth, grain) == pytest.approx(count * circle, rel=1e-12, abs=1e-12)
    # Benenati and Brosilow 1962 (from memory): voids fall to about 0.2 half a grain from the wall
    assert 1 - bared_share(0.5 * grain, grain) == pytest.approx(0.2, abs=0.03)


def test_silicone_grows_as_the_handbook_says() -> None:
    # Polymer Data Handbook 1999 (from memory): 9.2e-4 /K by volume for unfilled silicone; fillers lower it
    for rubber in load_materials().rubber.values():
        number = rubber.expansion
        assert number.low is not None
        assert number.high is not None
        assert number.low < number.value < 9.2e-4 / 3 < number.high


def test_platinum_shrinks_less_than_tin() -> None:
    # common practice: platinum-cure about 0.1 %, tin-cure 0.2 to 0.6 %
    shrinks = {rubber.cure_kind: rubber.linear_shrinkage for rubber in load_materials().rubber.values()}
    assert shrinks["platinum"].value <= 0.0015
    assert 0.002 <= shrinks["tin"].value <= 0.006


def test_gypsum_grows_within_the_standard_and_concrete_shrinks_within_the_report() -> None:
    minerals = load_materials().mineral
    gypsum, concrete = (minerals[name].setting_shrinkage for name in ("gypsum-casting", "concrete-fine"))
    # ISO 6873 (from memory): plaster grows by 0 to 0.30 % in setting
    assert gypsum.low == pytest.approx(-0.003)
    assert -0.003 <= gypsum.value <= 0.0
    # ACI 209R (from memory): 780e-6 in the standard conditions
    assert concrete.low is not None
    assert concrete.high is not None
    assert concrete.low <= concrete.value <= 780e-6 <= concrete.high
