import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry import find_faults, measure
from pourwright.geometry.drawn.outlines import Step, StepError
from pourwright.geometry.drawn.outlines_corners import NoRoomError
from pourwright.geometry.drawn.outlines_placed import PlacedError
from pourwright.geometry.drawn.profiles import half_section, spun

BOWL = [
    Step((0.05, 0.0), radius=0.002),
    Step((0.05, 0.01)),
    Step((0.125, 0.072), (0.09, 0.032)),
    Step((0.119, 0.075), (0.123, 0.076)),
    Step((0.0, 0.008), (0.08, 0.033)),
]


def test_a_bowl_of_arcs_is_one_closed_body_of_the_written_size():
    mesh = spun(half_section(BOWL))
    assert find_faults(mesh) == ()
    assert measure(mesh).volume > 0
    # outermost and highest is the circle of the rim, through its three points
    a, b, c = np.array([[0.125, 0.072], [0.123, 0.076], [0.119, 0.075]])
    middle = np.linalg.solve(2 * np.array([b - a, c - a]), [b @ b - a @ a, c @ c - a @ a])
    wide, high = middle + np.hypot(*(a - middle))
    assert measure(mesh).size == pytest.approx([2 * wide, 2 * wide, high], rel=1e-9)


def test_from_the_top_down_is_the_same_body():
    up = measure(spun(half_section([Step((0.1, 0.0)), Step((0.08, 0.2))])))
    down = measure(spun(half_section([Step((0.08, 0.2)), Step((0.1, 0.0))])))
    assert up.volume == pytest.approx(down.volume, rel=1e-12)


def test_a_large_body_gets_more_strips():
    """A chord may leave the circle by 0.05 mm: at 2 m radius that takes 444 strips and more."""
    mesh = spun(half_section([Step((2.0, 0.0)), Step((2.0, 0.1))]))
    rim = mesh.vertices[np.hypot(*mesh.vertices[:, :2].T) > 1.99]
    angles = np.unique(np.round(np.arctan2(rim[:, 1], rim[:, 0]), 9))
    assert 2.0 * (1 - np.cos(np.diff(angles).max() / 2)) <= 5e-5
    assert measure(mesh).size[:2] == pytest.approx([4.0, 4.0], rel=1e-12)


@pytest.mark.parametrize(
    ("steps", "number", "reason"),
    [
        ([Step((-0.1, 0.0)), Step((0.1, 0.1))], 0, "below zero"),
        ([Step((0.1, 0.0)), Step((0.1, 0.0)), Step((0.1, 0.1))], 1, "same as the one before"),
        ([Step((0.1, 0.0), (0.2, 0.0)), Step((0.1, 0.1))], 0, "no arc before it"),
        ([Step((0.1, 0.0)), Step((0.1, 0.1), (0.1, 0.2))], 1, "in line with its ends, beyond"),
        ([Step((0.1, 0.0)), Step((0.1, 0.1), (0.1, 0.0))], 1, "two of the three points"),
        ([Step((0.1, 0.0)), Step((0.0, 0.1), radius=0.01)], 1, "no corner to round"),
        ([Step((0.1, 0.0)), Step((0.1, 0.1)), Step((0.05, 0.0))], 2, "height at which it begins"),
    ],
)
def test_steps_that_cannot_be_taken(steps, number, reason):
    with pytest.raises(StepError, match=reason) as refused:
        half_section(steps)
    assert refused.value.number == number


def test_a_rounding_that_does_not_fit_says_what_does():
    """Two roundings of a rim 6 mm wide leave room for 3 mm each."""
    corners = [(0.1, 0.0), (0.1, 0.1), (0.094, 0.1), (0.094, 0.0), (0.1, 0.0)]
    wall = [Step(corner, radius=0.004 if corner[1] else 0.0) for corner in corners]
    with pytest.raises(NoRoomError) as refused:
        half_section(wall)
    assert refused.value.number in {1, 2}
    assert refused.value.largest == pytest.approx(0.003, rel=1e-4)


@pytest.mark.parametrize(
    ("steps", "reason"),
    [
        ([Step((0.1, 0.0))], "two or more"),
        ([Step((0.1, 0.0)), Step((0.1, 0.1), (-0.05, 0.05))], "over the axis"),
        ([Step((0.0, 0.0)), Step((0.0, 0.1))], "no area|same"),
        ([Step((0.1, 0.0)), Step((0.0, 0.1)), Step((0.1, 0.2))], "touches"),
    ],
)
def test_profiles_that_make_no_body(steps, reason):
    with pytest.raises(UserError, match=reason):
        spun(half_section(steps))


def test_a_profile_that_crosses_itself_is_refused_with_the_place():
    with pytest.raises(PlacedError, match="crosses or touches itself") as refused:
        spun(half_section([Step((0.1, 0.0)), Step((0.2, 0.2)), Step((0.2, 0.0)), Step((0.1, 0.2))]))
    assert refused.value.place == pytest.approx([0.15, 0.1])
    assert refused.value.sentence("in", "rh").endswith("near r = 5.906, h = 3.937 in")
