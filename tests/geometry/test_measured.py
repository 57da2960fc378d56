"""Curves and bodies through readings."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import find_faults, level_volume, measure
from pourwright.geometry.taped.between import Wander, left_out, span_doubts, squares_between
from pourwright.geometry.taped.cross_sections import CrossSection
from pourwright.geometry.taped.measured import MeasuredBody
from pourwright.geometry.taped.superbody import FORMS, body_of_volume, form_range

sizes = st.floats(0.02, 0.5)
readings = st.lists(
    st.tuples(st.floats(0.01, 0.3), sizes, sizes, st.floats(0.0, 1.0)), min_size=2, max_size=7
)


def body_through(rows, ends=(None, None)):
    heights = np.cumsum([step for step, *_ in rows])
    sections = [
        CrossSection(width, depth, None if corner < 0.3 else (corner - 0.3) / 0.7 * min(width, depth) / 2)
        for _, width, depth, corner in rows
    ]
    for end, how in zip((0, -1), ends, strict=True):
        if how:
            sections[end] = CrossSection(0.0, 0.0)
    return MeasuredBody(heights, tuple(sections), ends)


@given(readings)
@settings(max_examples=40, deadline=None)
def test_the_body_goes_through_its_readings_and_never_beyond_its_neighbours(rows):
    body = body_through(rows)
    for i, (low, high) in enumerate(zip(body.heights[:-1], body.heights[1:], strict=True)):
        halves = body.halves(np.linspace(low, high, 33))
        ends = [[section.width / 2, section.depth / 2] for section in body.sections[i : i + 2]]
        assert np.allclose(halves[[0, -1]], ends, rtol=1e-9)
        assert (halves >= np.min(ends, axis=0) * (1 - 1e-9)).all()
        assert (halves <= np.max(ends, axis=0) * (1 + 1e-9)).all()


@given(readings, st.sampled_from([(None, None), (None, "dome"), ("point", "dome"), ("dome", None)]))
@settings(max_examples=25, deadline=None)
def test_the_mesh_is_one_closed_body_with_the_sections_that_were_read(rows, ends):
    rows = rows if len(rows) > 2 else rows + rows
    body = body_through(rows, ends)
    mesh = body.mesh()
    assert not find_faults(mesh)
    curve = level_volume(mesh)
    for height, section in list(zip(body.heights, body.sections, strict=True))[1:-1]:
        assert curve.area(float(height)) == pytest.approx(section.area, rel=1e-6)


def test_a_rectangle_with_the_roundest_corners_is_a_circle():
    angles = np.linspace(0.0, 2 * np.pi, 50)
    assert CrossSection(0.2, 0.2, 0.1).reach(angles) == pytest.approx(np.ones(50))


def test_a_rectangle_reaches_its_sides_and_corners():
    section = CrossSection(0.4, 0.2, 0.05)
    angles = np.linspace(0.0, 2 * np.pi, 5000)
    points = np.stack([np.cos(angles) * 0.2, np.sin(angles) * 0.1], axis=1) * section.reach(angles)[:, None]
    assert np.abs(points).max(axis=0) == pytest.approx([0.2, 0.1], rel=1e-6)
    # the corner lies (1 - 1/sqrt 2) r inside the sharp one, along both sides
    corner = np.array([0.2, 0.1]) - (1 - np.sqrt(0.5)) * 0.05
    assert np.linalg.norm(points - corner, axis=1).min() < 2e-4


def test_a_reading_that_the_others_foretell_leaves_nothing_over():
    heights = np.array([0.0, 0.1, 0.25, 0.4])
    assert left_out(heights, np.full(4, 0.03)) == pytest.approx(np.zeros(2), abs=1e-15)


def test_a_body_that_wanders_is_doubted_more():
    heights = np.linspace(0.0, 0.4, 5)
    calm, wild = (0.03 + wave * np.array([0, 1, -1, 1, 0]) for wave in (0.001, 0.01))
    wander = Wander(0.25, 2.6, 1.0)
    noise = np.zeros(5)
    assert (
        span_doubts(heights, wild, noise, wander).sum()
        > 1.5 * span_doubts(heights, calm, noise, wander).sum()
    )


def test_what_the_tape_does_is_not_put_on_the_body():
    heights, areas = np.linspace(0.0, 0.4, 5), 0.03 + 0.001 * np.array([0, 1, -1, 1, 0])
    wander = Wander(0.25, 2.6, 1.0)
    exact, blurred = (span_doubts(heights, areas, np.full(5, noise), wander).sum() for noise in (0.0, 0.001))
    assert blurred < exact


def test_two_readings_are_joined_by_straight_sides():
    curve = squares_between(np.array([0.0, 2.0]), np.array([9.0, 1.0]))
    assert np.sqrt(curve(np.array([0.5, 1.0, 1.5]))) == pytest.approx([2.5, 2.0, 1.5])


@given(st.sampled_from(sorted(FORMS)), st.tuples(sizes, sizes, sizes), st.floats(0.0, 1.0))
@settings(max_examples=20, deadline=None)
def test_any_volume_in_the_range_of_a_form_is_met_within_its_sizes(form, size, share):
    least, most = form_range(form, np.array(size))
    volume = least + share * (most - least)
    mesh = body_of_volume(form, np.array(size), volume)
    assert measure(mesh).volume == pytest.approx(volume, rel=1e-9)
    assert mesh.bounds[1] - mesh.bounds[0] == pytest.approx(np.array(size), rel=1e-9)
    assert not find_faults(mesh)


def test_a_form_says_which_volumes_it_has_none_for():
    with pytest.raises(ValueError, match="standing holds"):
        body_of_volume("standing", np.ones(3), 0.1)
