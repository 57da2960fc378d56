"""The stock over HTTP."""

from pathlib import Path

from fastapi.testclient import TestClient

from tests.web.test_book import with_plan_alone
from tests.web.test_guards import error_of

HTML = {"accept": "text/html"}
GLASS = {"kind": "glass", "amount": "12 kg", "colour": "green", "grade": "coarse"}


def test_a_lot_from_buying_to_used_up(page: TestClient) -> None:
    added = page.post("/book/stock.json", json=GLASS | {"expires": "2099-01-01", "note": "dry"})
    assert added.status_code == 200
    lot = added.json()["lot"]
    place = f"/book/stock/{lot}"
    text = page.get("/book/stock", headers=HTML).text
    assert f'href="{place}"' in text
    assert "12.00 kg" in text
    told = page.post(f"{place}.json", json={"left": "10 kg", "opened": "2026-11-01", "note": ""}).json()
    assert (told["left_shown"], told["opened_on"], told["note"]) == ("10.00 kg", "Sun 1 Nov 2026", "")
    told = page.post(f"{place}.json", json={"used": "10 kg"}).json()
    assert [one["why"] for one in told["moves"]] == ["bought", "counted", "used"]
    text = page.get(place, headers=HTML).text
    assert all(words in text for words in ("bought", "counted", "−10.00 kg"))
    assert "Used up: 1 lot" in page.get("/book/stock", headers=HTML).text
    assert page.get("/book/stock.json").json()["used_up"][0]["lot"] == lot


REFUSED: tuple[tuple[str, dict[str, str], int], ...] = (
    ("/book/stock.json", GLASS | {"amount": "12"}, 400),
    ("/book/stock.json", GLASS | {"amount": "-1 kg"}, 400),
    ("/book/stock.json", GLASS | {"kind": "gold"}, 400),
    ("/book/stock.json", GLASS | {"expires": "next year"}, 400),
    ("/book/stock.json", GLASS | {"weight": "1 kg"}, 422),
    ("/book/stock/1.json", {"left": "-1 kg"}, 400),
    ("/book/stock/1.json", {"used": "13 kg"}, 400),
    ("/book/stock/1.json", {}, 400),
    ("/book/stock/9.json", {"left": "1 kg"}, 404),
    ("/book/stock/0.json", {"left": "1 kg"}, 422),
)


def test_what_cannot_be_is_refused_and_changes_nothing(page: TestClient) -> None:
    page.post("/book/stock.json", json=GLASS)
    before = page.get("/book/stock.json").json()
    for path, asked, status in REFUSED:
        answer = page.post(path, json=asked)
        assert (answer.status_code, path, asked) == (status, path, asked)
        error_of(answer)
    assert page.get("/book/stock.json").json() == before


def test_a_lot_that_is_not_there_is_404_as_page_and_twin(page: TestClient) -> None:
    assert page.get("/book/stock/9", headers=HTML).status_code == 404
    assert page.get("/book/stock/9.json").status_code == 404


def test_what_a_plan_needs_is_kept_and_freed(page: TestClient, shop: Path) -> None:
    with_plan_alone(shop / "hourglass-stool")
    assert "Stock for the next piece" in page.get("/book/log/hourglass-stool", headers=HTML).text
    (kept,) = page.post("/book/kept.json", json={"job": "hourglass-stool"}).json()["kept"]
    assert (kept["job"], kept["casting"]) == ("hourglass-stool", 1)
    assert "Keep nothing for it" in page.get("/book/stock", headers=HTML).text
    freed = page.post("/book/freed.json", json={"plan": kept["plan"], "casting": 1}).json()
    assert (freed["kept"], freed["short"]) == ([], [])
    for path, asked in (
        ("/book/kept.json", {"job": "nothing"}),
        ("/book/freed.json", {"plan": 9, "casting": 1}),
    ):
        answer = page.post(path, json=asked)
        assert answer.status_code == 404
        error_of(answer)
