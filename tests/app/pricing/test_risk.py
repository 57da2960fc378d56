"""A month weighed: as planned where nothing is in doubt, what is missing, what the list says."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from pourwright.app import cost_job
from pourwright.app.learnt.paces import POURING
from pourwright.calibration.learning.record import Family, Learned
from pourwright.foundation.errors import UserError
from pourwright.jobs import cost_schema
from tests.app.pricing.costed import NOW, PRICES, planned
from tests.cli.asking import asked

SELL = "[sell]\nmargin = 0.3\n[run]\nper_month = 3\n"
SURE = '[risk]\nscrap = ["20 %", "20 %"]\nleaks = "0 %"\none_by_one = false\n' + "".join(
    f'{name} = ["0 %", "0 %"]\n' for name in ("demand", "hours", "resin", "rubber", "bought", "used")
)
MONTHLY = PRICES.replace('[overhead]\nhour = "5 EUR"', '[overhead]\nmonth = "90 EUR"\nhours = 90')


@pytest.fixture
def weighed(tmp_path: Path) -> Callable[[str], dict[str, Any]]:
    """The month of the small job with other prices."""

    def weigh(prices: str) -> dict[str, Any]:
        told = cost_job(planned(tmp_path, prices), risk=True, now=NOW).to_json()
        jsonschema.validate(told, cost_schema())
        return dict(told["risk"])

    return weigh


def test_nothing_in_doubt_is_the_planned_profit_to_the_cent(weighed: Callable[..., dict[str, Any]]) -> None:
    risk = weighed(PRICES + SELL + SURE + "most = 9\n")
    # 212.63 over 0.7 is 303.76; three pieces leave 91.13 each
    assert {risk[name] for name in ("planned", "mean", "p10", "p50", "p90")} == {"273.39"}
    assert (risk["loses"], risk["mean_error"], risk["matters"]) == (0.0, "0.00", [])


def test_overhead_of_a_month_is_paid_once(weighed: Callable[..., dict[str, Any]]) -> None:
    # an hour costs 1 of overhead, not 5: 4.75 h a piece are in its cost, and 90 in the month
    full = 212.63 - 4 * 4.75
    risk = weighed(MONTHLY + SELL + SURE + "most = 9\n")
    assert float(risk["planned"]) == pytest.approx(3 * (full / 0.7 - full + 4.75) - 90, abs=0.2)


def test_no_more_is_sold_than_can_be_made(weighed: Callable[..., dict[str, Any]]) -> None:
    # two castings, one in five fails: 1.6 pieces at 91.13
    risk = weighed(PRICES + SELL + SURE + "most = 2\n")
    assert risk["planned"] == risk["p50"] == "145.81"
    assert "what cannot be made is not sold" in " ".join(risk["words"])


def test_by_chance_a_month_has_a_band(weighed: Callable[..., dict[str, Any]]) -> None:
    risk = weighed(PRICES + SELL + "[risk]\nmost = 9\n")
    assert float(risk["p10"]) < float(risk["p50"]) < float(risk["p90"])
    assert sum(bar["share"] for bar in risk["bars"]) == pytest.approx(1.0)
    # bars end at nothing, so those below add up to the months that lose
    assert sum(bar["share"] for bar in risk["bars"] if float(bar["high"]) <= 0) == pytest.approx(
        risk["loses"]
    )
    assert {"scrap", "demand"} == {one["key"] for one in risk["matters"][:2]}
    helps = {one["words"]: float(one["change"]) for one in risk["what_ifs"]}
    assert all(change > 0 for change in helps.values())


def test_the_book_counts_before_common_practice(
    weighed: Callable[..., dict[str, Any]], monkeypatch: pytest.MonkeyPatch
) -> None:
    pouring = learnt("hours", POURING, 1.5, (1.2, 1.8))
    scrap = learnt("scrap_rate", "pieces", 0.08, (0.05, 0.12))
    for room in ("month", "running"):
        monkeypatch.setattr(f"pourwright.app.pricing.{room}.used_by", lambda _: [pouring, scrap])
    inputs = {
        one["key"]: one for one in weighed(PRICES.replace("[scrap]\nrate = 0.2\n", "") + SELL)["inputs"]
    }
    # one in ten lies below 5 %, one in ten above 12 %: the ends lie beyond
    failing = inputs["scrap"]
    assert failing["likely"] == 0.08
    assert 0 < failing["low"] < 0.05
    assert 0.12 < failing["high"] < 0.2
    assert failing["where"].startswith("the shop's book")
    assert inputs["hours"]["where"].startswith("the shop's book")
    assert inputs["hours"]["low"] < inputs["hours"]["likely"] < inputs["hours"]["high"]


def learnt(quantity: str, subject: str, value: float, band: tuple[float, float]) -> Learned:
    family = Family(value, *band)
    low, high = band
    return Learned(
        quantity=quantity,
        subject=subject,
        family=family,
        value=value,
        low=low,
        high=high,
        records=12,
        kept_family=False,
        why="",
        error=None,
        family_error=None,
        scatter=0.1,
    )


@pytest.mark.parametrize(
    ("prices", "said"),
    [
        (PRICES + "[sell]\nmargin = 0.3\n", "nobody said how many are sold in a month"),
        (PRICES + "[run]\nper_month = 3\n", "nobody said what margin is wanted"),
        (PRICES + SELL + '[risk]\nscrap = ["1 %", "5 %"]\n', "is not between 1 % and 5 %"),
        (PRICES + SELL + '[risk]\nscrap = ["50 %", "5 %"]\n', "at least is more than at most"),
        (PRICES + SELL + "[risk]\nmost = 0\n", "most"),
        (PRICES + SELL + '[risk]\nhours = ["10 %"]\n', "hours"),
    ],
)
def test_what_will_not_do_is_said(tmp_path: Path, prices: str, said: str) -> None:
    with pytest.raises(UserError, match=r"prices\.toml") as caught:
        cost_job(planned(tmp_path, prices), risk=True, now=NOW)
    assert said in str(caught.value)


def test_a_month_in_the_terminal(tmp_path: Path) -> None:
    path = planned(tmp_path, PRICES + SELL + SURE + "most = 9\n")
    said = asked("cost", str(path), "--risk").output
    assert "planned 273.39 EUR, on average 273.39 EUR" in " ".join(said.split())
    assert "A month" not in asked("cost", str(path)).output
