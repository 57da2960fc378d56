"""Money and runs, from textbooks of costing.

H01, H02: break-even, target profit and margin of safety: 50,000 fixed, 25 a unit, 15 of them variable;
closed form of any text on managerial accounting. H03: margin and mark-up by their definition. H04: dealer
and shop price, keystone doubled. H05, H06: 80 % learning curve, Wright (1936), unit form of Crawford;
factors as the tables of Heizer and Render, Operations Management, module E, print them (0.702, 0.477, 0.227
for the 3rd, 10th and 100th, total of ten 6.315: from memory). H08: full absorption cost over yield. H09:
starts for 12 good pieces at 90 %: negative binomial. H10: triangular law, and three estimates of
Malcolm et al. (1959). H11: three deviations of a mean over 20,000 draws, central limit theorem. H13: capital
recovery, factor A/P of 10 % over 5 years, 0.2638 in the tables of engineering economy.
"""

from decimal import Decimal

import pytest

from pourwright.costing.even import break_even, capital_recovery, margin_of_safety
from pourwright.costing.learning import total_factor, unit_factor
from pourwright.costing.lines import Line, Run, cost_of
from pourwright.costing.margins import Terms, margin_from_markup, markup_from_margin, price_for
from pourwright.costing.risk.month import Month, Parts
from pourwright.costing.risk.months import Months
from pourwright.costing.risk.three_points import ThreePoints
from pourwright.costing.starts import chance_of, starts_for, starts_per_good

FIXED, PRICE, VARIABLE = Decimal(50_000), Decimal(25), Decimal(15)


def test_break_even() -> None:
    # H01
    even = break_even(FIXED, PRICE, VARIABLE)
    assert (even.units, even.revenue, even.ratio) == (5000, 125_000, Decimal("0.4"))


def test_target_profit_and_margin_of_safety() -> None:
    # H02
    assert break_even(FIXED, PRICE, VARIABLE, Decimal(20_000)).units == 7000
    assert 8000 * (PRICE - VARIABLE) - FIXED == 30_000
    assert margin_of_safety(Decimal(8000), 5000) == Decimal("0.375")


@pytest.mark.parametrize(("markup", "margin"), [("0.25", 0.2), ("0.4", 0.285714), ("1", 0.5)])
def test_margin_from_markup(markup: str, margin: float) -> None:
    # H03
    assert float(margin_from_markup(Decimal(markup))) == pytest.approx(margin, rel=1e-5)


@pytest.mark.parametrize(("margin", "markup"), [("0.4", 0.666667), ("0.5", 1.0)])
def test_markup_from_margin(margin: str, markup: float) -> None:
    # H03
    assert float(markup_from_margin(Decimal(margin))) == pytest.approx(markup, rel=1e-5)


def test_dealer_and_shop_price() -> None:
    # H04
    terms = Terms(tax=Decimal("0.2"))
    wholesale = price_for(Decimal(120), Decimal("0.4"), terms)
    assert (wholesale, 2 * wholesale, terms.gross(2 * wholesale)) == (200, 400, 480)


FACTORS = {
    1: 1.0,
    2: 0.8,
    3: 0.7021,
    4: 0.64,
    5: 0.5956,
    8: 0.512,
    10: 0.4765,
    20: 0.3812,
    50: 0.2838,
    100: 0.2271,
}


@pytest.mark.parametrize(("number", "factor"), FACTORS.items())
def test_learning_curve_of_80_percent(number: int, factor: float) -> None:
    # H05
    assert unit_factor(number, 0.8) == pytest.approx(factor, rel=5e-4)


@pytest.mark.parametrize(("count", "total"), [(2, 1.8), (5, 3.7377), (10, 6.3154), (20, 10.485)])
def test_total_of_a_run(count: int, total: float) -> None:
    # H06
    assert total_factor(count, 0.8) == pytest.approx(total, rel=1e-3)


def test_absorption_cost_of_a_good_piece() -> None:
    # H08: 60 of material, 2.5 h at 30 and at 18 of overhead, a mold of 900 for 30 casts, 9 of 10 good
    lines = [
        Line("material", "casting", Decimal(1), Decimal(60)),
        Line("labour", "casting", Decimal("2.5"), Decimal(30)),
        Line("overhead", "casting", Decimal("2.5"), Decimal(18)),
        Line("mold", "mold", Decimal(1), Decimal(900)),
    ]
    cost = cost_of(lines, Run(casts=Decimal(30), scrap=Decimal("0.1")), "EUR")
    assert cost.casting == Decimal("210.00")
    assert float(cost.exact) == pytest.approx(233.333, rel=1e-5)
    assert cost.full == Decimal("233.33")


def test_starts_for_good_pieces() -> None:
    # H09
    assert float(12 * starts_per_good(Decimal("0.9"))) == pytest.approx(13.3333, rel=1e-5)
    assert starts_for(12, 0.9, 0.95) == 16
    assert chance_of(12, 12, 0.9) == pytest.approx(0.28243, rel=2e-5)
    assert chance_of(12, 14, 0.9) == pytest.approx(0.84164, rel=1e-5)


def test_capital_recovery_of_a_tool() -> None:
    # H13
    assert float(1000 * capital_recovery(Decimal("0.1"), Decimal(5))) == pytest.approx(263.797, rel=1e-5)


def test_three_estimates() -> None:
    # H10
    triangle, pert = ThreePoints(4, 5, 9), ThreePoints(4, 5, 9, "PERT")
    assert (triangle.mean, triangle.deviation**2) == pytest.approx((6, 1.16667), rel=1e-5)
    assert (pert.mean, pert.deviation) == pytest.approx((5.5, 0.833333), rel=1e-6)


def test_mean_of_months_comes_within_three_deviations_over_the_root_of_their_number() -> None:
    # H11: profit is 1000 - hours, hours of 4, 5 and 9 times 1 / sd, so its deviation is 1 and its mean known
    hours, size = ThreePoints(4, 5, 9), 1.0 / ThreePoints(4, 5, 9).deviation
    sure = ThreePoints(0, 0, 0)
    month = Month(orders=1, fetch=1000, casting=Parts(work=size), piece=Parts(), scrap=sure, hours=hours)
    for seed in range(5):
        months = Months(month, seed, 20_000)
        assert months.mean_error == pytest.approx(0.0212132, rel=0.03)
        assert abs(months.mean - (1000 - 6 * size)) < 0.0212132
