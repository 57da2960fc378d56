"""What holds of every month that is drawn by chance."""

from dataclasses import replace
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy import stats

from pourwright.costing.risk.counts import among_at, failures_at, orders_at
from pourwright.costing.risk.month import SURE, Leak, Month, Parts
from pourwright.costing.risk.months import Months
from pourwright.costing.risk.three_points import ThreePoints, from_tenths
from pourwright.foundation.errors import UserError

COUNT = 60
FEW = settings(max_examples=40)
MONEY = st.floats(0, 500)
PARTS = st.builds(Parts, work=MONEY, cast=MONEY, glass=MONEY, rubber=MONEY, other=MONEY)
AROUND = st.builds(
    lambda low, high, law: ThreePoints(1 - low, 1.0, 1 + high, law),
    st.floats(0, 0.5),
    st.floats(0, 0.6),
    st.sampled_from(["triangular", "PERT"]),
)
SCRAP = st.builds(
    lambda low, more, top: ThreePoints(low, low + more, low + more + top), *[st.floats(0, 0.3)] * 3
)
SURE_SCRAP = st.floats(0, 0.9).map(lambda rate: ThreePoints(rate, rate, rate))
SPREADS = ("level", "hours", "cast", "rubber", "bought", "used", "paid")
MONTHS = st.builds(
    Month,
    orders=st.floats(0, 30),
    fetch=st.floats(0, 3000),
    casting=PARTS,
    piece=PARTS,
    scrap=SCRAP,
    most=st.one_of(st.just(float("inf")), st.floats(0.5, 20)),
    kept=st.floats(0, 3),
    lost_finished=st.booleans(),
    monthly=MONEY,
    rounding=st.floats(-0.05, 0.05),
    leak=st.builds(Leak, st.floats(0, 0.3), st.floats(0, 1), MONEY),
    one_by_one=st.booleans(),
    **dict.fromkeys(SPREADS, AROUND),
)
PLAIN = dict.fromkeys(SPREADS, SURE) | {"leak": Leak(), "one_by_one": False}


@FEW
@given(MONTHS, SURE_SCRAP, st.integers(0, 99))
def test_where_all_is_sure_the_band_has_no_width_and_is_the_planned_profit(
    month: Month, scrap: ThreePoints, seed: int
) -> None:
    sure = Months(replace(month, scrap=scrap, **PLAIN), seed, COUNT)
    for money in (*sure.band, sure.mean):
        assert round(Decimal(money), 2) == pytest.approx(
            round(Decimal(sure.month.planned), 2), abs=Decimal("0.01")
        )
    assert sure.profits.max() - sure.profits.min() <= 1e-9 * max(1.0, abs(sure.month.planned))


@FEW
@given(MONTHS, st.floats(0, 0.09), st.integers(0, 99))
def test_more_scrap_never_brings_more_where_a_piece_fetches_its_finishing(
    month: Month, more: float, seed: int
) -> None:
    # finishing at its dearest; one more good piece is then never a loss
    paid = replace(month, fetch=month.fetch + 4 * month.piece.total + 10, paid=SURE, leak=Leak())
    worse = ThreePoints(*(each + more for each in (paid.scrap.low, paid.scrap.likely, paid.scrap.high)))
    less = Months(replace(paid, scrap=worse), seed, COUNT)
    assert less.mean <= Months(paid, seed, COUNT).mean + 1e-6


@FEW
@given(MONTHS, st.integers(0, 99))
def test_bands_are_in_order_and_chances_are_chances(month: Month, seed: int) -> None:
    months = Months(month, seed, COUNT)
    low, middle, high = months.band
    assert low <= middle <= high
    assert 0 <= months.loses <= 1
    shares, edges = months.heights(12)
    assert shares.sum() == pytest.approx(1.0)
    assert len(edges) == len(shares) + 1


@FEW
@given(MONTHS, st.integers(0, 99))
def test_the_same_seed_gives_the_same_digits(month: Month, seed: int) -> None:
    once, again = (Months(month, seed, COUNT).profits for _ in range(2))
    assert once.tobytes() == again.tobytes()


@FEW
@given(MONTHS, st.integers(0, 99))
def test_what_ifs_are_of_the_same_months(month: Month, seed: int) -> None:
    # a higher fixed cost moves each single month by the same money, since none is drawn anew
    dearer = Months(replace(month, monthly=month.monthly + 100), seed, COUNT)
    moved = Months(month, seed, COUNT).profits - dearer.profits
    assert abs(moved - 100.0).max() < 1e-6


@FEW
@given(
    st.lists(st.floats(0.001, 0.999), min_size=1, max_size=20),
    st.integers(0, 60),
    st.floats(0, 0.9),
)
def test_counts_by_chance_are_those_of_their_laws(shares: list[float], count: int, chance: float) -> None:
    u, n, p = np.array(shares), np.full(len(shares), float(count)), np.full(len(shares), chance)
    assert orders_at(u, n).tolist() == stats.poisson.ppf(u, count).tolist()
    assert among_at(u, n, p).tolist() == stats.binom.ppf(u, count, chance).tolist()
    failed = stats.nbinom.ppf(u, count, 1 - chance) if count else np.zeros(len(u))
    assert failures_at(u, n, p).tolist() == failed.tolist()


@given(st.floats(0.001, 5), st.floats(0.001, 5))
def test_one_in_ten_lies_beyond_each_end_of_a_band_of_four_fifths(below: float, above: float) -> None:
    band = from_tenths(10 - below, 10.0, 10 + above)
    low, high = band.at(np.array([0.1, 0.9]))
    # where one side is far narrower than the other, less than a tenth lies on it at all
    if band.likely - band.low > 0.1 * (band.high - band.low) and band.high - band.likely > 0.1 * (
        band.high - band.low
    ):
        assert (low, high) == pytest.approx((10 - below, 10 + above), abs=1e-3)


def test_points_that_are_not_in_order_are_refused() -> None:
    with pytest.raises(UserError, match="not in order"):
        ThreePoints(2, 1, 3)
