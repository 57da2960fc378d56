"""What is told of thin and sharp places: a block with a fin, a pin and a slot, whose sizes are known."""

import json
from pathlib import Path

import numpy as np
import pytest

from pourwright.app import check_job, describe_shape
from pourwright.app.shaping.thin import measure_thin
from pourwright.app.shaping.thin_look import entries, teller_of
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import Mesh, box, cone, pour_frame, revolve
from pourwright.geometry.files.writers import stl_bytes
from pourwright.physics.notch import shoulder_in_bending
from tests.geometry.thin_bodies import filleted, finned, wedge

JOB = """format = 1
[shape]
file = "part.stl"
unit = "mm"
up = "-z"
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "60 mm"
grade = "fine"
[[band]]
to = "top"
grade = "coarse"
[shop]
temperature = "20 degC"
"""


def told(mesh: Mesh, system: UnitSystem = UnitSystem.METRIC, up: str = "+z") -> list[dict]:
    _, frame = pour_frame(mesh, up)
    return list(entries(measure_thin(mesh, system), teller_of(frame, system)))


def of_kind(places: list[dict], kind: str) -> list[dict]:
    return [place for place in places if place["kind"] == kind]


@pytest.fixture(scope="module")
def fins() -> list[dict]:
    return told(finned(), up="-z")


def test_each_thin_part_is_told_once_with_both_readings(fins):
    (fin,), (pin,), (slot,) = (of_kind(fins, kind) for kind in ("wall", "pin", "slot"))
    assert fin["number"] == 1
    assert fin["text"].startswith("thinnest: a fin 4.0 mm thick and 60 mm tall at x = 32.0 mm")
    assert pin["stands_m"] == pytest.approx(0.03, rel=0.06)
    assert slot["thickness_m"] == pytest.approx(0.003, rel=1e-3)
    # the block is 100 mm tall and lies upside down
    for place in (fin, pin, slot):
        assert place["height_m"] + place["height_standing_m"] == pytest.approx(0.1)
        assert place["height_standing_m"] == pytest.approx(place["z_m"])
        assert "as it stands" in place["text"]


def test_a_slot_is_widened_or_made_shallower_to_four_to_one(fins):
    (slot,) = of_kind(fins, "slot")
    # 25 mm / 4 and 4 * 3 mm
    assert "widen it to 6.2 mm, or make it 12 mm deep at most" in slot["text"]


def test_the_rounding_proposed_leaves_half_of_what_the_corner_adds(fins):
    corner = of_kind(fins, "inner corner")[0]
    # the fin is 4 mm thick and stands on more than that, so the step counts as 4 mm
    assert corner["stress"] == pytest.approx(shoulder_in_bending(0.0002, 0.004, 0.004))
    assert corner["stress_then"] - 1 <= (corner["stress"] - 1) / 2
    assert corner["proposed_m"] == pytest.approx(0.001)
    assert "(stress x2.4 or more -> x1.5)" in corner["text"]


def test_inches_have_sixteenths_and_thousandths():
    fin = told(finned(), UnitSystem.US)[0]
    assert "0.158 in thick and 2 3/8 in tall" in fin["text"]
    corner = of_kind(told(finned(), UnitSystem.US), "inner corner")[0]
    assert corner["proposed_m"] == pytest.approx(0.0254 / 16)


def test_a_corner_that_is_round_enough_is_not_told():
    assert of_kind(told(filleted(0.0005, 3)), "inner corner")
    assert not of_kind(told(filleted(0.008, 6)), "inner corner")


def test_a_knife_edge_is_told_as_an_edge_and_not_as_the_thinnest_place():
    places = told(wedge(38.0))
    (edge,) = of_kind(places, "outer edge")
    assert "outer edge of 38 degrees, 60 mm long" in edge["text"]
    # a circle of 1 mm in a wedge: 1 / sin(19 degrees) - 1
    assert edge["taken_m"] == pytest.approx(0.001 * (1 / np.sin(np.radians(19.0)) - 1), rel=1e-6)
    assert all(place["thickness_m"] > 0.03 for place in of_kind(places, "wall") + of_kind(places, "pin"))


def test_a_point_is_told_with_its_angle():
    (point,) = of_kind(told(cone(0.02, 0.0, 0.1, 96)), "point")
    assert point["angle_deg"] == pytest.approx(2 * np.degrees(np.arctan(0.2)), rel=5e-3)


@pytest.mark.parametrize(
    ("thickness", "level"), [(0.0008, "stop"), (0.002, "mind"), (0.005, "ok"), (0.05, "ok")]
)
def test_a_plate_is_judged_by_its_thickness(thickness, level):
    (plate,) = told(box([0.1, 0.08, thickness]))
    assert plate["level"] == level
    assert plate["thickness_m"] == pytest.approx(thickness, rel=1e-3)


def test_a_plain_body_has_its_thinnest_place_and_no_more():
    ball = revolve(0.1 * np.stack([np.sin(a := np.linspace(0, np.pi, 40)), -np.cos(a)], axis=1), 64)
    (only,) = told(ball)
    assert only["level"] == "ok"
    assert only["thickness_m"] == pytest.approx(0.2, rel=0.05)


def test_shape_tells_and_draws_and_its_answer_is_json(tmp_path: Path):
    (tmp_path / "part.stl").write_bytes(stl_bytes(finned()))
    report = describe_shape(tmp_path / "part.stl", "mm", out=tmp_path / "out")
    answer = json.loads(json.dumps(report.to_json(), allow_nan=False))
    assert answer["thin"]["places"][0]["thickness_m"] == pytest.approx(0.004, rel=1e-3)
    drawing = (tmp_path / "out" / "thin.svg").read_text("utf8")
    assert "under 3.0 mm" in drawing
    assert "a slot 3.0 mm wide" in drawing
    assert (tmp_path / "out" / "thin.png").read_bytes().startswith(b"\x89PNG")


def test_check_minds_them_and_the_glass_that_does_not_go_in(tmp_path: Path):
    (tmp_path / "part.stl").write_bytes(stl_bytes(finned()))
    (tmp_path / "job.toml").write_text(JOB, "utf8")
    lines = [finding.line for finding in check_job(tmp_path / "job.toml").findings if finding.level == "mind"]
    assert any(line.startswith("thinnest: a fin 4.0 mm thick") for line in lines)
    (fine,) = [line for line in lines if "fine glass" in line]
    # grains up to 3.15 mm in 4 mm: fewer than three side by side
    assert "is 4.0 mm: fine glass (1.18 to 3.15 mm) bridges and lies loose there" in fine
    assert fine.endswith("leave it neat there")
    (coarse,) = [line for line in lines if "coarse glass" in line]
    # beside the slot the block is 17 mm thick, below it 15 mm; grains are up to 12.5 mm
    assert "bridges and lies loose there; take fine, or leave it neat" in coarse
