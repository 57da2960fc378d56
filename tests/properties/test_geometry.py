"""What must hold for every shape, on random ones, with two foreign libraries as oracles."""

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings, strategies as st

from pourwright.geometry import (
    Grid,
    Mesh,
    box,
    cell_fractions,
    cone,
    find_faults,
    graded_axis,
    joined,
    level_volume,
    measure,
    pour_frame,
    revolve,
    surface_areas,
    volume_at_levels,
)

SLOW = settings(max_examples=25, deadline=None, derandomize=True)
QUICK = settings(max_examples=60, deadline=None, derandomize=True)

lengths = st.floats(0.01, 1.0)
seeds = st.integers(0, 2**32 - 1)


@st.composite
def outlines(draw):
    """Draw radii over rising heights: always a simple outline."""
    count = draw(st.integers(2, 7))
    radii = draw(st.lists(st.floats(0.02, 0.3), min_size=count, max_size=count))
    steps = draw(st.lists(st.floats(0.01, 0.2), min_size=count, max_size=count))
    return np.stack([radii, np.cumsum(steps)], axis=1)


@st.composite
def bodies(draw):
    """Draw a body anywhere, turned at will."""
    body = revolve(draw(outlines()), draw(st.integers(3, 24)))
    rng = np.random.default_rng(draw(seeds))
    matrix = trimesh.transformations.random_rotation_matrix(rng.random(3))
    matrix[:3, 3] = rng.uniform(-1, 1, 3)
    return body.transformed(matrix)


def random_solid(seed, parts=4):
    """Unite random boxes with manifold3d: many flat faces at odd angles, edges of any valence."""
    rng = np.random.default_rng(seed)
    solid = manifold3d.Manifold()
    for _ in range(parts):
        one = manifold3d.Manifold.cube(tuple(rng.uniform(0.1, 0.4, 3)), True)
        turned = one.rotate(tuple(rng.uniform(0, 360, 3)))
        solid = solid + turned.translate(tuple(rng.uniform(-0.12, 0.12, 3)))
    raw = solid.to_mesh64()
    return solid, Mesh(np.asarray(raw.vert_properties)[:, :3], np.asarray(raw.tri_verts))


@QUICK
@given(bodies())
def test_volume_area_and_moments_do_not_depend_on_the_place(body):
    found = measure(body)
    frame = np.linalg.eigvalsh(found.inertia)
    moved = measure(body.moved([3.0, -40.0, 7.0]))
    assert moved.volume == pytest.approx(found.volume, rel=1e-9)
    assert moved.area == pytest.approx(found.area, rel=1e-9)
    assert np.linalg.eigvalsh(moved.inertia) == pytest.approx(frame, rel=1e-7, abs=1e-12)
    assert moved.centroid - found.centroid == pytest.approx([3.0, -40.0, 7.0], abs=1e-9)


@QUICK
@given(bodies())
def test_measure_against_another_library(body):
    other = trimesh.Trimesh(body.vertices, body.faces, process=False)
    found = measure(body)
    assert found.volume == pytest.approx(other.volume, rel=1e-6)
    assert found.area == pytest.approx(other.area, rel=1e-9)
    assert found.centroid == pytest.approx(other.center_mass, abs=1e-6)


@QUICK
@given(bodies())
def test_levels_rise_and_come_back(body):
    curve = level_volume(body)
    assert curve.total == pytest.approx(measure(body).volume, rel=1e-9)
    levels = np.linspace(curve.bottom, curve.top, 23)
    volumes = curve.volume(levels)
    assert (np.diff(volumes) >= -1e-15).all()
    assert curve.volume(curve.height(volumes.clip(0, curve.total))) == pytest.approx(
        volumes, abs=1e-11 * curve.total
    )
    assert volume_at_levels(body, levels) == pytest.approx(volumes, abs=1e-12 * curve.total)


@QUICK
@given(bodies())
def test_what_is_below_and_above_make_the_whole(body):
    upside_down = body.transformed(np.diag([1.0, -1.0, -1.0, 1.0]))
    curve, turned = level_volume(body), level_volume(upside_down)
    levels = np.linspace(curve.bottom, curve.top, 7)
    assert curve.volume(levels) + turned.volume(-levels) == pytest.approx(np.full(7, curve.total), rel=1e-10)


@SLOW
@given(bodies(), seeds)
def test_cells_add_up_on_any_grid(body, seed):
    rng = np.random.default_rng(seed)
    low, high = body.bounds
    axes = [
        np.unique([a, *rng.uniform(a, b, rng.integers(0, 12)), b]) for a, b in zip(low, high, strict=True)
    ]
    grid = Grid(*axes)
    fractions = cell_fractions(body, grid)
    found = measure(body)
    assert ((fractions >= 0) & (fractions <= 1)).all()
    assert (fractions * grid.cell_volumes).sum() == pytest.approx(found.volume, rel=1e-9)
    assert surface_areas(body, grid).area.sum() == pytest.approx(found.area, rel=1e-9)


@QUICK
@given(st.tuples(lengths, lengths, lengths), st.tuples(lengths, lengths, lengths))
def test_bodies_are_additive(first, second):
    both = joined([box(first), box(second).moved([5.0, 0.0, 0.0])])
    assert measure(both).volume == pytest.approx(np.prod(first) + np.prod(second), rel=1e-12)
    hollow = joined([box(np.multiply(first, 2)), box(first).moved([0, 0, 1e-3]).reversed()])
    assert level_volume(hollow).total == pytest.approx(7 * np.prod(first), rel=1e-9)


@QUICK
@given(lengths, st.floats(0, 1), lengths, st.integers(3, 300))
def test_cone_of_flat_strips(bottom, ratio, height, segments):
    top = bottom * ratio
    polygon = segments / 2 * np.sin(2 * np.pi / segments)
    expected = polygon / 3 * height * (bottom**2 + bottom * top + top**2)
    assert measure(cone(bottom, top, height, segments)).volume == pytest.approx(expected, rel=1e-10)


@SLOW
@given(outlines(), st.sampled_from(["+z", "-z", "+x", "-x", "+y", "-y"]))
def test_every_way_up_keeps_the_body(outline, up):
    body = revolve(outline, 12)
    piece, frame = pour_frame(body, up)
    assert measure(piece).volume == pytest.approx(measure(body).volume, rel=1e-10)
    assert level_volume(piece).height(level_volume(piece).total) == frame.height
    assert frame.as_poured(frame.as_standing(0.3 * frame.height)) == pytest.approx(0.3 * frame.height)


@QUICK
@given(st.lists(st.floats(-1, 1), min_size=2, max_size=9, unique=True), st.floats(0.01, 0.5))
def test_axis_hits_its_lines(lines, spacing):
    if max(lines) - min(lines) < 1e-6:
        return
    edges = graded_axis(lines, spacing)
    assert np.diff(edges).max() <= spacing * (1 + 1e-6)
    assert np.diff(edges).min() > 0
    assert max(np.abs(edges - line).min() for line in lines) <= 1e-9
    assert {min(lines), max(lines)} <= set(edges.tolist())


@pytest.mark.parametrize("seed", range(6))
def test_random_solids_against_a_boolean_kernel(seed):
    solid, body = random_solid(seed)
    found = measure(body)
    assert found.volume == pytest.approx(solid.volume(), rel=1e-9)
    assert found.area == pytest.approx(solid.surface_area(), rel=1e-9)
    assert [fault.kind for fault in find_faults(body) if fault.refused] == []
    level = float(body.bounds[:, 2].mean()) + 0.017
    below = solid.trim_by_plane((0.0, 0.0, -1.0), -level)
    assert level_volume(body).volume(level) == pytest.approx(below.volume(), rel=1e-9)


@pytest.mark.parametrize("seed", range(3))
def test_cells_of_random_solids_against_a_boolean_kernel(seed):
    solid, body = random_solid(seed)
    low, high = body.bounds
    grid = Grid(*(np.linspace(a, b, 5) for a, b in zip(low, high, strict=True)))
    fractions = cell_fractions(body, grid)
    for i, j, k in np.ndindex(*grid.shape):
        corner = np.array([grid.x[i], grid.y[j], grid.z[k]])
        size = np.array([grid.x[i + 1], grid.y[j + 1], grid.z[k + 1]]) - corner
        cube = manifold3d.Manifold.cube(tuple(size), False).translate(tuple(corner))
        assert fractions[i, j, k] == pytest.approx((solid ^ cube).volume() / np.prod(size), abs=1e-8)
