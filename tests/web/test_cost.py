"""Cost and price over HTTP: the numbers of the command, gaps and errors in their place, nothing planned."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from pourwright.app import cost_job, cost_variants, fill_job
from pourwright.app.pricing.planned import plan_key
from pourwright.app.working.answers import answer_key
from pourwright.jobs import load_job
from pourwright.runs import Cache
from pourwright.web.application import make_app
from tests.app.pricing.costed import JOB, PRICES, planned, ways_document
from tests.web.conftest import HERE
from tests.web.test_guards import error_of

PAGE, DATA, HTML = "/jobs/plinth/cost", "/jobs/plinth/cost.json", {"accept": "text/html"}
GYPSUM = JOB.replace("epoxy-slow-deep", "gypsum-casting")
SELL = '[sell]\nmargin = 0.5\ngallery = 0.4\npoint_step = "10 EUR"\n'


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop with one small job, its plan and its prices."""
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    folder = tmp_path / "shop" / "plinth"
    folder.mkdir(parents=True)
    planned(folder, PRICES + SELL)
    return folder.parent


@pytest.fixture
def page(shop: Path) -> Iterator[TestClient]:
    with TestClient(make_app(shop), base_url=HERE, headers={"origin": HERE}) as client:
        yield client


def prices(shop: Path, text: str) -> None:
    (shop / "plinth" / "prices.toml").write_text(text, "utf8")


def text_of(page: TestClient) -> str:
    answer = page.get(PAGE, headers=HTML)
    assert answer.status_code == 200
    return answer.text


def opened(text: str, words: str) -> str:
    """What a line says once it is opened, tags left out."""
    lines = re.findall(r'<li id="cost-\d+">(.*?)</details>', text, re.DOTALL)
    (found,) = [line for line in lines if f">{words}</span>" in line]
    return " ".join(re.sub(r"<[^>]+>", " ", found).split())


def test_the_page_has_the_numbers_of_the_command(page: TestClient, shop: Path) -> None:
    told = page.get(DATA).json()
    document: dict[str, Any] = told["document"]
    command = cost_job(shop / "plinth" / "job.toml").to_json()
    assert told["old"] is False
    assert document | {"computed_for": ""} == command | {"computed_for": ""}
    text = text_of(page)
    for line in document["lines"]:
        assert f'<span class="cost-money">{line["money"]}</span>' in text
    # added up by hand where the cost itself is tested
    assert "One good piece costs <strong>212.63 EUR</strong>" in text
    assert re.search(r"One casting begun</span> <strong>160\.10<", text)
    for way in document["price"]["ways"]:
        assert f"<div>{way['net']}</div>" in text
    assert "Shown is what stands on the label: the list names no tax." in text
    # the longest bar is the whole width
    assert text.count('width="100.0%"') == 1
    assert len(document["moves"]) == text.count('class="much"')


def test_a_line_opens_to_where_amount_and_price_stand(page: TestClient) -> None:
    text = text_of(page)
    resin = opened(text, "epoxy-slow-deep")
    # 2 kg and 3 kg at 10 EUR, by hand
    for words in (
        "pour 1: 2 kg plan.json, pours[0].resin_kg",
        "pour 2: 3 kg plan.json, pours[1].resin_kg",
        "prices.toml, line 7",
        "of Mon 2 Nov 2026",
        "5 kg × 10.00 EUR/kg = 50.00 EUR",
    ):
        assert words in resin
    # 10 kg at 20 EUR; the mold gives 20 castings
    rubber = opened(text, "silicone rubber, Shore A 20, tin cure")
    assert "10 kg × 20.00 EUR/kg = 200.00 EUR for one mold Shared by 20 castings: 10.00 EUR" in rubber
    # a sheet of 2.44 m x 1.22 m = 2.9768 m2 at 30 EUR: 10.0779 EUR/m2, a 20th of it 0.5039
    board = opened(text, "MDF for the box")
    assert "1 m² × 10.0779 EUR/m² = 10.0779, rounded 10.08 EUR for one mold" in board
    assert "Shared by 20 castings: 0.5039, rounded 0.50 EUR" in board
    assert 'href="#row-7"' in text
    assert re.search(r'id="row-7"><code>price = &#34;10 EUR/kg&#34;', text)


def test_a_changed_price_shows_at_the_next_look(page: TestClient, shop: Path) -> None:
    assert "212.63" in text_of(page)
    prices(shop, PRICES.replace('"10 EUR/kg"', '"12 EUR/kg"'))
    # 10 EUR of resin more in each casting, begun 1.25 times: 12.50
    text = text_of(page)
    assert "One good piece costs <strong>225.13 EUR</strong>" in text
    assert "says no margin yet" in text


def test_gaps_and_old_prices_are_marked(page: TestClient, shop: Path) -> None:
    bare = PRICES.replace('of = "resin"', 'of = "resin"\nid = "epoxy-fast"')
    prices(shop, bare.replace('price = "20 EUR/kg"', 'price = "20 EUR/kg"\ndate = "2020-05-01"'))
    text = text_of(page)
    resin = opened(text, "epoxy-slow-deep")
    assert "no price ?" in resin
    assert "write [[price]] of" in resin
    assert "Not in it: epoxy-slow-deep." in text
    assert "20 EUR/kg old" in opened(text, "silicone rubber, Shore A 20, tin cure")
    assert text.count('<strong class="warn">old</strong>') == 1
    # as much as without its 50.00 and a quarter of it for what fails
    assert "One good piece costs <strong>150.13 EUR</strong>" in text


MANY = len(PRICES.splitlines())
"""Lines of the list: what is put behind it begins one line later."""


@pytest.mark.parametrize(
    ("wrong", "line", "what"),
    [
        pytest.param(
            PRICES.replace('"10 EUR/kg"', '"10 USD/kg"'), 7, "is in USD, the file in EUR", id="currency"
        ),
        pytest.param(
            f"{PRICES}[sell]\nmargin = 0.5\n[fees]\nshare = 0.6\n", MANY + 1, "no price pays", id="fees"
        ),
        pytest.param(f"{PRICES}[sell]\nmargin = = 1\n", MANY + 2, "TOML", id="text"),
    ],
)
def test_an_error_in_the_list_is_shown_with_its_line(
    page: TestClient, shop: Path, wrong: str, line: int, what: str
) -> None:
    prices(shop, wrong)
    text = text_of(page)
    assert f'<a href="#row-{line}">prices.toml, line {line}' in text
    assert what in text
    assert f'id="row-{line}" class="wrong"' in text
    answer = page.get(DATA)
    assert answer.status_code == 400
    assert f"prices.toml:{line}" in error_of(answer)["where"]


def test_without_a_plan_none_is_made(page: TestClient, shop: Path) -> None:
    plan = shop / "plinth" / "plan"
    (plan / "plan.json").unlink()
    before = sorted(shop.rglob("*"))
    text = text_of(page)
    assert "Make the plan first" in text
    assert 'href="/jobs/plinth?variant=main#piece"' in text
    assert (page.get(DATA).json()["document"], sorted(shop.rglob("*"))) == (None, before)


def test_an_old_plan_says_so(page: TestClient, shop: Path) -> None:
    (shop / "plinth" / "job.toml").write_text(JOB.replace("22 degC", "19 degC"), "utf8")
    assert "Old: made from other choices" in text_of(page)
    assert page.get(DATA).json()["old"] is True


def test_gypsum_is_told_from_fill_and_mold_once_they_are_worked_out(page: TestClient, shop: Path) -> None:
    file = shop / "plinth" / "job.toml"
    file.write_text(GYPSUM, "utf8")
    prices(shop, PRICES + '[[price]]\nof = "mineral"\nprice = "2 EUR/kg"\n')
    assert "Work out mold and fill first" in text_of(page)
    job = load_job(file)
    fill = fill_job(job).sheet.model_dump(mode="json", by_alias=True)
    # what the command kept counts too, with the day it was told
    texts = [json.dumps(one) for one in (fill["mineral"], fill["piece"], ways_document(), {})]
    kept = plan_key(job, quick=False, what="fill for a cost")
    Cache().put(kept, (*texts, "2026-11-05T08:00:00+01:00"))
    assert page.get(DATA).json()["document"]["plan"]["made"] == "2026-11-05T08:00:00+01:00"
    for what, document in (("fill", fill), ("mold", {"ways": ways_document()})):
        Cache().put(answer_key(what, job), (json.dumps(document),))
    (powder,) = [one for one in page.get(DATA).json()["document"]["lines"] if one["key"] == "mineral"]
    # at 2 EUR a kilogram
    assert float(powder["exact"]) == pytest.approx(2 * fill["mineral"]["powder_kg"])
    assert "fill.json, mineral.powder_kg" in opened(text_of(page), powder["words"])


def test_a_price_list_is_begun_once(page: TestClient, shop: Path) -> None:
    (shop / "plinth" / "prices.toml").unlink()
    text = text_of(page)
    assert "No prices yet" in text
    assert "--new-list EUR" in text
    assert "--new-list" in error_of(page.get(DATA))["todo"]
    begin = "/jobs/plinth/cost/prices.json"
    assert page.post(begin, json={"currency": "XXX"}).status_code == 400
    assert page.post(begin, json={"currency": "CHF"}).json() == {"file": "prices.toml"}
    text = text_of(page)
    assert "One good piece costs <strong>? CHF</strong>" in text
    assert "currency = &#34;CHF&#34;" in text
    assert page.post(begin, json={"currency": "EUR"}).status_code == 400


def two_variants(shop: Path, *with_plan: str) -> Path:
    """The job with two variants, and a plan for those named."""
    file = shop / "plinth" / "job.toml"
    file.write_text(JOB + '[[variant]]\nname = "clear"\n[[variant]]\nname = "green"\n', "utf8")
    for name in with_plan:
        (shop / "plinth" / "other").mkdir(exist_ok=True)
        planned(shop / "plinth" / "other", PRICES, file.read_text("utf8"))
        (shop / "plinth" / "other" / "plan").rename(shop / "plinth" / "plan" / name)
    return file


def without_moments(document: Any) -> Any:
    """All but when it was told."""
    if isinstance(document, dict):
        return {key: without_moments(each) for key, each in document.items() if key != "computed_for"}
    return [without_moments(each) for each in document] if isinstance(document, list) else document


def test_each_variant_has_its_own(page: TestClient, shop: Path) -> None:
    two_variants(shop, "green")
    text = page.get(f"{PAGE}?variant=green", headers=HTML).text
    assert '<a href="?variant=green" aria-current="page">' in text
    assert "From plan/green/plan.json" in text
    assert page.get(f"{DATA}?variant=clear").json()["document"] is None
    assert page.get(f"{PAGE}?variant=blue", headers=HTML).status_code == 400


BESIDE = "/jobs/plinth/cost/variants.json"


def rows(text: str) -> dict[str, list[str]]:
    """The table of variants by the head of each row, tags left out."""
    (table,) = re.findall(r'<table class="book-table cost-ways cost-beside".*?</table>', text, re.DOTALL)
    lines = [re.findall(r"<t[hd][ >].*?</t[hd]>", row) for row in re.findall(r"<tr.*?</tr>", table)]
    head, *more = ([" ".join(re.sub(r"<[^>]+>", " ", cell).split()) for cell in row] for row in lines)
    return {"": head[1:]} | {row[0]: row[1:] for row in more}


def test_variants_side_by_side_are_those_of_the_command(page: TestClient, shop: Path) -> None:
    file = two_variants(shop, "clear", "green")
    listed = PRICES.replace('surface = "raw"', 'surface = "raw"\nof = { green = "polished" }')
    prices(shop, listed + SELL)
    told = page.get(BESIDE).json()
    assert told["old"] == {}
    assert without_moments(told["document"]) == without_moments(cost_variants(file).to_json())
    text = text_of(page)
    table = rows(text)
    assert table[""] == ["clear", "green"]
    # 212.63 added up by hand; 3.55 h at 25 EUR more for polishing, as the command's own test has it
    assert table["Cost of a good piece, in EUR"] == ["212.63", "301.38"]
    assert table["Weight of the piece"] == ["12.00 kg", "12.00 kg"]
    assert "<strong>212.63</strong></div>" in text
    assert '<a href="?variant=green">green</a></th>' in text


def test_a_variant_without_a_plan_is_a_gap_and_gets_none(page: TestClient, shop: Path) -> None:
    two_variants(shop, "green")
    before = sorted(shop.rglob("*"))
    # the first variant has no cost; the other stands beside it
    text = text_of(page)
    table = rows(text)
    assert table["Made of"][0].endswith("No plan yet: make it")
    assert table["Cost of a good piece, in EUR"] == ["?", "212.63"]
    assert 'href="/jobs/plinth?variant=clear#piece">make it' in text
    assert "<li>clear: no plan yet</li>" in text
    clear = page.get(BESIDE).json()["document"]["variants"][0]
    assert (clear["cost"], clear["gap"], sorted(shop.rglob("*"))) == (None, "no plan yet", before)


def test_a_month_is_that_of_the_command(page: TestClient, shop: Path) -> None:
    assert "Next: write [run] per_month into the price list." in text_of(page)
    prices(shop, f"{PRICES}{SELL}[run]\nper_month = 3\n")
    risk = page.get(f"{DATA}?risk=true").json()["document"]["risk"]
    assert risk == cost_job(shop / "plinth" / "job.toml", risk=True).to_json()["risk"]
    assert page.get(DATA).json()["document"]["risk"] is None
    text = text_of(page)
    for words in [*risk["words"], *(f"<span>{one['words']}</span>" for one in risk["matters"])]:
        assert words in text
    # a bar for each, those of a loss told apart
    assert text.count('class="loss"') == sum(float(bar["high"]) <= 0 for bar in risk["bars"])
    assert text.count('class="share"') + text.count('class="loss"') == len(risk["bars"] + risk["matters"])
