"""What a piece costs, added up by hand; where each number stands; what is missing, old or mixed."""

import re
from collections.abc import Callable
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from pourwright.app import cost_job, fill_job, new_prices
from pourwright.app.pricing import planned as keeping
from pourwright.foundation.errors import UserError
from pourwright.jobs import cost_schema, read_prices
from pourwright.jobs.mold_ways import Ways
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.prices_rows import OF
from pourwright.materials import load_materials
from tests.app.pricing.costed import JOB, NOW, PRICES, plan_document, planned, ways_document
from tests.cli.asking import asked

OFTEN = set(OF) - {"mineral", "insert", "core"}
SELL = "[sell]\nmargin = 0.5\n[run]\nper_month = 2\n"


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))


@pytest.fixture
def costed(tmp_path: Path) -> Callable[..., dict[str, Any]]:
    """The cost of the small job with other prices."""

    def tell(prices: str = PRICES, **options: Any) -> dict[str, Any]:
        path = planned(tmp_path, prices, options.pop("job", JOB))
        return cost_job(path, now=NOW, **options).to_json()

    return tell


def line(cost: dict[str, Any], key: str) -> dict[str, Any]:
    return next(one for one in cost["lines"] if one["key"] == key)


def test_a_cost_added_up_by_hand(costed: Callable[..., dict[str, Any]]) -> None:
    cost = costed()
    jsonschema.validate(cost, cost_schema())
    money = {one["key"]: one["money"] for one in cost["lines"]}
    # 5 kg at 10; 4 kg at 1; 2 kWh at 0.30; list 0.5 h, pours 1 h, other 0.25 h, demold 1 h, close 0.5 h
    casting = {
        "resin": "50.00", "glass-1": "4.00", "release": "2.00", "consumables": "3.00", "energy": "0.60",
        "hours-check": "10.00", "hours-pour": "20.00", "hours-other": "5.00", "hours-demold": "20.00",
        "hours-close_mold": "10.00", "overhead-casting": "16.25",
    }  # fmt: skip
    # a 20th of 10 kg at 20, of 1 m2 of a sheet of 2.44 m x 1.22 m at 30, of 100, of 2 h and 1 h at 20, of
    # 3 h at 5
    mold = {
        "rubber": "10.00", "board-1": "0.50", "master": "5.00", "hours-make_mold": "2.00",
        "hours-pour_rubber": "1.00", "overhead-mold": "0.75",
    }  # fmt: skip
    # half an hour at 20 and at 5 once it is good; one in five fails: a quarter of 160.104 on top
    rest = {"scrap": "40.03", "hours-photos": "10.00", "overhead-piece": "2.50"}
    assert money == casting | mold | rest
    assert cost["totals"]["casting"] == "160.10"
    assert cost["totals"]["full"] == "212.63"
    assert cost["totals"]["mold"] == "385.08"
    assert cost["totals"]["without"] == []
    # 3 h for a 20th of a mold and 3.25 h, begun 1.25 times, and half an hour
    assert cost["made"]["hours"] == pytest.approx((3 / 20 + 3.25) * 1.25 + 0.5)


def followed(document: Any, path: str) -> Any:
    """What stands in a document at a path."""
    for name, at in re.findall(r"(\w+)|\[(\d+)\]", path):
        document = document[name] if name else document[int(at)]
    return document


def test_every_number_stands_where_the_line_says(
    costed: Callable[..., dict[str, Any]], tmp_path: Path
) -> None:
    cost = costed()
    documents = {"plan": plan_document(), "mold": {"ways": ways_document()}}
    text = (tmp_path / "prices.toml").read_text("utf8").splitlines()
    traced = 0
    for one in cost["lines"]:
        for trace in one["made_of"]:
            if trace["where"] in documents:
                found = followed(documents[trace["where"]], trace["path"])
                assert trace["value"] == pytest.approx(hours_of(found) if isinstance(found, dict) else found)
                traced += 1
        if one["price"]:
            at = "5 EUR" if one["key"].startswith("overhead") else one["price"]["text"]
            assert at in text[one["price"]["line"] - 1]
            assert (one["price"]["file"], one["price"]["date"]) == ("prices.toml", "2026-11-02")
    # two pours, glass, rubber and board; six hours of the calendar; two of the mold
    assert traced == 5 + 6 + 2


def hours_of(event: dict[str, str]) -> float:
    begin, end = (datetime.fromisoformat(event[name]) for name in ("start", "end"))
    return (end - begin).total_seconds() / 3600


def test_what_is_printed_adds_up(tmp_path: Path) -> None:
    path = planned(tmp_path, PRICES.replace('"10 EUR/kg"', '"13.337 EUR/kg"') + SELL)
    said = asked("cost", str(path))
    assert said.exit_code == 0, said.output
    table = said.output.partition("Hours")[0].splitlines()
    found = {row[:40].strip(): re.search(r" (-?\d+\.\d\d)$", row) for row in table}
    numbers = {name: Decimal(one[1]) for name, one in found.items() if one}
    casting, full = numbers.pop("one casting begun"), numbers.pop("one good piece")
    assert len(numbers) == 20
    assert sum(numbers.values()) == full
    late = {"1.250 castings begun", "take photos", "overhead of finishing"}
    begun = [name for name in numbers if not any(name.startswith(each) for each in late)]
    assert sum(numbers[name] for name in begun) == casting


def test_a_missing_price_is_a_gap_and_no_zero(costed: Callable[..., dict[str, Any]]) -> None:
    cost = costed(PRICES.replace('of = "resin"', 'of = "resin"\nid = "epoxy-fast"'))
    resin = line(cost, "resin")
    assert (resin["money"], resin["amount"]) == (None, 5.0)
    assert 'write [[price]] of = "resin"' in resin["gap"]
    assert cost["totals"]["without"] == [resin["words"]]
    # without its 50.00, and a quarter of it for what fails
    assert Decimal("212.63") - Decimal(cost["totals"]["full"]) == Decimal("62.50")
    assert any(resin["words"] in text for text in cost["warnings"])


def test_an_old_price_is_said_with_its_line(costed: Callable[..., dict[str, Any]]) -> None:
    # from the 1st of May to the 1st of December 2026 it is 214 days
    cost = costed(PRICES.replace('price = "20 EUR/kg"', 'price = "20 EUR/kg"\ndate = "2026-05-01"'))
    assert line(cost, "rubber")["price"]["age_days"] == 214
    assert [one["key"] for one in cost["lines"] if one["price"] and one["price"]["old"]] == ["rubber"]
    (said,) = cost["warnings"]
    assert "214 days, over 180 (prices.toml:13)" in said


def test_own_limit_for_old_prices(costed: Callable[..., dict[str, Any]]) -> None:
    cost = costed(PRICES.replace("[[price]]", 'old_after = "4 week"\n[[price]]', 1))
    assert all(one["price"]["old"] for one in cost["lines"] if one["price"])


def test_the_newest_of_several_rows_counts(costed: Callable[..., dict[str, Any]]) -> None:
    newer = '[[price]]\nof = "resin"\nprice = "11 EUR/kg"\ndate = "2026-11-20"\n'
    older = '[[price]]\nof = "resin"\nprice = "9 EUR/kg"\ndate = "2025-11-20"\n'
    assert line(costed(PRICES + newer + older), "resin")["money"] == "55.00"


def test_prices_of_the_job_count_where_the_list_has_none(costed: Callable[..., dict[str, Any]]) -> None:
    job = JOB + '[prices]\ncurrency = "EUR"\nrubber = "40 EUR/kg"\nresin = "99 EUR/kg"\n'
    cost = costed(
        PRICES.replace('of = "rubber"\nprice = "20', 'of = "rubber"\nid = "other"\nprice = "20'), job=job
    )
    rubber = line(cost, "rubber")
    assert (rubber["money"], rubber["price"]["file"], rubber["price"]["line"]) == ("20.00", "job.toml", 11)
    assert any("has no date (job.toml:11)" in text for text in cost["warnings"])
    assert line(cost, "resin")["money"] == "50.00"


def test_two_currencies_are_refused(costed: Callable[..., dict[str, Any]]) -> None:
    job = JOB + '[prices]\ncurrency = "USD"\nrubber = "40 USD/kg"\n'
    prices = PRICES.replace('of = "rubber"\nprice = "20', 'of = "rubber"\nid = "other"\nprice = "20')
    with pytest.raises(UserError, match=r"job.toml:11 prices.rubber: .* is in USD, the price list in EUR"):
        costed(prices, job=job)


def test_a_price_by_the_gallon(costed: Callable[..., dict[str, Any]]) -> None:
    cost = costed(PRICES.replace('"10 EUR/kg"', '"30 EUR/gallon"'))
    density = load_materials().resin["epoxy-slow-deep"].density.value
    # a US gallon is 231 cubic inches: 3.785411784 l
    assert float(line(cost, "resin")["exact"]) == pytest.approx(5.0 / density / 3.785411784e-3 * 30.0)


def test_an_hour_of_a_step_may_have_its_own_price_and_time(costed: Callable[..., dict[str, Any]]) -> None:
    own = '[[price]]\nof = "hour"\nstep = "demold"\nprice = "40 EUR/h"\n'
    cost = costed(PRICES.replace("[work]", '[work]\npour = "3 h"') + own)
    assert line(cost, "hours-demold")["money"] == "40.00"
    assert line(cost, "hours-pour")["money"] == "60.00"
    assert "prices.toml:" in line(cost, "hours-pour")["made_of"][0]["path"]


def test_bottles_that_are_crushed_are_counted_not_weighed(
    costed: Callable[..., dict[str, Any]], monkeypatch: pytest.MonkeyPatch
) -> None:
    crush = ("Crush green bottles, at the latest", "prepare", 2.0)
    monkeypatch.setattr("tests.app.pricing.costed.CALENDAR", (crush,))
    cost = costed(PRICES + '[[price]]\nof = "bottle"\nprice = "0.08 EUR/piece"\n')
    # 23 bottles of the invented plan, 2 h at 20
    assert line(cost, "bottles-1")["money"] == "1.84"
    assert line(cost, "hours-crush")["money"] == "40.00"
    assert not [one for one in cost["lines"] if one["key"].startswith("glass")]


@pytest.mark.parametrize(
    ("rows", "money"),
    [
        # 12 kg dry and 2 kg of packing
        ('up_to = "10 kg"\nprice = "5 EUR"\n[[freight]]\nup_to = "15 kg"\nprice = "9 EUR"', "9.00"),
        ('up_to = "15 kg"\nprice = "9 EUR"\n[[freight]]\nprice = "0.50 EUR/kg"', "7.00"),
        ('up_to = "13 kg"\nprice = "5 EUR"', None),
    ],
)
def test_freight_by_dry_weight(costed: Callable[..., dict[str, Any]], rows: str, money: str | None) -> None:
    prices = PRICES.replace('"freight", ', "").replace("[[price]]", 'packing_mass = "2 kg"\n[[price]]', 1)
    freight = line(costed(f"{prices}[[freight]]\n{rows}\n"), "freight")
    assert freight["money"] == money
    assert ("no parcel carries 14.00 kg" in freight["gap"]) == (money is None)


def test_sanding_goes_grit_by_grit(costed: Callable[..., dict[str, Any]]) -> None:
    finish = 'surface = "satin"\ngrits = [80, 120]\nsanding = "1 h"\nchange = "6 min"'
    cost = costed(PRICES.replace('surface = "raw"', finish))
    # half a square metre at an hour, and at the usual half hour for the satin; 6 min besides; 20 an hour
    assert {key: line(cost, f"hours-{key}")["money"] for key in ("sanding-80", "sanding-120", "satin")} == {
        "sanding-80": "12.00", "sanding-120": "12.00", "satin": "7.00",
    }  # fmt: skip
    assert line(cost, "hours-satin")["made_of"][1]["where"] == "practice"


def test_the_mold_is_shared_by_the_run(costed: Callable[..., dict[str, Any]]) -> None:
    cost = costed(PRICES + "[run]\npieces = 40\n")
    # 40 good ones are 50 castings, 3 molds of 20: 200 EUR of rubber over 16 2/3
    assert (cost["made"]["molds"], line(cost, "rubber")["money"]) == (3, "12.00")
    assert cost["made"]["starts_mean"] == 50.0


def test_price_break_even_and_the_least(costed: Callable[..., dict[str, Any]]) -> None:
    price = costed(PRICES + SELL)["price"]
    assert (price["ways"][0]["net"], price["ways"][0]["profit"]) == ("425.26", "212.63")
    assert (price["ways"][2]["net"], price["ways"][2]["got"]) == ("850.52", "425.26")
    # without the mold: 140.85 begun 1.25 times, 35.21 of it lost, and 12.50 afterwards
    assert price["even"]["left"] == str(Decimal("425.26") - Decimal("188.56"))
    assert (price["even"]["spent"], price["even"]["pieces"], price["even"]["months"]) == ("385.08", 2, 1)
    # without overhead too: 124.60 begun 1.25 times and 10.00; without hours 59.60 begun 1.25 times
    least = price["least"]
    assert (least["money"], least["without_hours"], least["full"]) == ("165.75", "74.50", "212.63")


def test_more_than_can_be_made_in_a_month_is_said(costed: Callable[..., dict[str, Any]]) -> None:
    prices = PRICES.replace('hour = "5 EUR"', 'month = "50 EUR"\nhours = 10')
    # 4.75 h a piece: two a month are 9.5 h, three are 14
    assert costed(prices + "[run]\nper_month = 2\n")["warnings"] == []
    (said,) = costed(prices + "[run]\nper_month = 3\n")["warnings"]
    assert "3 pieces a month are 14 h of work, and [overhead] says 10 h" in said


def test_fees_tax_and_points(costed: Callable[..., dict[str, Any]]) -> None:
    more = '[fees]\nshare = 0.05\nfixed = "1 EUR"\n[tax]\nkind = "VAT"\nrate = 0.2\n'
    points = 'gallery = 0.4\npoint_step = "10 EUR"\npoint_less = "1 EUR"\nasked = "300 EUR"\n'
    price = costed(PRICES + more + SELL.replace("0.5\n", f"0.25\n{points}"))["price"]
    ways = {way["way"]: way for way in price["ways"]}
    # (212.63 + 1) / (1 - 0.05 x 1.2 - 0.25), a fifth of tax on top
    assert (ways["direct"]["net"], ways["direct"]["shown"]) == ("309.61", "371.53")
    assert ways["direct"]["got"] == "290.03"
    assert ways["direct"]["margin"] == pytest.approx(0.25, abs=1e-4)
    # 212.63 / 0.75 to a dealer; a gallery that keeps 0.4 asks so much that this is left
    assert (ways["wholesale"]["net"], ways["gallery"]["net"]) == ("283.51", "472.51")
    assert ways["gallery"]["got"] == "283.51"
    assert [point["shown"] for point in price["points"]] == ["369.00", "379.00", "300.00"]
    # 300 are 250 net: 250 x 0.94 - 1 - 212.63 are left
    assert price["points"][2]["profit"] == "21.37"


def test_what_moves_it(costed: Callable[..., dict[str, Any]]) -> None:
    moves = {move["key"]: move["cost"] for move in costed()["moves"]}
    # an hour at 25, a kilogram at 10: begun 1.25 times; scrap from 20 to 25 %: 160.104 / 0.75, not / 0.8
    assert (moves["hour"], moves["cast-mass"]) == ("31.25", "12.50")
    assert moves["scrap"] == "13.34"
    # a casting carries 19.25 of the mold once more, begun 1.25 times
    assert Decimal(moves["life"]) == pytest.approx(Decimal("24.07"), abs=Decimal("0.02"))


def test_practice_takes_off_the_mean_of_the_run(costed: Callable[..., dict[str, Any]]) -> None:
    cost = costed(PRICES.replace("rate = 0.2", "rate = 0") + "[run]\npieces = 10\nlearning = 0.8\n")
    # mean factor of ten at 80 %: 6.3154 / 10; hours 65.00 and overhead 16.25 of a casting
    assert float(line(cost, "practice-casting")["exact"]) == pytest.approx(-81.25 * (1 - 0.63154), rel=1e-4)


def test_an_old_plan_is_made_anew_once_and_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path, made = planned(tmp_path), []

    def plan(job: Any, *_: Any, **__: Any) -> tuple[PlanDocument, None]:
        made.append(job.variant_name)
        return PlanDocument.model_validate(plan_document()), None

    monkeypatch.setattr(keeping, "plan_variant", plan)
    monkeypatch.setattr(keeping, "_reckoned", lambda *_: Ways.model_validate(ways_document()))
    assert cost_job(path, now=NOW).sheet.plan.file == "plan/plan.json"
    path.write_text(JOB.replace("60 mm", "70 mm"), "utf8")
    cost = cost_job(path, now=NOW).to_json()
    assert cost["plan"]["file"] == ""
    assert "the plan there is old" in cost["plan"]["words"]
    (tmp_path / "prices.toml").write_text(PRICES.replace('"10 EUR/kg"', '"20 EUR/kg"'), "utf8")
    again = cost_job(path, now=NOW).to_json()
    assert made == ["main"]
    assert line(again, "resin")["money"] == "100.00"
    assert "kept from an earlier answer" in again["plan"]["words"]


def test_without_any_prices_it_says_where_to_write_them(tmp_path: Path) -> None:
    path = planned(tmp_path)
    (tmp_path / "prices.toml").unlink()
    with pytest.raises(UserError, match=r"prices.toml: there are no prices; .* do: write one to fill in"):
        cost_job(path, now=NOW)


def test_a_new_list_has_a_row_for_all_that_the_job_needs(tmp_path: Path) -> None:
    path = planned(tmp_path, job=JOB + '[[band]]\nto = "top"\ngrade = "fine"\n')
    (tmp_path / "prices.toml").unlink()
    written = new_prices(path, "USD")
    assert set(re.findall(r'# of = "(\w+)"', written.read_text("utf8"))) == OFTEN
    # all gaps as it is; once the marks are off and it is dated it is read whole
    cost = cost_job(path, now=NOW).to_json()
    assert {one["money"] for one in cost["lines"]} == {None}
    said = asked("cost", str(path)).output
    assert re.search(r"one good piece +without what has a \? +\?\n", said)
    filled = re.sub(r"^# (?=\[|\w+ = )", "", written.read_text("utf8"), flags=re.MULTILINE)
    prices = read_prices(filled.replace("YYYY-MM-DD", "2026-11-02"))
    assert {row.of for row in prices.price} == OFTEN
    with pytest.raises(UserError, match="there is a price list already"):
        new_prices(path, "USD")


def test_brackets_are_told_as_they_are(tmp_path: Path) -> None:
    # the terminal's own markup would swallow them
    said = asked("cost", str(planned(tmp_path, PRICES + "[sell]\nmargin = 0.5\n")))
    assert "[run] per_month" in said.output


GYPSUM = """format = 1
[shape]
box = ["100 mm", "100 mm", "40 mm"]
[casting]
material = "gypsum-casting"
[fill]
water_ratio = 0.6
allowance = 0.05
[shop]
temperature = "22 degC"
"""


def test_gypsum_is_costed_from_fill_and_mold(tmp_path: Path) -> None:
    path = planned(tmp_path, PRICES + '[[price]]\nof = "mineral"\nprice = "2 EUR/kg"\n', GYPSUM)
    cost = cost_job(path, now=NOW).to_json()
    told = fill_job(path, now=NOW).to_json()
    for one in cost["lines"]:
        for trace in one["made_of"]:
            if trace["where"] == "fill":
                assert trace["value"] == pytest.approx(followed(told, trace["path"]))
    powder = line(cost, "mineral")
    assert powder["made_of"][0]["path"] == "mineral.powder_kg"
    # at 2 EUR a kilogram
    assert float(powder["exact"]) == pytest.approx(2 * told["mineral"]["powder_kg"])
    assert not {"resin", "glass-1", "hours-look"} & {one["key"] for one in cost["lines"]}
    assert line(cost, "hours-demold")["made_of"][0]["where"] == "practice"
    assert "no pours are planned" in cost["plan"]["words"]


def test_inserts_and_a_core_are_lines(
    costed: Callable[..., dict[str, Any]], monkeypatch: pytest.MonkeyPatch
) -> None:
    made = plan_document

    def with_legs(digest: str = "") -> dict[str, Any]:
        return made(digest) | {"inserts": [_insert("leg"), _insert("light"), _insert("leg")]}

    monkeypatch.setattr("tests.app.pricing.costed.plan_document", with_legs)
    cost = costed(PRICES + '[[price]]\nof = "insert"\nid = "leg"\nprice = "3 EUR/piece"\n')
    assert (line(cost, "insert-leg")["amount"], line(cost, "insert-leg")["money"]) == (2.0, "6.00")
    assert cost["totals"]["without"] == ["light"]


def _insert(name: str) -> dict[str, Any]:
    zeros = (
        "diameter_m", "depth_m", "edge_m", "edge_needed_m", "beyond_m", "volume_m3", "mass_kg", "force_N",
        "weight_needed_kg",
    )  # fmt: skip
    return dict.fromkeys(zeros, 0.0) | {
        "name": name, "kind": "socket", "face": "top", "from_m": (0, 0, 0), "to_m": (0, 0, 0),
        "ends": "casting", "beside_core": False, "most_heat_W": None, "held": "", "sealed": "",
    }  # fmt: skip
