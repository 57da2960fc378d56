"""A change of one choice uses again every heat run that it does not touch."""

from datetime import UTC, datetime

import pytest

from pourwright.app.hands import Hands
from pourwright.app.planning import plan_variant
from pourwright.jobs import read_job
from pourwright.runs import Cache, Crew
from tests.app.conftest import SMALL

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
PRICES = '[prices]\ncurrency = "EUR"\nresin = "{} EUR/kg"\n'


class Counting:
    """Works in this process and counts what it was given."""

    def __init__(self):
        self.crew, self.done = Crew(0), []

    def map_as_done(self, function, items, **following):
        self.done += [function.__name__ for _ in items]
        return self.crew.map_as_done(function, items, **following)


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    return Cache(tmp_path_factory.mktemp("results"))


def planned(store, text):
    crew = Counting()
    plan, _ = plan_variant(read_job(text), None, 0.008, NOW, hands=Hands(crew, store), quick=True)
    return plan, crew.done


def test_another_price_runs_no_heat_and_another_shop_does(store):
    first, done = planned(store, SMALL + PRICES.format(12))
    assert {"search", "perform"} <= set(done)
    second, again = planned(store, SMALL + PRICES.format(24))
    assert again == []
    assert second.pours == first.pours
    cost = [[need.price for need in plan.shopping if need.price is not None] for plan in (first, second)]
    assert cost[1] == pytest.approx([2 * price for price in cost[0]], rel=0.01)
    colder, once_more = planned(store, SMALL.replace("22 degC", "21 degC") + PRICES.format(12))
    assert "search" in once_more
    assert colder.pours[0].gel_after_h > first.pours[0].gel_after_h
