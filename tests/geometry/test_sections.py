import numpy as np
import pytest

from pourwright.geometry import box, joined, level_volume, outline_area, plane_section, simplified
from tests.geometry.bodies import ball, hourglass, torus, turned


@pytest.mark.parametrize("mesh", [hourglass(), turned(hourglass(), 9), torus(), ball()])
def test_section_area_is_the_slope_of_the_level_curve(mesh):
    curve = level_volume(mesh)
    for z in np.linspace(curve.bottom, curve.top, 9)[1:-1]:
        areas = [outline_area(outline) for outline in plane_section(mesh, "z", z)]
        assert sum(areas) == pytest.approx(curve.area(z, below=True), rel=1e-9)


@pytest.mark.parametrize(("axis", "expected"), [("x", 0.1 * 0.3), ("y", 0.2 * 0.3), ("z", 0.2 * 0.1)])
def test_every_axis_runs_counter_clockwise(axis, expected):
    (outline,) = plane_section(box([0.2, 0.1, 0.3]), axis, 0.01)
    assert outline_area(outline) == pytest.approx(expected, rel=1e-12)


def test_hole_runs_clockwise():
    outlines = plane_section(torus(), "z", 0.0)
    areas = sorted(outline_area(outline) for outline in outlines)
    assert len(areas) == 2
    assert areas[0] < 0 < areas[1]
    cavity = joined([box([0.2, 0.2, 0.2]), ball(0.05, center=(0, 0, 0.1)).reversed()])
    assert sum(outline_area(outline) < 0 for outline in plane_section(cavity, "y", 0.01)) == 1


def test_drawing_of_a_revolved_body_shows_its_outline():
    (outline,) = plane_section(hourglass(), "y", 0.0)
    assert outline[:, 0].max() == pytest.approx(0.16, abs=1e-12)
    assert np.ptp(outline[:, 1]) == pytest.approx(0.42, abs=1e-12)


def test_at_a_face_the_section_just_below_is_given():
    mesh = joined([box([0.2, 0.2, 0.1]), box([0.1, 0.1, 0.1]).moved([0, 0, 0.1])])
    assert plane_section(mesh, "z", 0.0) == []
    areas = sorted(outline_area(outline) for outline in plane_section(mesh, "z", 0.1))
    assert areas == pytest.approx([0.04], rel=1e-12)
    assert plane_section(mesh, "z", 0.3) == []


def test_open_mesh_is_refused():
    whole = box([0.2, 0.2, 0.2])
    torn = type(whole)(whole.vertices, whole.faces[:-1])
    with pytest.raises(ValueError, match="open"):
        plane_section(torn, "z", 0.1)


def test_simplified_stays_within_its_tolerance():
    (outline,) = plane_section(ball(0.1, 5), "z", 0.0)
    coarse = simplified(outline, 1e-3)
    assert len(coarse) < len(outline) / 4
    assert outline_area(coarse) == pytest.approx(outline_area(outline), abs=1e-3 * 2 * np.pi * 0.1)
    assert {tuple(p) for p in coarse} <= {tuple(p) for p in outline}
