"""The recommendation of a way of filling: it follows from air, time and sinking, and turns with them."""

import pytest

from tests.fill.two_ways import both_ways, filling_of

FAST = {"resin": "epoxy-fast", "depth": 0.15}


def test_it_turns_with_the_viscosity() -> None:
    thin, thick = (both_ways(**FAST, thick=mu) for mu in (0.9, 12.0))
    assert (thin.recommended, thick.recommended) == ("over-dry-glass", "stirred-in")
    assert thin.dry.down_after_h is not None
    assert thick.dry.down_after_h is None
    assert "not down yet" in thick.reason


def test_it_turns_with_the_grade() -> None:
    fine, coarse = (both_ways(grade=grade, depth=0.06) for grade in ("fine", "coarse"))
    assert (fine.recommended, coarse.recommended) == ("stirred-in", "over-dry-glass")
    assert fine.dry.strained_by == "air"
    assert "of air stays between the grains" in fine.reason


def test_it_turns_in_a_cold_shop() -> None:
    """Colder, less glass can be stirred into the thicker resin: the border sinks further."""
    fine = {"grade": "fine", "resin": "epoxy-slow-deep", "thick": 1.5}
    warm, cold = (both_ways(**fine, degrees=degrees) for degrees in (30.0, 8.0))
    assert warm.stirred.glass_share > cold.stirred.glass_share
    assert (warm.recommended, cold.recommended) == ("stirred-in", "over-dry-glass")


@pytest.mark.parametrize("grades", [("fine", "medium"), ("medium", "coarse")])
def test_finer_glass_is_slower_and_keeps_more_air(grades: tuple[str, str]) -> None:
    fine, coarse = (both_ways(grade=grade).dry for grade in grades)
    assert fine.margin < coarse.margin
    assert fine.air >= coarse.air
    assert fine.down_after_h > coarse.down_after_h
    assert fine.tube_h > coarse.tube_h


def test_glass_stirred_in_takes_more_resin_by_what_it_lies_looser() -> None:
    """The band takes voids of resin over dry glass, one less the share stirred in; losses as everywhere."""
    band = both_ways()
    assert band.stirred.glass_share < 1.0 - band.voids
    volume = 0.2 * 0.15 * 0.1
    assert band.dry.glass_kg / band.stirred.glass_kg == pytest.approx(
        (1.0 - band.voids) / band.stirred.glass_share
    )
    assert band.stirred.more_resin_kg > 1090.0 * volume * (1.0 - band.stirred.glass_share - band.voids)
    assert band.stirred.resin_kg - band.dry.resin_kg == pytest.approx(band.stirred.more_resin_kg)


def test_the_parts_of_the_air_are_all_of_it() -> None:
    dry = both_ways(**FAST, thick=12.0).dry
    assert dry.air == pytest.approx(dry.air_dry + dry.air_held + dry.air_late)
    assert dry.air_dry > 0.0


def test_resin_too_thick_to_stir_says_so() -> None:
    band = both_ways(thick=500.0)
    assert not band.stirred.possible
    assert band.stirred.glass_kg == 0.0


def test_what_is_advised_against_the_plan_is_warned_of() -> None:
    part = filling_of(grade="fine", depth=0.06)
    assert any("stirring the glass in is the better way" in text for text in part.warnings)
    assert not filling_of(grade="coarse").warnings


def test_the_curve_of_the_front_ends_where_it_is_down() -> None:
    band = both_ways()
    assert band.front_m[0] == 0.0
    assert band.front_m[-1] == pytest.approx(band.depth_m)
    assert band.front_h[-1] == pytest.approx(band.dry.down_after_h)
    assert band.front_h == sorted(band.front_h)


@pytest.mark.parametrize(
    ("grade", "ways"),
    [
        ("fine", ("stirred-in", "stirred-in", "stirred-in")),
        ("medium", ("over-dry-glass", "over-dry-glass", "stirred-in")),
        ("coarse", ("over-dry-glass", "over-dry-glass", "over-dry-glass")),
    ],
)
def test_the_manual_tells_what_is_recommended(grade: str, ways: tuple[str, str, str]) -> None:
    slow = both_ways(grade=grade, resin="epoxy-slow-deep", depth=0.15)
    fast, thick = (both_ways(grade=grade, **FAST, thick=mu) for mu in (None, 9.0))
    assert (slow.recommended, fast.recommended, thick.recommended) == ways
    assert (thick.good, slow.good) == (grade == "coarse", True)
