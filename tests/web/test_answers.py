"""Cheap answers and trials over HTTP."""

from pathlib import Path

import pytest
from fastapi.testclient import TestClient

LAMP, STOOL = "/jobs/table-lamp", "/jobs/hourglass-stool"


def test_answers_have_every_section_in_order_of_the_work(page: TestClient) -> None:
    told = page.get(f"{LAMP}/answers.json").json()
    assert told["state"] == "ready"
    assert list(told["sections"]) == ["piece", "mold", "fill", "pour", "paper"]
    assert all(section["numbers"] for section in told["sections"].values())


def test_an_error_of_the_job_file_is_part_of_the_answer(page: TestClient, shop: Path) -> None:
    good = page.get(f"{LAMP}/answers.json").json()
    file = shop / "table-lamp" / "job.toml"
    file.write_text(file.read_text("utf8").replace('"3/4 in"', '"3/4 inchs"', 1), "utf8")
    answer = page.get(f"{LAMP}/answers.json")
    assert answer.status_code == 200
    told = answer.json()
    assert told["state"] == "error"
    assert "inchs" in told["error"]["what"]
    assert told["sections"] == good["sections"]
    assert told["old"]


def test_a_variant_that_is_not_there_is_part_of_the_answer(page: TestClient) -> None:
    told = page.get(f"{LAMP}/answers.json?variant=gold").json()
    assert (told["state"], told["error"]["allowed"]) == ("error", "main")


def test_bands_are_tried_and_nothing_is_written(page: TestClient, shop: Path) -> None:
    file = shop / "hourglass-stool" / "job.toml"
    before = file.read_bytes()
    bands = [{"to": 0.2, "grade": "fine", "colour": "blue"}, {"to": "top", "neat": True}]
    told = page.post(f"{STOOL}/trial.json", json={"bands": bands}).json()
    assert told["error"] is None
    assert [band["called"] for band in told["fill"]["bands"]] == ["blue, fine", "neat"]
    assert file.read_bytes() == before


def test_refused_bands_come_back_with_the_reason_and_no_error_page(page: TestClient) -> None:
    bands = [{"to": 0.9, "neat": True}, {"to": "top", "neat": True}]
    answer = page.post(f"{STOOL}/trial.json", json={"bands": bands})
    assert answer.status_code == 200
    assert answer.json()["error"]["band"] == 1
    assert page.post(f"{STOOL}/trial.json", json={"bands": "all"}).status_code == 422
    assert page.post(f"{STOOL}/trial.json", json={"bands": [{"neat": True}] * 41}).status_code == 422


@pytest.mark.parametrize("to", ["1e308", "-1e9", "NaN", "Infinity"])
def test_a_border_beyond_all_reach_is_refused_like_any_other(page: TestClient, to: str) -> None:
    body = f'{{"bands": [{{"to": {to}, "neat": true}}, {{"to": "top", "neat": true}}]}}'
    answer = page.post(f"{STOOL}/trial.json", content=body, headers={"content-type": "application/json"})
    assert answer.status_code == 200
    assert "100 m" in answer.json()["error"]["allowed"]


def test_the_tape_is_in_the_units_of_the_job(page: TestClient) -> None:
    inches, metric = (page.get(f"{job}/tape.json").json()["tape"] for job in (LAMP, STOOL))
    assert (inches["unit"], metric["unit"]) == ("in", "cm")
    # four inches in sixteenths, and 440 mm
    assert (len(inches["ticks"]), len(metric["ticks"])) == (65, 441)
    assert [tick["label"] for tick in inches["ticks"] if tick["label"]] == ["0", "1", "2", "3", "4"]
    assert metric["bands"][0] == {"to": "90 mm", "neat": True}


def test_a_job_without_bands_has_no_tape_and_says_why(page: TestClient, shop: Path) -> None:
    file = shop / "table-lamp" / "job.toml"
    text = file.read_text("utf8").replace("epoxy-slow-deep", "gypsum-casting")
    file.write_text(text[: text.index("[[band]]")] + text[text.index("[mold]") :], "utf8")
    told = page.get(f"{LAMP}/tape.json").json()
    assert told["tape"] is None
    assert "no bands" in told["error"]["what"]
    tried = page.post(f"{LAMP}/trial.json", json={"bands": [{"to": "top", "neat": True}]}).json()
    assert tried["error"] == told["error"]
