"""The parts of a view, their bodies and their words, of a job whose numbers are reckoned by hand."""

from pathlib import Path
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from pourwright.app.viewing.packed import packed, unpacked
from pourwright.app.viewing.pointing import point_at
from pourwright.app.viewing.view import body_of, drawing_of, tint_of, view_key, view_of, words_of
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.geometry import Mesh, measure, revolve
from pourwright.geometry.files.writers import stl_bytes
from tests.browser.planned import with_plan

JOB = """
format = 1
title = "Paperweight"
units = "metric"
[shape]
box = ["80 mm", "60 mm", "50 mm"]
up = "-z"
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "30 mm"
grade = "medium"
colour = "green"
[[band]]
to = "top"
neat = true
[mold]
method = "hung"
wall = "20 mm"
base = "19 mm"
[shop]
temperature = "22 degC"
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    file = tmp_path / "job.toml"
    file.write_text(JOB, "utf8")
    return file


def test_pours_of_a_taller_piece_are_left_out(job: Path) -> None:
    plan = with_plan(job)
    there = {part["id"] for part in view_of(job)["parts"] if part["kind"] == "pour"}
    assert there == {f"pour-{pour.number}" for pour in plan.pours if pour.from_m < 0.05}
    assert 0 < len(there) < len(plan.pours)


def body(job: Path, part: str) -> Mesh:
    about, arrays = unpacked(body_of(job, part))
    assert about == {"id": part}
    return Mesh(arrays["positions"], arrays["corners"])


def test_every_part_is_listed_with_its_size_and_its_body(job):
    view = view_of(job)
    parts = {part["id"]: part for part in view["parts"]}
    assert {part["kind"] for part in view["parts"]} == {"piece", "band", "master", "rubber", "panel", "bar"}
    assert parts["piece"]["volume_m3"] == pytest.approx(0.08 * 0.06 * 0.05)
    assert parts["piece"]["size"] == "80 × 60 × 50 mm"
    assert parts["band-1"]["high_m"][2] - parts["band-1"]["low_m"][2] == pytest.approx(0.03)
    assert parts["band-1"]["heights"] == "from 0 mm (50 mm as it stands) to 30 mm (20 mm as it stands)"
    for name, part in parts.items():
        assert measure(body(job, name)).volume == pytest.approx(part["volume_m3"], rel=1e-5), name
        assert body(job, name).bounds == pytest.approx(np.array([part["low_m"], part["high_m"]]), abs=1e-7)


def test_pulled_apart_no_two_parts_that_are_shown_together_overlap(job):
    parts = [part for part in view_of(job)["parts"] if part["kind"] in {"piece", "rubber", "panel", "bar"}]
    boxes = [
        (part["id"], np.array(part["low_m"]) + part["moved_m"], np.array(part["high_m"]) + part["moved_m"])
        for part in parts
    ]
    for number, (one, low, high) in enumerate(boxes):
        for other, least, most in boxes[number + 1 :]:
            apart = ((high <= least + 1e-9) | (most <= low + 1e-9)).any()
            assert apart, (one, other)


def test_the_same_job_gives_the_same_bytes_and_another_shape_another_key(job, tmp_path):
    key, rubber = view_key(job), body_of(job, "rubber")
    assert view_key(job) == key
    job.write_text(JOB.replace('"50 mm"', '"52 mm"'), "utf8")
    assert view_key(job) != key
    assert body_of(job, "rubber") != rubber
    job.write_text(JOB, "utf8")
    assert (view_key(job), body_of(job, "rubber")) == (key, rubber)


def test_the_coarse_twin_of_a_fine_body_is_small_and_nearly_as_large(tmp_path):
    heights = np.linspace(0.0, 0.08, 90)
    vase = revolve(np.stack([0.04 - 0.01 * np.sin(40 * heights), heights], axis=1), 256)
    (tmp_path / "vase.stl").write_bytes(stl_bytes(vase))
    text = JOB.replace('box = ["80 mm", "60 mm", "50 mm"]', 'file = "vase.stl"\nunit = "mm"')
    text = text.replace('[[band]]\nto = "30 mm"\ngrade = "medium"\ncolour = "green"\n', "").replace(
        "hung", "screwed"
    )
    job = tmp_path / "job.toml"
    job.write_text(text, "utf8")
    for part in ("master", "rubber"):
        few = unpacked(body_of(job, part, coarse=True))[1]
        many = unpacked(body_of(job, part))[1]
        fewer, more = (Mesh(each["positions"], each["corners"]) for each in (few, many))
        assert len(fewer.faces) <= 6_000 + 100 < len(more.faces)
        assert measure(fewer).volume == pytest.approx(measure(more).volume, rel=0.01)


def test_a_tint_has_a_value_for_every_triangle_of_the_surface(job):
    surface = body(job, "surface")
    assert measure(surface).volume == pytest.approx(0.00024, rel=1e-5)
    for tint in ("draft", "undercut", "thickness"):
        assert unpacked(tint_of(job, tint))[1]["values"].shape == (len(surface.faces),)
    thickness = unpacked(tint_of(job, "thickness"))[1]["values"]
    across = np.abs(surface.area_vectors).argmax(axis=1)
    for axis, side in enumerate((0.08, 0.06, 0.05)):
        assert thickness[across == axis] == pytest.approx(side, rel=1e-4)


def test_what_is_pointed_at_is_said(job):
    surface = body(job, "surface")
    wall = int(np.flatnonzero(surface.area_vectors[:, 0] > 0)[0])
    told = point_at(job, (0.04, 0.01, 0.02), part="surface", tint="thickness", triangle=wall)
    assert told["value"] == pytest.approx(0.08, rel=1e-4)
    assert told["text"].startswith("80 mm thick, piece, band 1, at x = 40")
    assert "20 mm (30 mm as it stands) above the mold's floor" in told["text"]
    assert point_at(job, (0.05, 0.0, 0.02), part="rubber")["text"].startswith("Rubber, at x = 50")
    with pytest.raises(NotThereError, match="no part 'lid'"):
        point_at(job, (0.0, 0.0, 0.0), part="lid")
    with pytest.raises(NotThereError, match="no triangle"):
        point_at(job, (0.0, 0.0, 0.0), part="surface", tint="draft", triangle=len(surface.faces))


def test_the_twin_says_what_the_pictures_show(job):
    words = words_of(job)
    assert {row["words"] for row in words["parts"]} >= {"piece", "rubber", "band 1"}
    assert words["draft"]["upright"] == pytest.approx(
        2 * (0.08 + 0.06) * 0.05 / (2 * (0.08 + 0.06) * 0.05 + 0.0048)
    )
    assert words["undercuts"] == words["heat"] == []
    assert words["thin"][0]["thickness_m"] == pytest.approx(0.05, rel=1e-3)


def test_a_body_that_narrows_is_told_as_undercut_with_its_place(job):
    job.write_text(
        JOB.replace(
            'box = ["80 mm", "60 mm", "50 mm"]\nup = "-z"',
            'profile = [["50 mm", "0 mm"], ["30 mm", "80 mm"]]\nup = "+z"',
        ),
        "utf8",
    )
    (region,) = words_of(job)["undercuts"]
    assert region["depth_m"] == pytest.approx(0.02, abs=0.001)
    ring = np.pi * 0.08 * (0.05**2 - (0.05**2 + 0.05 * 0.03 + 0.03**2) / 3)
    assert region["volume_m3"] == pytest.approx(ring, rel=0.02)
    assert "20 mm" in region["text"]


def test_drawings_stand_in_for_the_view(job):
    assert ET.fromstring(drawing_of(job, "parts")).tag.endswith("svg")
    assert "80 mm" in drawing_of(job, "mold-cast")
    with pytest.raises(NotThereError, match="no drawing 'lid'"):
        drawing_of(job, "lid")


def test_what_there_is_none_of_is_refused(job):
    for ask in (lambda: body_of(job, "lid"), lambda: tint_of(job, "gloss")):
        with pytest.raises(NotThereError):
            ask()
    with pytest.raises(UserError, match="no variant called 'blue'"):
        view_of(job, "blue")


def test_arrays_come_back_as_they_went_in():
    arrays = {
        "one": np.arange(5, dtype=np.uint8),
        "two": np.array([[1.5, np.nan]], dtype=np.float16),
        "none": np.zeros((0, 3), dtype=np.float32),
    }
    about, back = unpacked(packed({"id": "ä"}, arrays))
    assert about == {"id": "ä"}
    for name, array in arrays.items():
        assert back[name].dtype == array.dtype
        np.testing.assert_array_equal(back[name], array)
