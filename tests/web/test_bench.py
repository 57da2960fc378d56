"""The bench over HTTP: steps, entries that are taken once, photos by their hash."""

import hashlib
import uuid
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from pourwright.records.photos import LARGEST
from tests.records.making import PHOTO
from tests.sheets.laid import lay_plan
from tests.sheets.sample_plan import sample_plan
from tests.web.test_guards import error_of

STOOL = "/jobs/hourglass-stool"
SHA = hashlib.sha256(PHOTO).hexdigest()


@pytest.fixture(autouse=True)
def planned(shop: Path) -> Path:
    folder = shop / "hourglass-stool"
    lay_plan(sample_plan(2), folder / "plan")
    return folder


@pytest.fixture
def plan(page: TestClient) -> str:
    told: str = page.get(f"{STOOL}/bench.json").json()["plan"]
    return told


def made(plan: str, kind: str, **more: Any) -> dict[str, Any]:
    """An entry as a phone sends it."""
    given = {"id": str(uuid.uuid4()), "plan": plan, "casting": 1, "pour": 1, "kind": kind}
    return given | {"at": datetime.now(UTC).isoformat()} | more


def sent(page: TestClient, *entries: dict[str, Any]) -> list[tuple[bool, bool]]:
    answer = page.post(f"{STOOL}/entries", json={"entries": list(entries)})
    assert answer.status_code == 200
    answers = answer.json()["answers"]
    assert [one["id"] for one in answers] == [one["id"] for one in entries]
    return [(one["kept"], one["new"]) for one in answers]


def test_page_and_twin_show_the_next_step(page: TestClient) -> None:
    told = page.get(f"{STOOL}/bench.json").json()
    assert told["next"] == "1.ready"
    text = page.get(f"{STOOL}/bench").text
    assert "Hourglass stool" in text
    assert told["plan"] in text
    # this computer only: nothing to say of a network
    assert "plain http" not in text


def test_entries_are_answered_one_by_one_and_kept_once(page: TestClient, plan: str) -> None:
    good = [made(plan, "weigh_a", value=1.159), made(plan, "weigh_b", value=0.522)]
    bad = made(plan, "level", value=3.0)
    assert sent(page, good[0], bad, good[1]) == [(True, True), (False, False), (True, True)]
    assert sent(page, *good) == [(True, False), (True, False)]
    told = page.get(f"{STOOL}/bench.json").json()
    assert [one["kind"] for one in told["entries"]] == ["weigh_a", "weigh_b"]
    assert told["next"] == "1.1.mixed"
    answer = page.post(f"{STOOL}/entries", json={"entries": [bad]}).json()["answers"][0]
    assert answer["error"]["what"] == "this level lies above the mold"


@pytest.mark.parametrize(
    "wrong",
    [
        {"id": "one"},
        {"at": "2026-12-01T09:00:00"},
        {"at": "0001-01-01T00:00:00+14:00"},
        {"value": 1e300},
        {"pour": -1},
        {"casting": 0},
        {"plan": "x"},
        {"source": "terminal"},
        {"photo": "../../../etc/passwd"},
        {"text": "x" * 1001},
    ],
)
def test_what_has_no_form_is_refused(page: TestClient, plan: str, planned: Path, wrong: dict) -> None:
    answer = page.post(f"{STOOL}/entries", json={"entries": [made(plan, "note", text="a") | wrong]})
    assert answer.status_code == 422
    error_of(answer)
    assert not (planned / "journal.jsonl").exists()


def test_no_more_than_so_many_at_once(page: TestClient, plan: str) -> None:
    many = [made(plan, "note", text="a")] * 201
    assert page.post(f"{STOOL}/entries", json={"entries": many}).status_code == 422


def test_a_time_to_come_and_an_unknown_kind_are_told(page: TestClient, plan: str) -> None:
    ahead = (datetime.now(UTC) + timedelta(minutes=10)).isoformat()
    late, odd = made(plan, "gel", at=ahead), made(plan, "gelled")
    answers = page.post(f"{STOOL}/entries", json={"entries": [late, odd]}).json()["answers"]
    assert "still to come" in answers[0]["error"]["what"]
    assert answers[1]["error"]["what"] == "no entry is called 'gelled'"


def test_a_photo_is_put_once_by_its_hash(page: TestClient, plan: str, planned: Path) -> None:
    for _ in range(2):
        assert page.put(f"{STOOL}/photos/{SHA}", content=PHOTO).status_code == 204
    assert [one.name for one in (planned / "photos").iterdir()] == [f"{SHA}.jpeg"]
    assert sent(page, made(plan, "photo", photo=SHA)) == [(True, True)]


def test_what_is_no_photo_or_another_or_too_large_is_refused(page: TestClient, planned: Path) -> None:
    text = b"<script>alert(1)</script>"
    cases = [
        (SHA, PHOTO + b"x", 400),
        (hashlib.sha256(text).hexdigest(), text, 400),
        (SHA, b"\xff\xd8\xff" + bytes(LARGEST), 413),
        ("..%2F..%2Fjob.toml", PHOTO, 404),
        ("A" * 64, PHOTO, 422),
    ]
    for name, content, status in cases:
        answer = page.put(f"{STOOL}/photos/{name}", content=content)
        assert answer.status_code == status
        error_of(answer)
    assert not (planned / "photos").exists()


def test_a_job_without_a_plan_is_told(page: TestClient) -> None:
    answer = page.get("/jobs/table-lamp/bench.json")
    assert answer.status_code == 404
    assert "no plan yet" in error_of(answer)["what"]
    assert page.get(f"{STOOL}/bench.json", params={"casting": 7}).status_code == 404


def test_the_benches_of_all_planned_jobs_are_listed(page: TestClient) -> None:
    (one,) = page.get("/bench.json").json()["benches"]
    assert (one["job"], one["title"]) == ("hourglass-stool", "Hourglass stool")
    assert page.get(one["url"]).status_code == 200
    assert one["url"].replace("&", "&amp;") in page.get("/bench").text


def test_an_entry_from_another_page_is_refused(page: TestClient, plan: str, planned: Path) -> None:
    for origin in ("http://evil.example", "null", ""):
        answer = page.post(
            f"{STOOL}/entries", json={"entries": [made(plan, "gel")]}, headers={"origin": origin}
        )
        assert answer.status_code == 403
    assert not (planned / "journal.jsonl").exists()
