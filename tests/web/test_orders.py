"""Orders over HTTP: the commands' numbers, ticks that book the stock once and come back, errors in place."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from pourwright.app import add_lot, buy_for_orders, date_orders
from pourwright.records import Lot, Move, keep_move, lots_of, open_book
from pourwright.web.application import make_app
from tests.app.ordering import listed
from tests.app.ordering.listed import OFFER, ORDERS
from tests.web.conftest import HERE

PAGE, DATA, WORK, TICK = "/orders", "/orders.json", "/orders/work.json", "/orders/bought.json"
HTML = {"accept": "text/html"}
LATER = ORDERS.replace("2027-", "2037-")
"""A list that begins after the day on which the tests run."""


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop with one small job, its plan, and orders with an offer of resin; invented."""
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    folder = tmp_path / "shop"
    folder.mkdir()
    listed.shop(folder, LATER + OFFER + 'keeps = "9000 days"\n')
    return folder


@pytest.fixture
def page(shop: Path) -> Iterator[TestClient]:
    with TestClient(make_app(shop), base_url=HERE, headers={"origin": HERE}) as client:
        yield client


def text_of(page: TestClient) -> str:
    answer = page.get(PAGE, headers=HTML)
    assert answer.status_code == 200
    return answer.text


def tick(page: TestClient, line: str, *, bought: bool = True) -> dict[str, Any]:
    answer = page.post(TICK, json={"line": line, "bought": bought})
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()
    return told


def line_of(text: str, words: str) -> str:
    """Name of the line whose tick is called so."""
    before = text.partition(f'Bought and here<span class="visually-hidden">: {words}</span>')[0]
    return before.rpartition('data-line="')[2].partition('"')[0]


def resin(shop: Path) -> list[Lot]:
    with open_book(shop / "book.sqlite", make=False) as book:
        return [lot for lot in lots_of(book, "resin") if lot.left]


def test_the_page_has_the_numbers_of_the_commands(page: TestClient, shop: Path) -> None:
    assert "Not worked out yet" in text_of(page)
    assert page.get(DATA).json()["dates"] is None
    told = page.post(WORK).json()
    moment = {"computed_for": ""}
    dates, bought = (command(shop / "orders.toml").to_json() for command in (date_orders, buy_for_orders))
    assert told["dates"] | moment == dates | moment
    assert told["buying"] | moment == bought | moment
    text = text_of(page)
    assert page.get(DATA).json() == told
    for piece in dates["dates"]["pieces"]:
        assert f"shelf, piece {piece['number']}" in text
    # five kits of 4 kg at 50 EUR for the 20 kg of four castings
    assert "5 × 4.00 kg of epoxy-slow-deep, 250.00 EUR" in text
    assert bought["totals"]["words"] in text


def test_a_tick_books_once_and_comes_back(page: TestClient, shop: Path) -> None:
    add_lot(shop, "consumable", "gloves", "40")
    page.post(WORK)
    line = line_of(text_of(page), "5 × 4.00 kg epoxy-slow-deep")
    for _ in range(2):
        told = tick(page, line)
    # 20 kg at 3 to 1 by weight: 15 kg of A, 5 kg of B
    lots = resin(shop)
    assert [(lot.grade, lot.left) for lot in lots] == [("A", pytest.approx(15.0)), ("B", pytest.approx(5.0))]
    assert all(lot.bought and lot.expires and (lot.expires - lot.bought).days == 9000 for lot in lots)
    assert told["ticked"][line]["lots"] == [lot.id for lot in lots]
    text = text_of(page)
    assert "on stock as <a" in text
    assert not any(kit["of"] == "resin" for kit in told["buying"]["kits"])
    for _ in range(2):
        told = tick(page, line, bought=False)
    assert resin(shop) == []
    assert told["ticked"] == {}
    assert line_of(text_of(page), "5 × 4.00 kg epoxy-slow-deep") == line


def test_an_order_that_is_late_is_marked_with_what_would_do(page: TestClient, shop: Path) -> None:
    file = shop / "orders.toml"
    late = file.read_text("utf8").replace("2037-04-30", "2037-01-23")
    file.write_text(f"invented = true\n{late}", "utf8")
    (order,) = page.post(WORK).json()["dates"]["orders"]
    assert order["late"]
    text = text_of(page)
    assert 'shelf <strong class="warn">not safe</strong>' in text
    for way in order["remedies"]:
        assert f"{way['words']}; that " in text
    assert "invented example" in text


def test_what_was_used_of_is_not_taken_back(page: TestClient, shop: Path) -> None:
    add_lot(shop, "consumable", "gloves", "40")
    page.post(WORK)
    line = line_of(text_of(page), "5 × 4.00 kg epoxy-slow-deep")
    tick(page, line)
    with open_book(shop / "book.sqlite") as book:
        keep_move(book, Move(lot_id=resin(shop)[0].id, change=-1.0, why="used"))
    answer = page.post(TICK, json={"line": line, "bought": False})
    assert answer.status_code == 409
    assert [lot.left for lot in resin(shop)] == [pytest.approx(14.0), pytest.approx(5.0)]
    assert line in page.get(DATA).json()["ticked"]


def test_without_a_book_the_tick_is_kept_and_nothing_booked(page: TestClient, shop: Path) -> None:
    page.post(WORK)
    line = line_of(text_of(page), "5 × 4.00 kg epoxy-slow-deep")
    tick(page, line)
    text = text_of(page)
    assert f'data-line="{line}" autocomplete="off" checked' in text
    assert "not booked: this shop has no book yet" in text
    assert not (shop / "book.sqlite").exists()
    assert page.post(TICK, json={"line": f"{'0' * 16}-1", "bought": True}).status_code == 409


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("count = 2", "count = 0", "orders.toml:12"),
        ('job = "plinth"', 'job = "plint"', "orders.toml:7"),
        ('delivery = "2 days"', 'delivery = "9999 days"', "orders.toml:14"),
    ],
)
def test_an_error_is_shown_with_its_line(page: TestClient, shop: Path, old: str, new: str, said: str) -> None:
    file = shop / "orders.toml"
    file.write_text(file.read_text("utf8").replace(old, new), "utf8")
    if page.get(DATA).json()["wrong"] == []:
        page.post(WORK)
    (wrong,) = page.get(DATA).json()["wrong"]
    assert wrong["where"].startswith(said)
    assert said in text_of(page)


def test_a_missing_plan_leads_to_its_job(page: TestClient, shop: Path) -> None:
    (shop / "plinth" / "plan" / "plan.json").unlink()
    assert 'plinth has no plan yet: <a href="/jobs/plinth#piece">' in text_of(page)
    assert page.post(WORK).status_code in (400, 404)


def test_lists_of_the_shop_and_of_its_jobs(page: TestClient, shop: Path) -> None:
    own = LATER.replace('"January"', '"Stools"').replace('job = "plinth"', 'job = "."')
    (shop / "plinth" / "orders.toml").write_text(own, "utf8")
    text = page.get(PAGE, params={"list": "plinth/orders.toml"}, headers=HTML).text
    assert '<a href="?list=plinth/orders.toml" aria-current="page">Stools</a>' in text
    assert ">January</a>" in text
    assert page.get(PAGE, params={"list": "../orders.toml"}, headers=HTML).status_code == 404
    for file in (shop / "orders.toml", shop / "plinth" / "orders.toml"):
        file.unlink()
    assert "There is no order list yet" in text_of(page)
