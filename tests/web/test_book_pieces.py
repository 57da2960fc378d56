"""Finished pieces over HTTP: the list, the card as page, twin and PDF, labels."""

import hashlib
import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from pourwright.app.booking.logging import log_job
from tests.records.making import PHOTO
from tests.web.test_book import with_plan_alone
from tests.web.test_guards import error_of

HTML = {"accept": "text/html"}
JOB = "hourglass-stool"
LOG = f"/book/log/{JOB}"
SHA = hashlib.sha256(PHOTO).hexdigest()


@pytest.fixture(autouse=True)
def cast(shop: Path) -> None:
    """A stool that is out of its mold."""
    with_plan_alone(shop / JOB)
    log_job(shop / JOB, ("poured", "2.9 kg"))
    log_job(shop / JOB, ("demolded",))


def test_a_piece_is_finished_from_its_log(page: TestClient) -> None:
    assert "Finish the piece" in page.get(LOG, headers=HTML).text
    assert f'href="{LOG}?variant=main&amp;casting=1#finish"' in page.get("/book/pieces", headers=HTML).text
    page.put(f"/jobs/{JOB}/photos/{SHA}", content=PHOTO)
    asked = {"job": JOB, "variant": "main", "casting": 1, "mass": "31.4 kg", "photo": SHA, "note": "a <gift>"}
    card = page.post("/book/pieces.json", json=asked)
    assert card.status_code == 200
    assert (card.json()["number"], card.json()["mass"]) == (1, "31.40 kg")
    text = page.get("/book/pieces/1", headers=HTML).text
    for words in (
        "31.40 kg",
        f'src="/book/photos/{SHA}"',
        "a &lt;gift&gt;",
        card.json()["plan"],
        "Heat",
        "Sun",
        "Load",
    ):
        assert words in text
    assert page.get("/book/pieces/1.json").json() == card.json()
    assert 'href="/book/pieces/1"' in page.get("/book/pieces", headers=HTML).text
    assert "Finish the piece" not in page.get(LOG, headers=HTML).text
    again = page.post("/book/pieces.json", json=asked)
    assert again.status_code == 409
    assert "has its number already: 1" in error_of(again)["what"]


def test_every_page_of_the_book_leads_somewhere(page: TestClient) -> None:
    page.post("/book/pieces.json", json={"job": JOB, "variant": "main"})
    to_see, seen = ["/book"], set()
    while to_see:
        here = to_see.pop()
        seen.add(here)
        answer = page.get(here, headers=HTML)
        assert answer.status_code == 200, here
        # what is no page of the book is looked at and not through
        if here.startswith("/book") and answer.headers["content-type"].startswith("text/html"):
            leads = {unescape(each) for each in re.findall(r'(?:href|src)="(/[^"#]*)', answer.text)}
            to_see += leads - seen - set(to_see)
    assert {"/book/stock", "/book/stock/1", "/book/pieces", "/book/pieces/1", "/book/pieces/1.pdf"} <= seen
    assert any(each.startswith(f"/jobs/{JOB}/measured") for each in seen)


def test_a_card_is_handed_out_as_pdf_and_put_right(page: TestClient) -> None:
    page.post("/book/pieces.json", json={"job": JOB, "variant": "main"})
    sheet = page.get("/book/pieces/1.pdf")
    assert (sheet.headers["content-type"], sheet.content[:5]) == ("application/pdf", b"%PDF-")
    told = page.post("/book/pieces/1.json", json={"mass": "30 kg", "note": "a gift"}).json()
    assert (told["mass"], told["note"]) == ("30.00 kg", "a gift")


def test_labels_are_handed_out_as_pdf(page: TestClient) -> None:
    # the mold is on stock since its first pour
    for path in ("/book/labels.pdf", "/book/labels.pdf?lot=1"):
        sheet = page.get(path)
        assert (sheet.headers["content-type"], sheet.content[:5]) == ("application/pdf", b"%PDF-")
    stock = page.get("/book/stock", headers=HTML).text
    assert 'action="/book/labels.pdf"' in stock
    assert 'name="lot" value="1"' in stock
    assert 'href="/book/labels.pdf?lot=1"' in page.get("/book/stock/1", headers=HTML).text


REFUSED: tuple[tuple[str, str, dict[str, Any] | None, int], ...] = (
    ("POST", "/book/pieces.json", {"job": JOB, "mass": "31"}, 400),
    ("POST", "/book/pieces.json", {"job": JOB, "mass": "-1 kg"}, 400),
    ("POST", "/book/pieces.json", {"job": JOB, "casting": 7}, 404),
    ("POST", "/book/pieces.json", {"job": "../other"}, 404),
    ("POST", "/book/pieces.json", {"job": JOB, "photo": "0" * 64}, 404),
    ("POST", "/book/pieces.json", {"job": JOB, "photo": "../job.toml"}, 422),
    ("POST", "/book/pieces/9.json", {"mass": "1 kg"}, 404),
    ("GET", "/book/pieces/9", None, 404),
    ("GET", "/book/pieces/9.json", None, 404),
    ("GET", "/book/pieces/9.pdf", None, 404),
    ("GET", "/book/labels.pdf?lot=99", None, 404),
    ("GET", "/book/labels.pdf?lot=x", None, 422),
)


def test_what_cannot_be_is_refused_and_no_number_is_spent(page: TestClient) -> None:
    for method, path, asked, status in REFUSED:
        answer = page.request(method, path, json=asked)
        assert (answer.status_code, path, asked) == (status, path, asked)
        error_of(answer)
    assert page.get("/book/pieces.json").json()["pieces"] == []
