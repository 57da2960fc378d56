"""Paper over HTTP: sheets, pages as pictures, calendar, files by listed names only."""

import io
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from icalendar import Calendar
from pypdf import PdfReader

from pourwright.app.plan_folder import write_plan
from tests.sheets.sample_plan import sample_plan

STOOL = "/jobs/hourglass-stool"


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "cache"))


@pytest.fixture
def planned(shop: Path) -> Path:
    folder = shop / "hourglass-stool" / "plan"
    write_plan(sample_plan(), folder)
    return folder


def test_a_job_without_a_plan_has_all_other_sheets_to_be_made(page: TestClient) -> None:
    told = page.get(f"{STOOL}/sheets.json").json()
    assert [(sheet["name"], sheet["pages"], sheet["can_make"]) for sheet in told["sheets"]] == [
        ("mold", 0, True),
        ("cut", 0, True),
        ("fill", 0, True),
    ]
    assert (told["calendar"], told["files"]) == (False, [])
    for path in ("sheets/plan.pdf", "sheets/plan/1.png", "calendar.ics", "files/plan.json"):
        answer = page.get(f"{STOOL}/{path}")
        assert answer.status_code == 404
        assert answer.json()["error"]["what"]


def test_the_plan_is_told_and_handed_out_whole(page: TestClient, planned: Path) -> None:
    plan = page.get(f"{STOOL}/sheets.json").json()["sheets"][0]
    answer = page.get(f"{STOOL}/sheets/plan.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == 'inline; filename="hourglass-stool-plan.pdf"'
    assert len(PdfReader(io.BytesIO(answer.content)).pages) == plan["pages"]
    assert plan["old"] is True


def test_a_page_is_a_picture_that_is_sent_once(page: TestClient, planned: Path) -> None:
    address = f"{STOOL}/sheets/plan/2.png?size=small"
    first = page.get(address)
    assert first.headers["content-type"] == "image/png"
    again = page.get(address, headers={"if-none-match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    write_plan(sample_plan(2, title="Another"), planned)
    assert page.get(address, headers={"if-none-match": first.headers["etag"]}).status_code == 200


@pytest.mark.parametrize(
    ("end", "status"), [("0.png", 404), ("99.png", 404), ("x.png", 422), ("1.png?size=huge", 422)]
)
def test_a_page_that_is_not_there_is_refused(page: TestClient, planned: Path, end: str, status: int) -> None:
    answer = page.get(f"{STOOL}/sheets/plan/{end}")
    assert answer.status_code == status
    assert set(answer.json()["error"]) == {"what", "where", "allowed", "todo"}


def test_the_calendar_file_opens_in_a_calendar(page: TestClient, planned: Path) -> None:
    answer = page.get(f"{STOOL}/calendar.ics")
    assert answer.headers["content-type"].startswith("text/calendar")
    assert len(Calendar.from_ical(answer.content).walk("VEVENT")) == len(sample_plan().calendar)


def test_every_listed_file_is_handed_out_under_a_plain_name(page: TestClient, planned: Path) -> None:
    files = page.get(f"{STOOL}/sheets.json").json()["files"]
    assert {file["name"] for file in files} >= {"plan.pdf", "plan.json", "calendar.ics", "tables/pours.csv"}
    for file in files:
        answer = page.get(f"{STOOL}/files/{file['name']}")
        assert len(answer.content) == file["size"]
        assert answer.headers["content-type"] == file["kind"]
        assert "/" not in answer.headers["content-disposition"]


@pytest.mark.parametrize(
    "name", ["../job.toml", "..%2Fjob.toml", "%2Fetc%2Fpasswd", "tables/..%2F..%2Fjob.toml", "x"]
)
def test_no_path_of_a_client_reaches_the_disk(page: TestClient, planned: Path, name: str) -> None:
    answer = page.get(f"{STOOL}/files/{name}")
    assert answer.status_code == 404
    assert b"format" not in answer.content
