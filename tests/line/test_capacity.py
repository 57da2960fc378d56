"""Pieces a month and the second mold, reckoned by hand."""

from dataclasses import replace
from decimal import Decimal

import pytest

from pourwright.foundation.errors import UserError
from pourwright.line.capacity.rate import mold_time, rate, working_hours
from pourwright.line.capacity.second import second_mold
from pourwright.line.dates.castings import castings_of
from pourwright.line.dates.halves import Halves
from pourwright.line.dates.route import Route, Step

# poured at 8:00, out five days later at the earliest, then the mold rests for the night
WEEKLY = Route(
    "stool", (Step("pour", 2.0), Step("take out", 2.0, gap=120.0)), rest=14.0, finishing=6.0, scrap=0.2
)


def test_a_mold_that_is_kept_for_a_week_is_poured_once_a_week_or_less(halves: Halves) -> None:
    """Poured on Monday, out on Saturday, so Monday 8:00 to 10:00; rested at midnight, poured on Tuesday.

    From then on each is ready on a Sunday, out on Monday and poured again on Tuesday: 7 days.
    """
    time = mold_time(castings_of(WEEKLY, halves))
    assert time.kept == pytest.approx(120.0 + 2.0 + 14.0)
    assert time.cycle / 24 == pytest.approx(7.0, abs=0.2)


def test_working_hours_of_a_month(halves: Halves) -> None:
    """50 h a week are 217.4 h a month of 30.44 days."""
    assert working_hours(castings_of(WEEKLY, halves)) == pytest.approx(50 * 30.4375 / 7, rel=0.01)


def test_the_smaller_of_what_molds_and_people_let_through(halves: Halves) -> None:
    """A casting in 7 days gives 4.35 a month, four in five of them good: 3.5 pieces.

    (4 / 0.8 + 6) h = 11 h each: one person makes 19.8 of them.
    """
    castings = castings_of(WEEKLY, halves)
    time = replace(mold_time(castings), cycle=168.0)
    one = rate(castings, time, 1, 1)
    assert one.pieces == pytest.approx(30.4375 / 7 * 0.8, rel=1e-6)
    assert one.by_people == pytest.approx(217.4 / 11, rel=0.01)
    assert (one.bottleneck, rate(castings, time, 6, 1).bottleneck) == ("mold", "people")
    assert rate(castings, time, 6, 2).pieces == pytest.approx(6 * one.pieces)


def test_a_second_mold_pays_where_its_pieces_bring_more_than_it_costs() -> None:
    """600 EUR; 3 pieces more a month leave 80 EUR each: 240 EUR, back after 2.5, so 3 months.

    It gives 27 pieces, so 9 months, 2160 - 600 = 1560 EUR.
    """
    found = second_mold(Decimal(600), Decimal(80), Decimal(3), Decimal(27))
    assert (found.added, found.months, found.life, found.earned) == (240, 3, 9, 1560)
    assert found.pays


def test_a_second_mold_that_wears_out_first_does_not_pay() -> None:
    """27 pieces that leave 20 EUR each are 540 EUR, less than 600."""
    found = second_mold(Decimal(600), Decimal(20), Decimal(3), Decimal(27))
    assert (found.months, found.earned, found.pays) == (None, -60, False)


def test_a_second_mold_whose_pieces_nobody_buys_does_not_pay() -> None:
    assert second_mold(Decimal(600), Decimal(80), Decimal(0), Decimal(27)).months is None


def test_a_mold_without_a_life_is_refused() -> None:
    with pytest.raises(UserError, match="good"):
        second_mold(Decimal(600), Decimal(80), Decimal(3), Decimal(0))
