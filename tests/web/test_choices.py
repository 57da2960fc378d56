"""Choices over HTTP: read, changed, refused beside their field, taken back."""

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

STOOL = "/jobs/hourglass-stool"
SHAPE = {"what", "where", "allowed", "todo"}


def raw(shop: Path) -> dict[str, Any]:
    return tomllib.loads((shop / "hourglass-stool" / "job.toml").read_text("utf8"))


def field(document: dict[str, Any], key: str) -> dict[str, Any]:
    return next(each for section in document["sections"] for each in section["fields"] if each["key"] == key)


def choose(page: TestClient, key: str, value: object, seen: object) -> Any:
    return page.post(f"{STOOL}/choices", json={"key": key, "value": value, "seen": seen})


def test_a_choice_is_written_and_the_answer_is_the_new_document(page: TestClient, shop: Path) -> None:
    wall = field(page.get(f"{STOOL}/choices.json").json(), "mold.wall")
    answer = choose(page, "mold.wall", "3/4 in", wall["text"])
    assert answer.status_code == 200
    document = answer.json()
    assert raw(shop)["mold"]["wall"] == "3/4 in"
    assert field(document, "mold.wall")["other"] == "19.05 mm"
    assert "20 mm → 3/4 in" in document["said"]
    assert document["undo"] == document["said"]
    assert document["sha256"] == page.get(f"{STOOL}/mark.json").json()["sha256"]


def test_a_refused_choice_says_why_in_the_one_shape(page: TestClient, shop: Path) -> None:
    before = (shop / "hourglass-stool" / "job.toml").read_bytes()
    answer = choose(page, "mold.wall", "21", "20 mm")
    assert answer.status_code == 400
    assert set(answer.json()) == {"error"}
    assert set(answer.json()["error"]) == SHAPE
    assert answer.json()["error"]["where"] == "mold.wall"
    assert (shop / "hourglass-stool" / "job.toml").read_bytes() == before


def test_two_tabs_on_one_field(page: TestClient, shop: Path) -> None:
    assert choose(page, "mold.wall", "25 mm", "20 mm").status_code == 200
    answer = choose(page, "mold.wall", "15 mm", "20 mm")
    assert answer.status_code == 409
    assert answer.json()["conflict"] == {"file": "25 mm", "seen": "20 mm", "wanted": "15 mm"}
    assert set(answer.json()["error"]) == SHAPE
    mine = choose(page, "mold.wall", "15 mm", answer.json()["conflict"]["file"])
    assert mine.status_code == 200
    assert raw(shop)["mold"]["wall"] == "15 mm"


def test_undo_and_redo_over_a_hand_edit(page: TestClient, shop: Path) -> None:
    file = shop / "hourglass-stool" / "job.toml"
    first = file.read_text("utf8")
    choose(page, "mold.wall", "25 mm", "20 mm")
    by_hand = file.read_text("utf8").replace('"19 mm"', '"15 mm"')
    file.write_text(by_hand, "utf8")
    document = page.get(f"{STOOL}/choices.json").json()
    assert field(document, "mold.base")["text"] == "15 mm"
    assert document["undo"].startswith("changed by hand")
    assert page.post(f"{STOOL}/undo").json()["said"].startswith("taken back: changed by hand")
    page.post(f"{STOOL}/undo")
    assert file.read_text("utf8") == first
    assert page.post(f"{STOOL}/undo").status_code == 400
    page.post(f"{STOOL}/redo")
    page.post(f"{STOOL}/redo")
    assert file.read_text("utf8") == by_hand


def test_bands_are_chosen_at_once(page: TestClient, shop: Path) -> None:
    seen = [band["raw"] for band in page.get(f"{STOOL}/choices.json").json()["bands"]]
    bands = [{**seen[0], "to": "100 mm"}, *seen[1:]]
    answer = page.post(f"{STOOL}/choices", json={"bands": bands, "seen": seen})
    assert answer.status_code == 200
    assert raw(shop)["band"][0]["to"] == "100 mm"
    assert page.post(f"{STOOL}/choices", json={"bands": seen, "seen": seen}).status_code == 409


@pytest.mark.parametrize(
    "bands",
    [
        [{"to": None}], [{"to": "top", "neat": 1e999}], [{"to": "top", "colour": "\ud800"}], [{}],
        [{"to": "top", "nonsense": True}], [{"to": "top", "mix": [{"grade": None}]}], [{"": "top"}],
    ],
)  # fmt: skip
def test_bands_that_are_none_are_refused(page: TestClient, shop: Path, bands: list[dict[str, Any]]) -> None:
    before = (shop / "hourglass-stool" / "job.toml").read_bytes()
    seen = [band["raw"] for band in page.get(f"{STOOL}/choices.json").json()["bands"]]
    body = json.dumps({"bands": bands, "seen": seen})
    answer = page.post(f"{STOOL}/choices", content=body, headers={"content-type": "application/json"})
    assert answer.status_code in {400, 422}
    assert set(answer.json()["error"]) == SHAPE
    assert (shop / "hourglass-stool" / "job.toml").read_bytes() == before


def test_the_file_as_text(page: TestClient, shop: Path) -> None:
    file = page.get(f"{STOOL}/file.json").json()
    assert file["faults"] == []
    broken = file["text"].replace('wall = "20 mm"', 'wall = "20"')
    answer = page.put(f"{STOOL}/file.json", json={"text": broken, "seen": file["sha256"]})
    line = next(n for n, each in enumerate(broken.splitlines(), 1) if each.startswith("wall"))
    assert (answer.status_code, answer.json()["error"]["where"]) == (400, f"line {line} mold.wall")
    good = file["text"].replace('wall = "20 mm"', 'wall = "21 mm"')
    assert page.put(f"{STOOL}/file.json", json={"text": good, "seen": file["sha256"]}).status_code == 200
    assert raw(shop)["mold"]["wall"] == "21 mm"
    again = page.put(f"{STOOL}/file.json", json={"text": good, "seen": file["sha256"]})
    assert (again.status_code, again.json()["conflict"]["file"]) == (409, good)


def test_a_broken_file_is_told_with_its_line(page: TestClient, shop: Path) -> None:
    page.get(f"{STOOL}/choices.json")
    file = shop / "hourglass-stool" / "job.toml"
    good = file.read_text("utf8")
    file.write_text(good + "[mold]\n", "utf8")
    broken = page.get(f"{STOOL}/choices.json").json()["broken"]
    assert broken["faults"][0]["line"] == len(good.splitlines()) + 1
    assert broken["last_good"] == good


def test_what_is_typed_is_read(page: TestClient) -> None:
    answer = page.get("/read.json", params={"text": "3/4 in", "as": "length"}).json()
    assert answer == {"text": "3/4 in", "si": 0.01905, "other": "19.05 mm", "error": None}
    refused = page.get("/read.json", params={"text": "3/4", "as": "length"})
    assert set(refused.json()["error"]) == SHAPE
    assert "unit is missing" in refused.json()["error"]["what"]


def test_help_for_every_field(page: TestClient) -> None:
    helps = page.get("/help.json").json()
    document = page.get(f"{STOOL}/choices.json").json()
    keys = {each["key"] for section in document["sections"] for each in section["fields"]}
    assert keys <= set(helps)
    assert helps["mold.wall"]["source"] == "common practice, no source"


def test_an_unknown_variant_and_a_foreign_hand(page: TestClient) -> None:
    assert page.get(f"{STOOL}/choices.json", params={"variant": "none"}).status_code == 404
    answer = page.post(f"{STOOL}/undo", headers={"origin": "http://evil.example"})
    assert answer.status_code == 403
