"""Lines of bodies: what is drawn, what is hidden, against views that can be worked out."""

from collections.abc import Iterator
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import Mesh, box, cone
from pourwright.geometry.line_view import LineView, line_view
from tests.geometry.bodies import torus

CUBE = box([0.1, 0.1, 0.1])
AXES = np.eye(3)
SAMPLES = 41
WAYS = st.tuples(st.floats(0.3, 1), st.floats(0.3, 1), st.floats(0.3, 1))


def length(view: LineView, body: int) -> float:
    return sum(float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum()) for line in view.strokes[body])


@pytest.mark.parametrize(
    ("toward", "edges"), [((-1, -2, 1.5), 9), ((1, 2, 3), 9), ((1, 1, 0), 7), ((0, -1, 0), 4)]
)
def test_a_cube_shows_the_edges_of_the_sides_that_face_the_viewer(toward, edges):
    view = line_view([CUBE], toward)
    assert sum(len(stroke) - 1 for stroke in view.strokes[0]) == edges


def test_the_diagonals_of_flat_sides_are_no_edges():
    view = line_view([CUBE], (0, -1, 0), pixels=500)
    assert length(view, 0) == pytest.approx(4 * 500, abs=1.0)


def test_a_cube_behind_a_cube_loses_what_the_first_covers():
    behind = CUBE.moved([0.03, 0.5, 0.04])
    view = line_view([CUBE, behind], (0, -1, 0), pixels=700)
    pixel = view.view.pixel
    # its left edge shows above 0.1, its lower edge to the right of 0.05; the others in full
    shown = 0.1 + 0.1 + (0.14 - 0.1) + (0.08 - 0.05)
    assert length(view, 0) * pixel == pytest.approx(0.4, abs=2 * pixel)
    assert length(view, 1) * pixel == pytest.approx(shown, abs=2 * pixel)


def test_a_body_wholly_behind_another_is_not_drawn():
    small = box([0.02, 0.02, 0.02]).moved([0, 0.3, 0.03])
    view = line_view([CUBE, small], (0, -1, 0))
    assert view.strokes[1] == ()
    assert not view.shown(1).any()
    assert view.shown(0).any()


def test_the_outline_of_a_round_body_is_drawn_where_it_turns_away():
    cylinder = cone(0.05, 0.05, 0.2, 256)
    view = line_view([cylinder], (0, -1, 0), pixels=1000)
    xs = np.concatenate([line[:, 0] for line in view.strokes[0]])
    ends = view.view.at([[-0.05, 0, 0.1], [0.05, 0, 0.1]])[:, 0]
    assert [xs.min(), xs.max()] == pytest.approx(list(ends), abs=1.0)
    # two upright outlines and both rims seen edge on
    assert length(view, 0) * view.view.pixel == pytest.approx(2 * 0.2 + 2 * 0.1, rel=0.01)


def test_a_ring_seen_from_above_shows_both_its_circles():
    view = line_view([torus()], (0, 0, 1), upward=(0, 1, 0), pixels=800)
    span = np.ptp(torus().bounds, axis=0)
    outer = span[0] / 2
    inner = outer - span[2]
    assert length(view, 0) * view.view.pixel == pytest.approx(2 * np.pi * (outer + inner), rel=0.01)


def test_the_same_bodies_give_the_same_lines():
    bodies = [CUBE, cone(0.04, 0.02, 0.1).moved([0.1, 0.2, 0])]
    one, other = (line_view(bodies, (-1, -2, 1)) for _ in range(2))
    for a, b in zip(one.strokes, other.strokes, strict=True):
        assert [line.tolist() for line in a] == [line.tolist() for line in b]


def test_open_edges_are_drawn():
    sheet = Mesh([[0, 0, 0], [0.1, 0, 0], [0.1, 0, 0.1], [0, 0, 0.1]], [[0, 1, 2], [0, 2, 3]])
    view = line_view([sheet], (0, -1, 0), pixels=500)
    assert length(view, 0) == pytest.approx(4 * 500, abs=1.0)


def cuboids() -> st.SearchStrategy:
    side = st.floats(0.04, 0.09)
    return st.lists(st.tuples(side, side, side, st.floats(-0.03, 0.03)), min_size=2, max_size=4)


def hidden(point: np.ndarray, toward: np.ndarray, boxes: list[np.ndarray]) -> bool:
    """Whether a ray from a point to the viewer runs through any box: the slab test."""
    for low, high in boxes:
        a, b = (low - point) / toward, (high - point) / toward
        near, far = np.minimum(a, b).max(), np.maximum(a, b).min()
        if far - max(near, 0.0) > 1e-6:
            return True
    return False


def edges(low: np.ndarray, high: np.ndarray) -> Iterator[np.ndarray]:
    """Places along each of the twelve edges of a box."""
    for axis, one, other in product(range(3), (0, 1), (0, 1)):
        across = [side for side in range(3) if side != axis]
        start = low.copy()
        start[across] = [(low, high)[k][side] for k, side in zip((one, other), across, strict=True)]
        yield start + np.linspace(0, 1, SAMPLES)[:, None] * AXES[axis] * (high - low)


@settings(max_examples=6, deadline=None)
@given(sizes=cuboids(), toward=WAYS)
def test_every_place_on_an_edge_is_drawn_where_a_ray_finds_it_free(sizes, toward):
    bodies = [box(size[:3]).moved([k * 0.1, size[3], k * 0.02]) for k, size in enumerate(sizes)]
    view = line_view(bodies, toward, pixels=300)
    ray = np.array(toward) / np.linalg.norm(toward)
    boxes = [body.bounds for body in bodies]
    for (low, high), lines in zip(boxes, view.strokes, strict=True):
        for places in edges(low, high):
            free = np.array([not hidden(place, ray, boxes) for place in places])
            flat = view.view.at(places)[:, :2]
            margin = int(np.ceil(2.0 / max(np.linalg.norm(flat[1] - flat[0]), 1e-9)))
            for k in range(margin, SAMPLES - margin):
                if free[k - margin : k + margin + 1].all():
                    assert nearest(flat[k], lines) < 1.0


def nearest(point: np.ndarray, lines: tuple) -> float:
    """Distance of a point to the nearest of many strokes."""
    best = np.inf
    for line in lines:
        start, along = line[:-1], np.diff(line, axis=0)
        share = ((point - start) * along).sum(axis=1) / np.maximum((along**2).sum(axis=1), 1e-30)
        foot = start + np.clip(share, 0, 1)[:, None] * along
        best = min(best, float(np.linalg.norm(foot - point, axis=1).min()))
    return best


@settings(max_examples=10, deadline=None)
@given(sizes=cuboids(), toward=WAYS)
def test_nothing_is_drawn_where_a_ray_meets_another_body(sizes, toward):
    bodies = [box(size[:3]).moved([k * 0.1, size[3], k * 0.02]) for k, size in enumerate(sizes)]
    view = line_view(bodies, toward, pixels=300)
    for number, lines in enumerate(view.strokes):
        others = np.zeros(view.view.face.shape, dtype=bool)
        for other in range(len(bodies)):
            if other != number:
                others |= view.shown(other)
        for line in lines:
            for share in (0.25, 0.5, 0.75):
                middle = line[:-1] * (1 - share) + line[1:] * share
                for x, y in middle:
                    around = others[max(int(y) - 2, 0) : int(y) + 3, max(int(x) - 2, 0) : int(x) + 3]
                    # where another body alone is foremost all around, no line of this one may pass
                    assert not around.all()
