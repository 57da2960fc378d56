"""Loggers over HTTP: handed in, shown, drawn, taken back."""

from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path
from urllib.parse import quote

import pytest
from fastapi.testclient import TestClient

from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.places import book_place
from pourwright.app.measuring.of_job import log_logger
from pourwright.web.application import make_app
from tests.app.measuring.conftest import BEGUN, hottest, poured, written
from tests.web.conftest import HERE

__all__ = ["poured", "written"]
HTML = {"accept": "text/html"}


@pytest.fixture
def page(poured: Path) -> Iterator[TestClient]:
    """Asks as the page itself does, of the shop that the poured job lies in."""
    with TestClient(make_app(poured.parent), base_url=HERE, headers={"origin": HERE}) as client:
        yield client


def test_a_file_is_handed_in_and_shown(page: TestClient, written: Callable[..., Path]) -> None:
    content = written(hottest).read_bytes()
    url = "/jobs/stool/measured/pours/1"
    answer = page.put(f"{url}?name=core.csv&probe={quote('core=middle')}", content=content)
    assert answer.status_code == 200
    (number,) = answer.json()["attached"]
    told = page.get("/jobs/stool/measured.json").json()
    assert told["schema"] == "pourwright-measured/1.0"
    (series,) = told["pours"][0]["series"]
    assert (series["id"], series["place"]) == (number, "middle")
    text = page.get("/jobs/stool/measured", headers=HTML).text
    for line in series["words"]:
        assert line in text
    assert f'src="/jobs/stool/measured/{number}.svg"' in text
    assert "style=" not in text
    drawing = page.get(f"/jobs/stool/measured/{number}.svg")
    assert drawing.headers["content-type"] == "image/svg+xml"
    assert "<svg" in drawing.text
    assert page.get(f"/jobs/stool/measured/{number}.csv").text.startswith("\ufeffafter the pour went in [h]")


def test_it_is_taken_back_and_kept(page: TestClient, poured: Path, written: Callable[..., Path]) -> None:
    (number,) = log_logger(poured, written(hottest), pour=1)["attached"]
    told = page.delete(f"/jobs/stool/measured/{number}").json()
    assert told["pours"][0]["series"][0]["taken_back"]
    text = page.get("/jobs/stool/measured", headers=HTML).text
    assert "Taken back: core (421 readings)" in text
    assert f"/measured/{number}.svg" not in text


def test_each_piece_has_its_own_loggers(page: TestClient, poured: Path, written: Callable[..., Path]) -> None:
    log_logger(poured, written(hottest), pour=1)
    out, again = (
        Said(kind=kind, at=BEGUN + timedelta(days=4), value=value)
        for kind, value in (("demolded", None), ("mixed", 2.6))
    )
    enter(poured, book_place(poured), [out])
    enter(poured, book_place(poured), [again])
    second = page.get("/jobs/stool/measured", headers=HTML).text
    assert "No logger is attached to this pour yet" in second
    assert 'href="/jobs/stool/measured?variant=main&amp;casting=1"' in second
    first = page.get("/jobs/stool/measured?casting=1", headers=HTML).text
    assert "Peaked as planned" in first
    assert page.get("/jobs/stool/measured.json?casting=9").status_code == 404


@pytest.mark.parametrize(
    ("url", "content", "status", "what"),
    [
        ("pours/1?name=a.csv", b"", 400, "is empty"),
        ("pours/1?name=a.csv", b"\x00\x01" * 500, 400, "holds no row"),
        ("pours/2?name=a.csv", b"time,T\n", 404, "pour 2 has not begun"),
        ("pours/1?probe=core", b"time,T\n", 400, "'core' says no place"),
        ("pours/0", b"", 422, ""),
    ],
)
def test_what_cannot_be_is_refused_in_the_one_shape(
    page: TestClient, url: str, content: bytes, status: int, what: str
) -> None:
    answer = page.put(f"/jobs/stool/measured/{url}", content=content)
    assert answer.status_code == status
    assert what in answer.json()["error"]["what"]


def test_without_a_series_or_a_plan_it_is_not_there(page: TestClient, poured: Path) -> None:
    for url in ("9.svg", "9.csv"):
        assert page.get(f"/jobs/stool/measured/{url}").status_code == 404
    assert page.delete("/jobs/stool/measured/9").status_code == 404
    (poured / "plan" / "plan.json").unlink()
    assert page.get("/jobs/stool/measured.json").status_code == 404
    text = page.get("/jobs/stool/measured", headers=HTML).text
    assert "This job has no plan yet" in text
    assert "<form" not in text


def test_before_any_pour_it_says_what_to_do_first(page: TestClient, poured: Path) -> None:
    (poured.parent / "book.sqlite").unlink()
    (poured / "journal.jsonl").unlink()
    text = page.get("/jobs/stool/measured", headers=HTML).text
    assert "No pour has begun yet" in text
    assert "<form" not in text
