"""A leak and the shop's learning over HTTP."""

import json
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.places import book_place
from pourwright.jobs import load_job
from pourwright.jobs.hashes import input_hashes
from tests.app.learning.test_shop import BEGUN
from tests.sheets.sample_plan import sample_document

MORNING = {"poured": ["9 kg"], "dip": ["6 cm"], "at": ["17:00"], "pour": 1, "now": "2026-12-01 17:05"}


@pytest.fixture
def planned(shop: Path) -> Path:
    """The lamp's job with the invented plan of one pour beside it."""
    job = shop / "table-lamp" / "job.toml"
    (job.parent / "plan").mkdir()
    document = sample_document(1) | {"inputs": input_hashes(load_job(job))}
    document["piece"] |= {"casting_material": "epoxy-slow-deep"}
    (job.parent / "plan" / "plan.json").write_text(json.dumps(document), "utf8")
    return job


def test_a_leak_is_reckoned(page: TestClient, planned: Path) -> None:
    answer = page.post("/jobs/table-lamp/leak.json", json=MORNING)
    assert answer.status_code == 200
    told = answer.json()
    assert told["schema"] == "pourwright-leak/1.0"
    mass = told["mass"]
    assert mass["in_mold_kg"] + mass["out_kg"] == pytest.approx(9.0)
    assert told["words"][0].startswith("In the mold:")


@pytest.mark.parametrize(
    ("change", "status"),
    [
        ({"poured": ["-9 kg"]}, 400),
        ({"dip": ["6 kg"]}, 400),
        ({"at": ["2027-12-01 17:00"]}, 400),
        ({"pour": 9}, 400),
        ({"weight": "9 kg"}, 422),
    ],
)
def test_what_cannot_be_is_refused_in_the_one_shape(
    page: TestClient, planned: Path, change: dict, status: int
) -> None:
    answer = page.post("/jobs/table-lamp/leak.json", json=MORNING | change)
    assert answer.status_code in {400, status}
    assert answer.json()["error"]["what"]


def test_a_job_without_a_plan_is_404(page: TestClient) -> None:
    assert page.post("/jobs/table-lamp/leak.json", json=MORNING).status_code == 404


def test_the_job_leads_to_its_leak_and_the_shelf_to_what_was_learnt(page: TestClient) -> None:
    html = {"accept": "text/html"}
    assert 'href="/jobs/table-lamp/leak"' in page.get("/jobs/table-lamp", headers=html).text
    assert 'href="/learnt"' in page.get("/", headers=html).text


def test_both_pages_are_there_without_inline_script_or_style(page: TestClient, planned: Path) -> None:
    for url in ("/jobs/table-lamp/leak", "/learnt"):
        text = page.get(url, headers={"accept": "text/html"}).text
        assert "<form" in text or "learnt" in text
        assert "style=" not in text
        assert "<script>" not in text


def test_a_shop_without_a_book_has_learnt_nothing(page: TestClient) -> None:
    assert page.post("/learnt.json", json={}).status_code == 404


def test_what_was_logged_is_learnt_and_set_aside(page: TestClient, shop: Path, planned: Path) -> None:
    (shop / "shop.toml").touch()
    for number in range(3):
        for kind, value in (("mixed", 1.0), ("poured", 0.97)):
            said = Said(kind=kind, at=BEGUN.replace(day=number + 1), value=value, casting=number + 1)
            enter(planned.parent, book_place(planned.parent), [said])
    report = page.post("/learnt.json", json={}).json()
    assert {one["quantity"] for one in report["records"]} == {"bucket_loss"}
    first = report["records"][0]["id"]
    assert "3 %" in report["records"][0]["words"]
    after = page.post("/learnt.json", json={"set_aside": first}).json()
    assert [one["set_aside"] for one in after["records"]].count(True) == 1
    assert page.post("/learnt.json", json={"set_aside": "none"}).status_code == 404
