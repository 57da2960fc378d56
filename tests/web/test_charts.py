"""Charts over HTTP: list, numbers, table, drawing; refusals in one shape."""

import csv
import io
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from tests.sheets.laid import lay_plan
from tests.sheets.sample_chances import sure_plan

STOOL = "/jobs/hourglass-stool"


@pytest.fixture
def planned(shop: Path) -> Path:
    folder = shop / "hourglass-stool" / "plan"
    lay_plan(sure_plan(), folder)
    return folder


def test_a_job_without_a_plan_says_what_to_do_first(page: TestClient) -> None:
    told = page.get(f"{STOOL}/charts.json").json()
    assert told["charts"] == []
    assert "make the plan" in told["todo"]
    answer = page.get(f"{STOOL}/charts/heat.json")
    assert answer.status_code == 404
    assert answer.json()["error"]["todo"] == "make the plan first"


def test_charts_are_listed_and_each_has_its_numbers(page: TestClient, planned: Path) -> None:
    told = page.get(f"{STOOL}/charts.json").json()
    assert [chart["name"] for chart in told["charts"]] == ["heat", "level", "calendar", "matters"]
    # the invented plan was not made from this job
    assert told["old"] is True
    for chart in told["charts"]:
        answer = page.get(f"{STOOL}/charts/{chart['name']}.json")
        assert answer.status_code == 200
        assert answer.json()["title"] == chart["title"]
        assert answer.json()["words"] == chart["words"]


def test_the_table_and_the_csv_hold_the_same(page: TestClient, planned: Path) -> None:
    table = page.get(f"{STOOL}/charts/level.json").json()["table"]
    answer = page.get(f"{STOOL}/charts/level.csv")
    assert answer.headers["content-type"].startswith("text/csv")
    assert answer.headers["content-disposition"] == 'attachment; filename="hourglass-stool-level.csv"'
    rows = list(csv.reader(io.StringIO(answer.content.decode("utf-8-sig"), newline="")))
    assert rows[0][:-1] == table["header"]
    assert [row[:-1] for row in rows[1:]] == [[str(cell) for cell in row] for row in table["rows"]]


@pytest.mark.parametrize("name", ["heat", "level", "calendar", "matters"])
def test_drawings_are_svg(page: TestClient, planned: Path, name: str) -> None:
    answer = page.get(f"{STOOL}/charts/{name}.svg")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert ET.fromstring(answer.content).tag == "{http://www.w3.org/2000/svg}svg"


@pytest.mark.parametrize("path", ["charts/cold.json", "charts/heat.json?variant=red", "charts/..%2Fplan.svg"])
def test_what_is_not_there_is_refused_in_one_shape(page: TestClient, planned: Path, path: str) -> None:
    answer = page.get(f"{STOOL}/{path}")
    assert answer.status_code in {400, 404}
    assert set(answer.json()["error"]) == {"what", "where", "allowed", "todo"}


def test_a_new_plan_is_drawn_at_once(page: TestClient, planned: Path) -> None:
    first = page.get(f"{STOOL}/charts.json").json()["plan"]
    lay_plan(sure_plan(2), planned)
    assert page.get(f"{STOOL}/charts.json").json()["plan"] != first
    marks = page.get(f"{STOOL}/charts/level.json").json()["marks"]
    assert len(marks) == 2


def test_a_job_file_with_an_error_keeps_its_charts(page: TestClient, shop: Path, planned: Path) -> None:
    (shop / "hourglass-stool" / "job.toml").write_text("format = 1\n[shape\n", "utf8")
    told = page.get(f"{STOOL}/charts.json?variant=main").json()
    assert len(told["charts"]) == 4
    assert told["old"] is True
    assert "error" in told["because"][0]
    assert page.get(f"{STOOL}/charts/level.json?variant=main").status_code == 200
