"""Stock that cannot be is refused by name; corners of an offcut are read, and an L is told as two."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.mold.wood.corners import rectangles_of_corners
from pourwright.mold.wood.stock import BarStock, SawSetup, Sheet, refuse_stock

SHEET = {"name": "rest", "board": "mdf", "thickness": 0.018, "length": 0.6, "width": 0.4}
BAR = {"name": "lath", "board": "pine", "width": 0.045, "thickness": 0.07, "length": 2.4}


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"length": 0.0}, "rest: a length of 0 mm"),
        ({"width": -0.4}, "rest: a width of -400 mm"),
        ({"thickness": float("nan")}, "rest: a thickness of nan"),
        ({"count": 0}, "rest: a count of 0"),
        ({"length": 2440.0}, "rest: a length of 2440000 mm; allowed: up to 20000 mm; .*unit"),
    ],
)
def test_sheets_that_cannot_be(changes, words):
    with pytest.raises(UserError, match=words):
        refuse_stock([Sheet(**SHEET | changes)], [], SawSetup(), "metric")


def test_bars_and_saws_that_cannot_be():
    with pytest.raises(UserError, match="lath: a length of -1 in"):
        refuse_stock([], [BarStock(**BAR | {"length": -0.0254})], SawSetup(), "us")
    with pytest.raises(UserError, match=r"saw: a kerf of -3\.0 mm"):
        refuse_stock([], [], SawSetup(kerf=-0.003), "metric")


# an L of 600 x 400 with a corner of 200 x 150 missing: 600 x 250 with 400 x 150, or 400 x 400 with 250 x 200;
# 400 x 400 is 0.16 m2, 600 x 250 is 0.15 m2
ELL = [(0, 0), (0.6, 0), (0.6, 0.25), (0.4, 0.25), (0.4, 0.4), (0, 0.4)]


@pytest.mark.parametrize("corners", [ELL, ELL[::-1], ELL[3:] + ELL[:3], [(y, -x) for x, y in ELL]])
def test_an_ell_is_refused_with_the_two_rectangles(corners):
    with pytest.raises(UserError, match="two offcuts, 400 mm x 400 mm and 250 mm x 200 mm;") as caught:
        rectangles_of_corners(corners, "offcut 2")
    assert caught.value.where == "offcut 2"


def test_a_rectangle_lies_any_way():
    assert rectangles_of_corners([(0, 0), (0, 0.6), (-0.4, 0.6), (-0.4, 0)], "") == pytest.approx((0.6, 0.4))
    leaning = [(0, 0), (0.3, 0.4), (0.22, 0.46), (-0.08, 0.06)]
    assert rectangles_of_corners(leaning, "") == pytest.approx((0.5, 0.1))


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (1, 0), (0, 1)],
        [(0, 0), (1, 0), (1.2, 1), (0, 1)],
        [(0, 0), (1, 0), (1, 0), (0, 1)],
        [(0, 0), (1, 1), (1, 0), (0, 1)],
        [(0, 0), (float("nan"), 0), (1, 1), (0, 1)],
        [],
    ],
)
def test_anything_else_is_refused(corners):
    with pytest.raises(UserError):
        rectangles_of_corners(corners, "offcut")
