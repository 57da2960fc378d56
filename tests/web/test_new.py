"""A job begins: a file handed in, a form, a tape, a copy."""

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from fastapi.testclient import TestClient

from pourwright.app.shelf.uploads import UploadLimits
from pourwright.geometry import box, cone
from pourwright.geometry.files.writers import stl_bytes
from pourwright.jobs import load_job
from pourwright.web.application import make_app
from tests.web.conftest import HERE

FIVE = {"title": "Pear, bowl 2", "material": "epoxy-slow-deep", "glass": [], "shop_temperature": "20 degC"}


def handed_in(page: TestClient, content: bytes, name: str = "my bowl.stl") -> dict:
    answer = page.put("/uploads", params={"name": name}, content=content)
    assert answer.status_code == 200, answer.text
    return answer.json()


def refused(answer, status: int) -> str:
    assert answer.status_code == status, answer.text
    return answer.json()["error"]["what"]


def jobs_in(shop: Path) -> set[str]:
    return {folder.name for folder in shop.iterdir()}


def test_a_file_is_measured_in_every_unit_before_a_job_is_made(page: TestClient) -> None:
    found = handed_in(page, stl_bytes(box([0.1, 0.2, 0.3])))
    assert found["triangles"] == 12
    assert found["needs_unit"] is True
    heights = {size["unit"]: size["height_m"] for size in found["sizes"]}
    # 300 of the file's units
    assert heights == pytest.approx({"mm": 0.3, "cm": 3.0, "m": 300.0, "in": 7.62, "ft": 91.44}, rel=1e-6)


def test_a_job_is_made_of_a_file(page: TestClient, shop: Path) -> None:
    token = handed_in(page, stl_bytes(box([0.1, 0.2, 0.3])))["upload"]
    glass = [["coarse", "amber"], ["fine", "clear"]]
    asked = FIVE | {"shape": "file", "upload": token, "unit": "mm", "height_m": 0.3, "glass": glass}
    answer = page.post("/jobs", json=asked)
    assert answer.status_code == 201, answer.text
    assert answer.json() == {"name": "pear-bowl-2", "url": "/jobs/pear-bowl-2"}
    job = load_job(shop / "pear-bowl-2")
    assert job.title == "Pear, bowl 2"
    assert job.shape_file == shop / "pear-bowl-2" / "pear-bowl-2.stl"
    # two bands share the height
    assert job.band[0].to.si == pytest.approx(0.15)
    again = page.post("/jobs", json=asked)
    assert "not there any more" in refused(again, 404)


@pytest.mark.parametrize(
    ("shape", "size"),
    [
        ("box", ["4 in", "3 in", "2 1/2 in"]),
        ("cylinder", ["80 mm", "120 mm"]),
        ("sphere", ["80 mm"]),
        ("turned", ["80 mm", "120 mm"]),
        ("outline", ["80 mm", "60 mm", "30 mm"]),
    ],
)
def test_a_job_is_made_of_a_few_sizes(page: TestClient, shop: Path, shape: str, size: list[str]) -> None:
    answer = page.post("/jobs", json=FIVE | {"shape": shape, "size": size})
    assert answer.status_code == 201, answer.text
    job = load_job(shop / answer.json()["name"])
    assert job.units == ("us" if shape == "box" else "metric")


def test_a_job_is_made_of_what_a_tape_said(page: TestClient, shop: Path) -> None:
    readings = [{"height": "0 mm", "girth": "300 mm"}, {"height": "120 mm", "girth": "200 mm"}]
    answer = page.post("/jobs", json=FIVE | {"shape": "measured", "readings": readings})
    assert answer.status_code == 201, answer.text
    job = load_job(shop / answer.json()["name"])
    assert [one.girth.text for one in job.shape.measured.at] == ["300 mm", "200 mm"]


def test_a_copy_has_the_shape_and_no_plan(page: TestClient, shop: Path) -> None:
    (shop / "hourglass-stool" / "plan").mkdir()
    answer = page.post("/copies", json={"job": "hourglass-stool", "title": "Second stool"})
    assert answer.status_code == 201, answer.text
    assert sorted(one.name for one in (shop / "second-stool").iterdir()) == ["job.toml", "stool.stl"]
    old, new = ((shop / name / "job.toml").read_text("utf8") for name in ("hourglass-stool", "second-stool"))
    assert old.replace("Hourglass stool", "Second stool") == new


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"shape": "cylinder", "size": ["80 mm"]}, ""),
        ({"shape": "cylinder", "size": ["80", "120 mm"]}, ""),
        ({"shape": "box", "size": ["80 mm"]}, "size"),
        ({"shape": "../../etc/passwd"}, "shape"),
        ({"shape": "file"}, "upload"),
        ({"shape": "file", "upload": "../../../../etc"}, "upload"),
        ({"shape": "sphere", "size": ["80 mm"], "material": "cheese"}, "material"),
        ({"shape": "sphere", "size": ["80 mm"], "shop_temperature": "20"}, "shop_temperature"),
        ({"shape": "sphere", "size": ["80 mm"], "glass": [["sand", "clear"]]}, "glass[1]"),
        ({"shape": "measured", "readings": [{"height": "0 mm", "girth": "300 mm"}]}, "readings"),
        ({"shape": "measured", "readings": [{"waist": "3 mm"}, {"height": "1 mm"}]}, "readings[1]"),
    ],
)
def test_an_answer_that_cannot_be_used_makes_nothing(
    page: TestClient, shop: Path, change: dict, field: str
) -> None:
    before = jobs_in(shop)
    answer = page.post("/jobs", json=FIVE | change)
    assert answer.status_code in (400, 404), answer.text
    assert answer.json()["error"]["where"].startswith(field)
    assert jobs_in(shop) == before


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("bowl.stl", b"no shape at all"),
        ("bowl.stl", b""),
        ("bowl.3mf", b"PK\x03\x04" + bytes(200)),
        ("bowl.glb", b"glTF" + bytes(200)),
        ("bowl.obj", b"f 1 2 3\n"),
        ("bowl.exe", b"MZ"),
        ("../../bowl", b"solid"),
    ],
)
def test_garbage_is_refused_in_one_sentence_and_not_kept(
    page: TestClient, name: str, content: bytes, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "cache"))
    answer = page.put("/uploads", params={"name": name}, content=content)
    what = refused(answer, 400)
    assert what
    assert str(tmp_path) not in answer.text
    assert not list((tmp_path / "cache").glob("uploads/*"))


@pytest.fixture
def narrow(shop: Path) -> Iterator[TestClient]:
    """A server that takes little."""
    limits = UploadLimits(megabytes=0.001, triangles=100, seconds=60)
    with TestClient(make_app(shop, limits), base_url=HERE, headers={"origin": HERE}) as client:
        yield client


def test_too_many_bytes_are_refused(narrow: TestClient) -> None:
    assert "larger than 0.001 MB" in refused(
        narrow.put("/uploads", params={"name": "a.stl"}, content=b"x" * 1001), 413
    )


def test_too_many_triangles_are_refused(shop: Path) -> None:
    limits = UploadLimits(triangles=100)
    with TestClient(make_app(shop, limits), base_url=HERE, headers={"origin": HERE}) as client:
        body = stl_bytes(cone(0.1, 0.1, 0.1))
        answer = client.put("/uploads", params={"name": "a.stl"}, content=body)
    # the count of a binary STL stands in its bytes 80 to 84
    count = int(np.frombuffer(body[80:84], "<u4")[0])
    assert refused(answer, 413) == f"{count:,} triangles"


def test_a_file_that_takes_too_long_to_read_is_refused(shop: Path) -> None:
    limits = UploadLimits(seconds=0.05)
    with TestClient(make_app(shop, limits), base_url=HERE, headers={"origin": HERE}) as client:
        answer = client.put("/uploads", params={"name": "a.stl"}, content=stl_bytes(box([0.1, 0.1, 0.1])))
    assert "longer than 0.05 s" in refused(answer, 413)


def test_every_job_has_a_picture(page: TestClient) -> None:
    answer = page.get("/jobs/table-lamp/picture.svg")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert answer.content.startswith((b"<svg", b"<?xml"))
    assert b"<image" in answer.content


def test_the_five_questions_can_be_answered_by_what_is_offered(page: TestClient) -> None:
    given = page.get("/new.json").json()
    assert {one["id"] for one in given["materials"]} >= {"epoxy-slow-deep"}
    assert set(given["forms"]) == {"box", "cylinder", "sphere", "turned", "outline"}
    text = page.get("/new").text
    assert all(one["id"] in text for one in given["materials"])
