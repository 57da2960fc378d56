"""Bands, voids, masses: by hand on a prism, by balance on anything."""

import dataclasses
import itertools

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.fill import BandChoice, BucketTest
from pourwright.foundation.errors import UserError
from pourwright.geometry import box

COARSE = BandChoice(to=0.2, grade="coarse", colour="green")
MEDIUM = BandChoice(to=None, grade="medium", colour="clear")
NEAT = BandChoice(to=None)


def test_a_prism_by_hand(fill, prism, glass, resin):
    piece = fill(prism, COARSE, MEDIUM, neat_cover=0.0)
    low, high = piece.bands
    voids = low.void_fraction
    assert low.volume == pytest.approx(0.012, rel=1e-12)
    assert low.glass_mass == pytest.approx(0.012 * (1 - voids) * glass.density.value, rel=1e-12)
    assert low.resin_mass == pytest.approx(0.012 * voids * resin.density.value, rel=1e-12)
    assert low.void_in_bucket == 0.45
    assert low.void_low < voids < low.void_high
    assert high.upper == 0.40


def test_grains_do_not_stand_out_of_the_open_face(fill, prism, glass):
    piece = fill(prism, COARSE, MEDIUM)
    assert [band.name for band in piece.bands] == ["band 1", "band 2", "neat cover"]
    largest = glass.grade("medium").sieve_to.value
    assert piece.neat_cover == pytest.approx(largest, rel=1e-12)
    assert piece.bands[1].upper == pytest.approx(0.4 - largest, rel=1e-12)
    assert not any("stand out" in text for text in piece.warnings)


def test_a_neat_band_on_top_is_its_own_cover(fill, prism):
    piece = fill(prism, COARSE, NEAT)
    assert [band.name for band in piece.bands] == ["band 1", "band 2"]
    assert piece.neat_cover == pytest.approx(0.2)
    thin = fill(prism, dataclasses.replace(COARSE, to=0.395), NEAT)
    assert any("stand out" in text for text in thin.warnings)


def test_a_bucket_test_wins_over_a_stated_void_fraction(fill, prism):
    test = BucketTest(mass=13.5, volume=0.010)
    piece = fill(prism, dataclasses.replace(COARSE, void_fraction=0.5, bucket_test=test), NEAT)
    # 13.5 kg in 10 litres of glass of 2500 kg/m3 leaves 4.6 litres
    assert piece.bands[0].void_in_bucket == pytest.approx(0.46, rel=1e-12)
    assert "measured here" in piece.bands[0].void_source


@pytest.mark.parametrize(
    ("band", "words"),
    [
        (BandChoice(to=0.5, grade="coarse", where="j:1"), "j:1: a band goes to 500 mm"),
        (BandChoice(to=0.0, grade="coarse", where="j:1"), "j:1: a band ends at 0 mm"),
        (BandChoice(to=0.2, grade="coarse", where="j:1"), "j:1: the bands end at 200 mm"),
        (BandChoice(grade="gravel", where="j:1"), "j:1: no grade called 'gravel'; allowed: fine"),
        (BandChoice(grade="coarse", void_fraction=0.35, where="j:1"), "j:1: a void fraction of 0.35"),
        (
            BandChoice(grade="coarse", bucket_test=BucketTest(25, 0.01), where="j:1"),
            "j:1: the bucket test gives",
        ),
    ],
)
def test_bands_that_cannot_be_laid(fill, prism, band, words):
    with pytest.raises(UserError) as refused:
        fill(prism, band)
    assert str(refused.value).startswith(words)


def test_a_top_band_thinner_than_its_cover_is_refused(fill, prism):
    with pytest.raises(UserError, match="deeper than the neat cover"):
        fill(prism, dataclasses.replace(COARSE, to=0.395), MEDIUM)


def test_no_band_at_all_is_refused(fill, prism):
    with pytest.raises(UserError, match="no band"):
        fill(prism)


def test_fine_on_coarse_is_warned_of_and_coarse_on_fine_is_not(fill, prism):
    fine = BandChoice(to=None, grade="fine", colour="blue")
    assert any("sift" in text for text in fill(prism, COARSE, fine).warnings)
    below = dataclasses.replace(fine, to=0.2)
    assert fill(prism, below, dataclasses.replace(COARSE, to=None)).warnings == ()


HEIGHTS = st.floats(0.02, 0.38)
GRADES = st.sampled_from(["fine", "medium", "coarse", None])


@settings(max_examples=60, deadline=None)
@given(st.lists(HEIGHTS, min_size=1, max_size=5, unique=True), st.data())
def test_glass_resin_and_volume_balance(fill, hourglass, glass, resin, heights, data):
    edges = sorted(heights)
    if any(b - a < 0.001 for a, b in zip(edges, [*edges[1:], 0.38], strict=True)):
        edges = edges[:1]
    bands = [BandChoice(to=z, grade=data.draw(GRADES), colour="a") for z in edges] + [NEAT]
    piece = fill(hourglass, *bands)
    volume = piece.glass_mass / glass.density.value + piece.resin_in_piece / resin.density.value
    assert volume == pytest.approx(piece.levels.total, rel=1e-9)
    assert sum(band.volume for band in piece.bands) == pytest.approx(piece.levels.total, rel=1e-12)
    assert piece.piece_mass == pytest.approx(sum(b.glass_mass + b.resin_mass for b in piece.bands), rel=1e-9)
    assert sum(lot.mass for lot in piece.glass) == pytest.approx(piece.glass_mass, rel=1e-9, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(-0.1, 0.5), max_size=6))
def test_pours_that_follow_each_other_sum_to_the_whole(fill, hourglass, levels):
    piece = fill(hourglass, COARSE, MEDIUM)
    edges = sorted([-0.2, *levels, 0.6])
    pours = [piece.resin_between(a, b) for a, b in itertools.pairwise(edges)]
    for name in ("voids", "neat", "film", "bucket", "allowance"):
        total = sum(getattr(pour, name) for pour in pours)
        assert total == pytest.approx(getattr(piece.ledger, name), rel=1e-9, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.02, 0.5), st.floats(0.02, 0.5), st.floats(0.05, 0.5))
def test_twice_the_height_of_a_prism_is_twice_the_resin(fill, x, y, z):
    one = fill(box([x, y, z]), NEAT, film=0.0)
    two = fill(box([x, y, 2 * z]), NEAT, film=0.0)
    assert two.resin_mixed == pytest.approx(2 * one.resin_mixed, rel=1e-9)
    glass = BandChoice(grade="coarse")
    one = fill(box([x, y, z]), glass, film=0.0, neat_cover=0.0)
    two = fill(box([x, y, 2 * z]), glass, film=0.0, neat_cover=0.0)
    # the floor is a wall of its own: the lower half lies a little looser than the upper
    assert two.resin_mixed <= 2 * one.resin_mixed * (1 + 1e-9)
    assert two.glass_mass >= 2 * one.glass_mass * (1 - 1e-9)
    assert two.glass_mass + two.resin_in_piece >= 2 * (one.glass_mass + one.resin_in_piece) * (1 - 1e-9)


def test_losses_come_on_top_in_their_order(fill, prism, resin):
    piece = fill(prism, NEAT, film=1e-3, bucket_loss=0.02, allowance=0.05)
    ledger = piece.ledger
    assert ledger.neat == pytest.approx(0.024 * resin.density.value, rel=1e-12)
    # bottom and four sides are wetted, the open face is not
    faces = 0.3 * 0.2 + 2 * (0.3 + 0.2) * 0.4
    assert ledger.film == pytest.approx(faces * 1e-3 * resin.density.value, rel=1e-9)
    assert ledger.allowance == pytest.approx(0.05 * (ledger.neat + ledger.film), rel=1e-12)
    assert ledger.bucket == pytest.approx(0.02 * ledger.total, rel=1e-12)


def test_a_piece_of_ten_kilos_needs_kilos(fill, resin):
    edge = (10.0 / resin.density.value) ** (1 / 3)
    piece = fill(box([edge, edge, edge]), NEAT)
    assert piece.piece_mass == pytest.approx(10.0, rel=1e-9)
    assert 10.0 < piece.resin_mixed < 11.5


def test_liquid_that_fits_below_a_height(fill, prism):
    piece = fill(prism, COARSE, MEDIUM, neat_cover=0.01)
    low, high = (band.void_fraction for band in piece.bands[:2])
    assert piece.liquid_below(0.1) == pytest.approx(0.006 * low, rel=1e-9)
    assert piece.liquid_below(0.4) == pytest.approx(0.06 * (0.2 * low + 0.19 * high) + 0.0006, rel=1e-9)


@settings(max_examples=50, deadline=None)
@given(st.floats(0.0, 0.4))
def test_the_level_of_the_liquid_below_a_height_is_that_height(fill, hourglass, height):
    piece = fill(hourglass, COARSE, MEDIUM)
    assert piece.level_of_liquid(piece.liquid_below(height)) == pytest.approx(height, abs=1e-9)
    assert piece.level_of_liquid(1.0) == piece.levels.top


def test_the_densest_band_presses_on_the_box(fill, prism, glass, resin):
    piece = fill(prism, COARSE, NEAT)
    voids = piece.bands[0].void_fraction
    expected = (1 - voids) * glass.density.value + voids * resin.density.value
    assert piece.densest == pytest.approx(expected, rel=1e-12)


def test_batches_of_a_pour_keep_the_resins_ratio(fill, prism, resin):
    piece = fill(prism, COARSE, NEAT)
    batches = piece.batches(piece.resin_mixed)
    assert sum(batch.mass for batch in batches) >= piece.resin_mixed
    assert len(piece.batches(piece.resin_mixed, most=1.0)) == int(piece.resin_mixed) + 1
    for batch in batches:
        assert batch.part_b / batch.part_a == pytest.approx(
            resin.parts_b.value / resin.parts_a.value, rel=1e-3
        )
