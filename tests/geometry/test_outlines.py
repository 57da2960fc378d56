import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry import find_faults, measure
from pourwright.geometry.drawn.outlines import Step, closed_outline, flattened
from pourwright.geometry.drawn.outlines_arcs import Edge, chords, edge_through
from pourwright.geometry.drawn.outlines_chaining import chained
from pourwright.geometry.drawn.outlines_corners import NoRoomError
from pourwright.geometry.drawn.outlines_nesting import meeting, nested
from pourwright.geometry.drawn.outlines_placed import PlacedError
from pourwright.geometry.drawn.outlines_prism import extruded
from pourwright.geometry.sections import outline_area

ANGLES = st.floats(0.02, 2 * np.pi - 0.02)
SQUARE = np.array([[0.0, 0.0], [0.1, 0.0], [0.1, 0.1], [0.0, 0.1]])


def on_circle(angle, radius=0.3):
    return np.array([0.5, -0.2]) + radius * np.array([np.cos(angle), np.sin(angle)])


@settings(max_examples=60, deadline=None, derandomize=True)
@given(start=st.floats(-3, 3), turn=ANGLES, share=st.floats(0.1, 0.9), left=st.booleans())
def test_an_arc_through_three_points_of_a_circle_is_that_circle(start, turn, share, left):
    turn = turn if left else -turn
    edge = edge_through(*(on_circle(start + turn * part) for part in (0, share, 1)))
    assert edge.turn == pytest.approx(turn, abs=1e-6)
    assert edge.radius == pytest.approx(0.3, rel=1e-4)
    assert edge.length == pytest.approx(0.3 * abs(turn), rel=1e-4)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(start=st.floats(-3, 3), turn=ANGLES, tolerance=st.floats(1e-5, 1e-3))
def test_chords_keep_the_area_of_the_sector_and_stay_within_the_tolerance(start, turn, tolerance):
    edge = Edge(on_circle(start), on_circle(start + turn), float(np.tan(turn / 4)))
    corners = np.concatenate([edge.start[None], chords(edge, tolerance)])
    centre = np.array([0.5, -0.2])
    assert outline_area(np.concatenate([centre[None], corners])) == pytest.approx(0.3**2 * turn / 2, rel=1e-9)
    middles = (corners[1:] + corners[:-1]) / 2
    off = np.abs(np.hypot(*(np.concatenate([corners, middles]) - centre).T) - 0.3)
    assert off.max() <= tolerance * (1 + 1e-9)
    assert corners[-1].tolist() == edge.end.tolist()


def test_corners_between_lines_and_arcs_are_rounded_by_an_arc_that_touches_both():
    """Half a disc: the fillet's centre lies r off the chord and R - r off the middle of the circle."""
    R, r = 0.1, 0.02
    edges = closed_outline([Step((-R, 0.0)), Step((R, 0.0), radius=r), Step((-R, 0.0), (0.0, R))][1:])
    fillet = next(edge for edge in edges if edge.radius == pytest.approx(r))
    assert fillet.centre == pytest.approx([np.sqrt((R - r) ** 2 - r**2), r], rel=1e-9)
    for before, after in zip(edges, [*edges[1:], edges[0]], strict=True):
        if fillet in (before, after):
            assert before.direction(before.end) == pytest.approx(after.direction(after.start), abs=1e-9)


def test_corners_between_two_arcs():
    """A lens of two arcs of radius R: the fillet's centre lies on its long axis."""
    R, half, r = 0.1, np.pi / 3, 0.01
    tip, top = R * np.sin(half), R * (1 - np.cos(half))
    steps = [Step((-tip, 0.0), (0.0, top)), Step((tip, 0.0), (0.0, -top), radius=r)]
    fillet = next(edge for edge in closed_outline(steps) if edge.radius == pytest.approx(r))
    away = np.sqrt((R - r) ** 2 - (R * np.cos(half)) ** 2)
    assert fillet.centre == pytest.approx([away, 0.0], abs=1e-9)


def test_an_inner_corner_is_filled():
    ell = [(0, 0), (0.2, 0), (0.2, 0.1), (0.1, 0.1), (0.1, 0.2), (0, 0.2)]
    steps = [Step(point, radius=0.02 if point == (0.1, 0.1) else 0.0) for point in ell]
    filled = outline_area(flattened(closed_outline(steps)))
    assert filled == pytest.approx(0.03 + (1 - np.pi / 4) * 0.02**2, rel=1e-9)


def test_roundings_that_share_an_edge_too_short_say_what_fits():
    steps = [
        Step((0.0, 0.0)),
        Step((0.1, 0.0)),
        Step((0.1, 0.03), radius=0.02),
        Step((0.0, 0.03), radius=0.02),
    ]
    assert closed_outline(steps)
    steps[1] = Step((0.1, 0.0), radius=0.02)
    with pytest.raises(NoRoomError, match="does not fit; allowed: up to 15 mm") as refused:
        closed_outline(steps)
    assert refused.value.largest == pytest.approx(0.015, rel=1e-4)


def test_holes_are_told_from_outlines_whatever_their_direction():
    outer, *holes = nested([0.2 * SQUARE + 0.01, SQUARE[::-1], 0.3 * SQUARE + 0.05])
    assert outline_area(outer) == pytest.approx(0.01)
    assert sorted(outline_area(hole) for hole in holes) == pytest.approx([-0.0009, -0.0004])


@pytest.mark.parametrize(
    ("loops", "reason"),
    [
        ([SQUARE, SQUARE + 0.05], "crosses or touches itself near x = (100, y = 50|50, y = 100) mm"),
        ([SQUARE, 0.5 * SQUARE], "crosses or touches itself"),
        ([SQUARE, SQUARE + 0.2], "second body beside the first near x = (200, y = 200|0, y = 0) mm"),
        ([SQUARE, 0.5 * SQUARE + 0.02, 0.1 * SQUARE + 0.03], "a body inside a hole near x = 30, y = 30 mm"),
        ([SQUARE[:2]], "encloses no area"),
        ([np.array([[0.0, 0.0], [1.0, 0.0], [0.5, 0.0]])], "crosses or touches itself"),
        # the two halves of a bow tie cancel, and what is wrong with it is its crossing
        ([SQUARE[[0, 2, 1, 3]]], "crosses or touches itself near x = 50, y = 50 mm"),
        ([], "encloses no area"),
    ],
)
def test_outlines_that_make_no_body(loops, reason):
    with pytest.raises(UserError, match=reason):
        nested(loops)


def test_a_spike_without_width_is_found():
    spike = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.5, 1.0], [0.5, 2.0], [0.5, 1.0], [0.0, 1.0]])
    assert meeting([spike]) is not None


def test_many_edges_are_looked_through():
    """A star of 4000 points crosses nothing; with two points swapped it does."""
    angles = 2 * np.pi * np.arange(4000) / 4000
    star = (1 + 0.3 * (np.arange(4000) % 2))[:, None] * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    assert meeting([star]) is None
    star[[1000, 1002]] = star[[1002, 1000]]
    place = meeting([star])
    assert np.hypot(*(place - star[1001])) < 0.35


def test_ends_within_the_gap_are_one_and_those_beyond_are_told():
    there, back = np.array([[0.0, 0.0], [0.1, 0.0], [0.1, 0.1]]), np.array([[0.1, 0.10004], [0.0, 0.0]])
    assert len(chained([there, back])[0]) == 4 - 1
    with pytest.raises(PlacedError, match=r"0.16 mm from the next end, near x = (100, y = 100|0, y = 0)"):
        chained([there, back + np.array([0.0, 0.00016])])


def test_a_curve_of_tiny_lines_is_chained_and_a_slip_of_the_pen_left_out():
    angles = 2 * np.pi * np.arange(1000) / 1000
    ring = 0.005 * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    tiny = [ring[[n, (n + 1) % 1000]] for n in range(1000)]
    assert np.ptp(tiny[0], axis=0).max() < 5e-5
    assert [len(loop) for loop in chained(tiny)] == [1000]
    slip = np.array([[0.1, 0.1], [0.10001, 0.1]])
    assert len(chained([np.concatenate([SQUARE, SQUARE[:1]]), slip])) == 1


ELL = np.array([[0, 0], [0.1, 0], [0.1, 0.06], [0.06, 0.06], [0.06, 0.03], [0, 0.03]])


@pytest.mark.parametrize("rims", [(0, 0), (0.004, 0), (0, 0.004), (0.003, 0.0045)])
@pytest.mark.parametrize("shift", [0.0, 0.01])
def test_drawn_up_bodies_are_sound(rims, shift):
    hole = 0.1 * SQUARE + [0.02 + shift, 0.01]
    mesh = extruded(nested([ELL, hole]), 0.02, *rims)
    assert find_faults(mesh) == ()
    found = measure(mesh)
    assert found.size == pytest.approx([0.1, 0.06, 0.02], rel=1e-9)
    whole = (abs(outline_area(ELL)) - 1e-4) * 0.02
    edge = 2 * (0.1 + 0.06) + 4 * 0.01
    off = sum((1 - np.pi / 4) * rim**2 * edge for rim in rims)
    # mitred corners take off a little less, inner ones a little more
    assert found.volume == pytest.approx(whole - off, rel=2e-3)


@pytest.mark.parametrize(("rims", "most"), [((0.008, 0.0), 0.005), ((0.015, 0.015), 0.01)])
def test_a_rim_that_swallows_a_wall_or_the_height_is_refused_with_the_largest(rims, most):
    """The hole stands 10 mm off the edge, and the body is 20 mm high."""
    loops = nested([ELL, 0.1 * SQUARE + [0.02, 0.01]]) if rims[1] == 0 else nested([SQUARE])
    with pytest.raises(NoRoomError) as refused:
        extruded(loops, 0.02, *rims)
    assert refused.value.largest == pytest.approx(most, rel=2e-2)
