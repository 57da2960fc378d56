import numpy as np
import pytest

from pourwright.geometry import box, cone, joined, level_volume, measure, volume_at_levels
from tests.geometry.bodies import ball, hourglass, torus, turned

BODIES = {
    "box": box([0.2, 0.1, 0.3]), "cone": cone(0.3, 0.0, 0.4, 64), "torus": torus(), "hourglass": hourglass(),
    "turned": turned(hourglass(), 3), "far": ball().moved([5.0, -7.0, 9.0]),
}  # fmt: skip


@pytest.fixture(params=BODIES)
def body(request):
    return BODIES[request.param]


def test_the_whole_is_the_volume(body):
    assert level_volume(body).total == pytest.approx(measure(body).volume, rel=1e-12)


def test_fast_sweep_and_curve_agree(body):
    curve = level_volume(body)
    levels = np.linspace(curve.bottom - 0.01, curve.top + 0.01, 101)[::-1]
    assert volume_at_levels(body, levels) == pytest.approx(curve.volume(levels), abs=1e-13 * curve.total)


def test_area_is_the_slope(body):
    curve = level_volume(body)
    levels = np.linspace(curve.bottom, curve.top, 42)[1:-1] + 1.234e-5
    step = 1e-6
    slope = (curve.volume(levels + step) - curve.volume(levels - step)) / (2 * step)
    assert curve.area(levels) == pytest.approx(slope, rel=1e-6, abs=1e-6 * curve.total)


def test_one_cubic_between_two_knots(body):
    curve = level_volume(body)
    knots = curve.knots
    wide = np.argsort(np.diff(knots))[-5:]
    for low, high in zip(knots[wide], knots[wide + 1], strict=True):
        z = np.linspace(low, high, 9)
        centred = (z - low) / (high - low)
        values = curve.volume(z)
        fitted = np.polynomial.Polynomial.fit(centred[::2][:4], values[::2][:4], 3)
        assert fitted(centred) == pytest.approx(values, abs=1e-11 * curve.total)


def test_inverse_brings_the_level_back(body):
    curve = level_volume(body)
    levels = np.linspace(curve.bottom, curve.top, 33)[1:-1]
    assert curve.height(curve.volume(levels)) == pytest.approx(
        levels, abs=1e-12 * (curve.top - curve.bottom) + 1e-14
    )
    shares = np.linspace(0, 1, 21) * curve.total
    assert curve.volume(curve.height(shares)) == pytest.approx(shares, abs=1e-12 * curve.total)


def test_area_jumps_at_a_ledge():
    step = joined([box([0.2, 0.2, 0.1]), box([0.1, 0.1, 0.1]).moved([0, 0, 0.1])])
    curve = level_volume(step)
    assert curve.area(0.1, below=True) == pytest.approx(0.04, rel=1e-12)
    assert curve.area(0.1) == pytest.approx(0.01, rel=1e-12)
    assert curve.area(0.0) == pytest.approx(0.04, rel=1e-12)
    assert curve.area(0.0, below=True) == 0.0
    assert curve.area(0.2, below=True) == pytest.approx(0.01, rel=1e-12)
    assert curve.area(0.2) == 0.0
    assert curve.ledges.tolist() == [0.0, 0.1, 0.2]
    assert curve.height(0.0045) == pytest.approx(0.15, rel=1e-12)


def test_space_between_box_and_body():
    body = hourglass().moved([0.0, 0.0, 0.02])
    outer = box([0.4, 0.4, 0.5])
    space = level_volume(joined([outer, body.reversed()]))
    levels = np.linspace(0, 0.5, 40)
    expected = volume_at_levels(outer, levels) - volume_at_levels(body, levels)
    assert space.volume(levels) == pytest.approx(expected, abs=1e-14)


def test_outside_the_body():
    curve = level_volume(box([0.2, 0.1, 0.3]))
    assert curve.volume(-1.0) == 0.0
    assert curve.volume(9.0) == pytest.approx(0.006, rel=1e-12)
    assert curve.area(9.0) == 0.0
    with pytest.raises(ValueError, match="holds"):
        curve.height(0.007)
    with pytest.raises(ValueError, match="holds"):
        curve.height(float("nan"))
