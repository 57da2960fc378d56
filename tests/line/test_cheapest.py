"""Purchases against trying every number of kits, and what cannot be bought in time."""

from datetime import date, timedelta
from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.line.buying.cheapest import CannotBeThere, cheapest
from pourwright.line.buying.offers import Offer, Terms, Wanted
from pourwright.line.buying.stock import Lot, Need, from_stock

TODAY = date(2027, 1, 4)
DAYS = (TODAY + timedelta(10), TODAY + timedelta(40))


@st.composite
def offers(draw: st.DrawFn) -> Offer:
    price = draw(st.integers(1, 40))
    from_two = draw(st.integers(1, price))
    return Offer(
        item=0,
        supplier=draw(st.sampled_from("ab")),
        kit=draw(st.integers(1, 6)),
        prices=((1, Decimal(price)), (2, Decimal(from_two))),
        fewest=draw(st.integers(1, 2)),
        keeps=draw(st.sampled_from((None, 20))),
        delivery=draw(st.sampled_from((2, 25))),
    )


def by_trying(wanted: Wanted, most: int = 7) -> Decimal | None:
    """Price of the cheapest of all numbers of kits of every offer on both days, or None."""
    ways = [
        (offer, day) for offer in wanted.offers for day in DAYS if TODAY + timedelta(offer.delivery) <= day
    ]
    prices = [
        _money(wanted, ways, counts)
        for counts in product(range(most + 1), repeat=len(ways))
        if _covers(wanted, ways, counts)
    ]
    return min((price for price in prices if price is not None), default=None)


def _covers(wanted: Wanted, ways: list[tuple[Offer, date]], counts: tuple[int, ...]) -> bool:
    """The kits that go off first are used first, as with the stock."""
    lots = [
        Lot(offer.kit * count, None if offer.keeps is None else day + timedelta(offer.keeps))
        for (offer, day), count in zip(ways, counts, strict=True)
        if day == DAYS[0]
    ]
    _, short = from_stock(lots, [need for need in wanted.needs[0] if need.day == DAYS[0]])
    later = sum(o.kit * n for (o, day), n in zip(ways, counts, strict=True) if day == DAYS[1])
    _, missing = from_stock(lots, wanted.needs[0])
    return not short and sum(need.amount for need in missing) <= later


def _money(wanted: Wanted, ways: list[tuple[Offer, date]], counts: tuple[int, ...]) -> Decimal | None:
    total, orders = Decimal(0), {}
    for (offer, day), count in zip(ways, counts, strict=True):
        if count == 0:
            continue
        if count < offer.fewest:
            return None
        money = count * (offer.prices[0] if count < 2 else offer.prices[1])[1]
        orders[offer.supplier, day] = orders.get((offer.supplier, day), Decimal(0)) + money
    for (supplier, _), money in orders.items():
        terms = wanted.terms.get(supplier, Terms())
        if money < terms.least:
            return None
        total += money + terms.fee
    return total


@settings(max_examples=25, deadline=None)
@given(
    st.lists(offers(), min_size=1, max_size=2),
    st.tuples(st.integers(1, 6), st.integers(1, 6)),
    st.integers(0, 8),
    st.integers(0, 30),
)
def test_no_number_of_kits_is_cheaper(
    some: list[Offer], amounts: tuple[int, int], fee: int, least: int
) -> None:
    needs = tuple(Need(day, float(amount)) for day, amount in zip(DAYS, amounts, strict=True))
    terms = {"a": Terms(Decimal(least), Decimal(fee))}
    wanted = Wanted(TODAY, (needs,), tuple(some), terms)
    if all(TODAY + timedelta(offer.delivery) > DAYS[0] for offer in some):
        with pytest.raises(CannotBeThere):
            cheapest(wanted)
        return
    most = 12 if len(some) == 1 else 7
    found, best = cheapest(wanted), by_trying(wanted, most)
    assert found.proven
    if all(each.kits <= most for each in found.bought):
        assert found.money == best
    else:
        # a least order, or one kit that holds little, can take more kits than are tried
        assert best is None or found.money <= best


def test_no_fewer_kits_than_are_sold_at_once() -> None:
    """3 kg: one kit would do, but three are sold at least; 3 x 10 EUR, more than the other's 28 EUR."""
    sold = Offer(0, "a", 5.0, ((1, Decimal(10)),), fewest=3)
    other = Offer(0, "b", 4.0, ((1, Decimal(28)),))
    need = ((Need(DAYS[0], 3.0),),)
    assert cheapest(Wanted(TODAY, need, (sold,))).money == 30
    assert cheapest(Wanted(TODAY, need, (sold, other))).money == 28


def test_a_price_for_more_kits_pays_for_one_too_many() -> None:
    """9 kg: two kits of 5 kg cost 2 x 60 = 120 EUR; three at 38 EUR cost 114 EUR."""
    offer = Offer(0, "a", 5.0, ((1, Decimal(60)), (3, Decimal(38))))
    found = cheapest(Wanted(TODAY, ((Need(DAYS[0], 9.0),),), (offer,)))
    assert [(each.kits, each.money) for each in found.bought] == [(3, Decimal(114))]


def test_what_keeps_too_short_is_bought_twice() -> None:
    """Two needs 30 days apart, a kit keeps 20 days: one kit for each, though one would hold both."""
    offer = Offer(0, "a", 10.0, ((1, Decimal(50)),), keeps=20)
    found = cheapest(Wanted(TODAY, (tuple(Need(day, 2.0) for day in DAYS),), (offer,)))
    assert [each.comes for each in found.bought] == list(DAYS)
    assert [each.used for each in found.bought] == pytest.approx([2.0, 2.0])


def test_the_day_on_which_it_could_be_there_is_said() -> None:
    offer = Offer(0, "a", 10.0, ((1, Decimal(50)),), delivery=12)
    with pytest.raises(CannotBeThere) as caught:
        cheapest(Wanted(TODAY, ((Need(DAYS[0], 2.0),),), (offer,)))
    assert caught.value.earliest == date(2027, 1, 16)


lots = st.lists(
    st.builds(
        Lot, st.integers(1, 9).map(float), st.sampled_from((None, *(TODAY + timedelta(d) for d in (1, 3, 5))))
    ),
    max_size=4,
)
wants = st.lists(
    st.builds(Need, st.sampled_from([TODAY + timedelta(d) for d in range(7)]), st.integers(1, 9).map(float)),
    max_size=4,
)


@given(lots, wants)
def test_first_to_expire_first_leaves_least_missing(some: list[Lot], needs: list[Need]) -> None:
    """By max-flow min-cut: the most that any set of needs lacks of the lots that serve any of them."""
    taken, short = from_stock(some, needs)
    worst = 0.0
    for chosen in product((False, True), repeat=len(needs)):
        picked = [need for need, in_ in zip(needs, chosen, strict=True) if in_]
        serve = sum(
            lot.amount for lot in some if any((lot.expires or date.max) >= need.day for need in picked)
        )
        worst = max(worst, sum(need.amount for need in picked) - serve)
    assert sum(need.amount for need in short) == pytest.approx(worst)
    assert all((some[each.lot].expires or date.max) >= needs[each.need].day for each in taken)
