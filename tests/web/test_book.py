"""The book's log over HTTP: pages and their twins, entries by hand, photos by their hash."""

import hashlib
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from pourwright.app.booking.logging import log_job
from pourwright.foundation.files import canonical_json
from tests.records.making import PHOTO
from tests.sheets.sample_plan import sample_document
from tests.web.test_guards import error_of

LOG = "/book/log/hourglass-stool"
SHA = hashlib.sha256(PHOTO).hexdigest()
HTML = {"accept": "text/html"}


@pytest.fixture(autouse=True)
def planned(shop: Path) -> Path:
    return with_plan_alone(shop / "hourglass-stool")


def with_plan_alone(folder: Path) -> Path:
    """A job with its plan.json and none of the sheets, which nothing here reads."""
    (folder / "plan").mkdir()
    (folder / "plan" / "plan.json").write_bytes(canonical_json(sample_document(2)))
    (folder.parent / "shop.toml").touch()
    return folder


def test_an_empty_book_is_shown_and_not_made(page: TestClient, shop: Path) -> None:
    assert page.get("/book.json").json()["castings"] == []
    assert "Nothing is entered yet" in page.get("/book", headers=HTML).text
    assert "Nothing is entered yet" in page.get(LOG, headers=HTML).text
    assert not (shop / "book.sqlite").exists()


def test_what_is_entered_stands_on_both_pages(page: TestClient) -> None:
    entered = page.post(f"{LOG}.json", json={"what": "poured", "value": "2.4 kg"})
    assert entered.status_code == 200
    (one,) = page.get("/book.json").json()["castings"]
    assert (one["job"], one["pours"], one["state"]) == ("hourglass-stool", 1, "under way")
    assert f'href="{LOG}?variant=main&amp;casting=1"' in page.get("/book", headers=HTML).text
    told = page.get(f"{LOG}.json").json()
    assert [each["value"] for each in told["pours"][0]["entries"]] == ["2.40 kg"]
    assert told["pours"][0]["plan"] in page.get(LOG, headers=HTML).text


def test_a_correction_is_shown_struck_with_what_replaced_it(page: TestClient) -> None:
    (wrong,) = page.post(f"{LOG}.json", json={"what": "poured", "value": "24 kg"}).json()["entered"]
    told = page.post(f"{LOG}.json", json={"corrects": wrong, "value": "2.4 kg"}).json()
    assert [(one["value"], one["now"]) for one in told["pours"][0]["entries"]] == [
        ("24.00 kg", "now: 2.40 kg"),
        ("2.40 kg", ""),
    ]
    text = page.get(LOG, headers=HTML).text
    assert "<s>24.00 kg" in text
    assert "now: 2.40 kg" in text
    again = page.post(f"{LOG}.json", json={"corrects": wrong, "value": "2.5 kg"})
    assert again.status_code == 409
    error_of(again)


REFUSED: tuple[tuple[dict[str, str], int], ...] = (
    ({"what": "poured", "value": "-3 kg"}, 400),
    ({"what": "level", "value": "60 cm"}, 400),
    ({"what": "poured", "value": "2 kg", "at": "2126-01-01 09:00"}, 400),
    ({"what": "photo", "value": "../../book.sqlite"}, 400),
    ({"takes_back": "1a2b3c4d"}, 404),
    ({"what": "poured", "how": "guessed"}, 422),
    ({"photo": "../job.toml"}, 422),
    ({"weight": "2 kg"}, 422),
)


def test_what_cannot_be_is_refused_in_the_one_shape(page: TestClient, planned: Path) -> None:
    for asked, status in REFUSED:
        answer = page.post(f"{LOG}.json", json=asked)
        assert (answer.status_code, asked) == (status, asked)
        error_of(answer)
    assert not (planned / "journal.jsonl").exists()


def test_a_form_sent_twice_counts_once(page: TestClient) -> None:
    asked = {"what": "poured", "value": "2.4 kg", "id": "0b0e7a86-6a2c-4f0e-9d5f-0d2f1a3c4b5d"}
    for _ in range(2):
        assert page.post(f"{LOG}.json", json=asked).json()["poured"] == "2.40 kg"
    assert page.post(f"{LOG}.json", json=asked | {"id": "one"}).status_code == 422


def test_a_photo_comes_from_the_book_by_its_hash_as_what_it_is(page: TestClient) -> None:
    assert page.get(f"/book/photos/{SHA}").status_code == 404
    page.put(f"/jobs/hourglass-stool/photos/{SHA}", content=PHOTO)
    page.post(f"{LOG}.json", json={"what": "photo", "photo": SHA})
    answer = page.get(f"/book/photos/{SHA}")
    assert (answer.content, answer.headers["content-type"]) == (PHOTO, "image/jpeg")
    assert answer.headers["x-content-type-options"] == "nosniff"
    kept = {"if-none-match": answer.headers["etag"]}
    assert page.get(f"/book/photos/{SHA}", headers=kept).status_code == 304
    assert f'src="/book/photos/{SHA}"' in page.get(LOG, headers=HTML).text
    for name in ("..%2F..%2Fbook.sqlite", "A" * 64, SHA[:63]):
        assert page.get(f"/book/photos/{name}").status_code in {404, 422}


def test_the_whole_book_goes_out_and_into_an_empty_one(page: TestClient, shop: Path) -> None:
    assert page.get("/book/export.json").status_code == 404
    assert 'data-put="/book/import.json"' in page.get("/book", headers=HTML).text
    page.post(f"{LOG}.json", json={"what": "poured", "value": "2.4 kg"})
    before = page.get("/book.json").json()
    whole = page.get("/book/export.json")
    assert whole.headers["content-disposition"].startswith('attachment; filename="book-')
    answer = page.put("/book/import.json", content=whole.content)
    assert answer.status_code == 409
    assert "holds something already" in error_of(answer)["what"]
    (shop / "book.sqlite").rename(shop / "kept.sqlite")
    (shop / "hourglass-stool" / "journal.jsonl").unlink()
    torn = page.put("/book/import.json", content=whole.content[:-20])
    assert (torn.status_code, error_of(torn)["where"]) == (400, "book.json")
    assert not (shop / "book.sqlite").exists()
    assert page.put("/book/import.json", content=whole.content).json()["entries"] == 1
    assert page.get("/book.json").json() == before


def test_words_of_the_maker_are_no_part_of_the_page(page: TestClient, planned: Path) -> None:
    log_job(planned, ("note", "<script>alert(1)</script>"))
    text = page.get(LOG, headers=HTML).text
    assert "<script>alert" not in text
    assert "&lt;script&gt;alert(1)" in text


def test_shelf_job_and_bench_lead_there(page: TestClient) -> None:
    for path, leads in {
        "/": "/book",
        "/jobs/hourglass-stool": LOG,
        "/jobs/hourglass-stool/bench": LOG,
        "/bench": "/book",
    }.items():
        assert f'href="{leads}' in page.get(path, headers=HTML).text


def test_what_is_not_there_is_404(page: TestClient) -> None:
    for path in ("/book/log/nothing", f"{LOG}?casting=7", f"{LOG}?variant=tall"):
        for kind in (path, path.replace("?", ".json?") if "?" in path else f"{path}.json"):
            assert page.get(kind).status_code == 404
