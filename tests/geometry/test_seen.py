import numpy as np
import pytest

from pourwright.geometry import box, joined, seen
from tests.geometry.bodies import ball


def test_shadow_of_a_ball_is_a_disc():
    """Its area is pi r^2, counted in pixels; the facets take a little."""
    view = seen(ball(0.1, 5), [1.0, 2.0, 0.5], [0, 0, 1], 800)
    assert (view.face >= 0).sum() * view.pixel**2 == pytest.approx(np.pi * 0.01, rel=4e-3)


def test_shadow_of_a_turned_box():
    """A convex body's shadow is half the sum of |normal . view| over its faces (Cauchy)."""
    body = box([0.3, 0.2, 0.1])
    way = np.array([0.3, -0.8, 0.5]) / np.linalg.norm([0.3, -0.8, 0.5])
    expected = np.abs(body.area_vectors @ way).sum() / 2
    view = seen(body, way, [0, 0, 1], 900)
    assert (view.face >= 0).sum() * view.pixel**2 == pytest.approx(expected, rel=3e-3)


def test_the_nearer_body_is_seen():
    both = joined([box([0.2, 0.2, 0.2]), box([0.1, 0.1, 0.1]).moved([0, -0.3, 0.05])])
    view = seen(both, [0, -1, 0], [0, 0, 1], 200)
    row, column = (int(value) for value in view.at([[0.0, -0.35, 0.1]])[0, [1, 0]])
    assert view.face[row, column] >= 12
    near, far = view.hidden([[0.0, -0.35, 0.1], [0.0, -0.1, 0.1]])
    assert far
    assert not near


def test_up_is_up_and_right_is_right():
    view = seen(box([0.2, 0.2, 0.2]), [0, -1, 0], [0, 0, 1], 100)
    (x0, y0, _), (x1, y1, _) = view.at([[-0.1, 0, 0.0], [0.1, 0, 0.2]])
    assert x1 > x0
    assert y1 < y0


def test_a_view_along_up_is_refused():
    with pytest.raises(ValueError, match="along the view"):
        seen(box([1, 1, 1]), [0, 0, 1], [0, 0, 2])
