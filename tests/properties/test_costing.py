"""What holds of every cost and every price, whatever the lines."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, strategies as st

from pourwright.costing.learning import mean_factor
from pourwright.costing.lines import Line, Run, cost_of, practised
from pourwright.costing.margins import (
    Terms,
    margin_at,
    margin_from_markup,
    markup_from_margin,
    price_for,
    price_points,
)
from pourwright.costing.starts import chance_of, starts_for
from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import CURRENCIES

NEAR = Decimal("1e-18")


def decimals(low: str, high: str, places: int = 3) -> st.SearchStrategy[Decimal]:
    return st.decimals(low, high, places=places, allow_nan=False)


MONEY = decimals("0", "5000", 4)
LINES = st.lists(
    st.builds(
        Line,
        st.uuids().map(str),
        st.sampled_from(["mold", "casting", "piece"]),
        decimals("0", "80"),
        st.one_of(st.none(), MONEY),
        st.booleans(),
    ),
    max_size=12,
)
RUNS = st.builds(
    Run,
    casts=decimals("1", "200"),
    scrap=decimals("0", "0.95"),
    found_finished=st.booleans(),
    learning=decimals("0.6", "1", 2),
    pieces=st.integers(1, 40),
    begins=st.integers(1, 9),
)
TERMS = st.builds(
    Terms,
    tax=decimals("0", "0.27"),
    fee=decimals("0", "0.15"),
    fixed=decimals("0", "3", 2),
    commission=decimals("0", "0.5"),
    seconds=decimals("0", "1"),
    off=decimals("0", "0.9"),
)


@given(LINES, RUNS, st.sampled_from(sorted(CURRENCIES)))
def test_printed_lines_add_up_to_the_printed_total(lines: list[Line], run: Run, currency: str) -> None:
    cost = cost_of(lines, run, currency)
    shown = [share.money for share in cost.shares if share.money is not None]
    assert sum(shown, Decimal(0)) == cost.full
    assert all(-money.as_tuple().exponent == CURRENCIES[currency] for money in shown)
    coin = Decimal(1).scaleb(-CURRENCIES[currency])
    assert abs(cost.full - cost.exact) <= coin / 2 * len(shown)


@given(LINES, RUNS, decimals("0.01", "50", 2))
def test_dearer_prices_scale_the_cost(lines: list[Line], run: Run, factor: Decimal) -> None:
    scaled = [replace(line, price=None if line.price is None else factor * line.price) for line in lines]
    once, again = (cost_of(each, run, "EUR").exact for each in (lines, scaled))
    assert abs(again - factor * once) <= NEAR * (1 + abs(again))


@given(LINES, RUNS, decimals("0", "0.04"))
def test_more_scrap_is_never_cheaper(lines: list[Line], run: Run, more: Decimal) -> None:
    # practice aside: more castings begun are more practice too
    plain = replace(run, learning=Decimal(1))
    worse = replace(plain, scrap=plain.scrap + more)
    assert cost_of(lines, worse, "EUR").exact >= cost_of(lines, plain, "EUR").exact


@given(LINES, RUNS)
def test_practice_makes_nothing_dearer(lines: list[Line], run: Run) -> None:
    fresh = replace(run, learning=Decimal(1))
    assert cost_of(lines, run, "EUR").exact <= cost_of(lines, fresh, "EUR").exact


def test_castings_of_a_run_are_counted_to_the_last_one() -> None:
    # 21 good ones where three of ten fail are 30 castings: 21 times the rounded 1 / 0.7 would be 31
    run = Run(Decimal(30), scrap=Decimal("0.3"), learning=Decimal("0.8"), pieces=21)
    assert practised("casting", run) == mean_factor(30, Decimal("0.8"))


@given(LINES, RUNS)
def test_a_line_without_a_price_is_named_and_in_no_sum(lines: list[Line], run: Run) -> None:
    cost = cost_of(lines, run, "EUR")
    known = [line for line in lines if line.price is not None]
    assert set(cost.missing) == {line.key for line in lines if line.price is None}
    assert cost.full == cost_of(known, run, "EUR").full


@given(decimals("0", "0.99"))
def test_margin_and_markup_are_one_thing(margin: Decimal) -> None:
    markup = markup_from_margin(margin)
    assert abs(margin_from_markup(markup) - margin) < NEAR
    assert abs((1 - margin) * (1 + markup) - 1) < NEAR


@given(decimals("0.01", "5000", 2), decimals("0", "0.45"), TERMS)
def test_a_price_leaves_the_margin_that_was_wanted(cost: Decimal, margin: Decimal, terms: Terms) -> None:
    if terms.kept - margin * (1 - terms.commission) < Decimal("0.01"):
        return
    net = price_for(cost, margin, terms)
    assert abs(margin_at(net, cost, terms) - margin) < Decimal("1e-15")
    assert (
        abs(terms.got(net) - cost - margin * net * terms.fetched * (1 - terms.commission))
        < Decimal("1e-12") * net
    )


@given(decimals("0.01", "5000", 2), decimals("0.05", "100", 2), decimals("0", "5", 2))
def test_price_points_lie_on_both_sides(price: Decimal, step: Decimal, less: Decimal) -> None:
    below, above = price_points(price, step, less)
    assert below < price <= above
    assert above - below == step
    assert (above + less) % step == 0


@given(st.integers(1, 60), st.floats(0.2, 1.0), st.sampled_from([0.5, 0.9, 0.95, 0.99]))
def test_starts_are_the_fewest_that_are_enough(pieces: int, good: float, probability: float) -> None:
    starts = starts_for(pieces, good, probability)
    assert chance_of(pieces, starts, good) >= probability
    assert starts == pieces or chance_of(pieces, starts - 1, good) < probability


@pytest.mark.parametrize("margin", ["0.95", "0.99"])
def test_fees_and_margin_that_eat_the_price_are_refused(margin: str) -> None:
    with pytest.raises(UserError, match="no price pays the cost"):
        price_for(Decimal(100), Decimal(margin), Terms(fee=Decimal("0.05")))
