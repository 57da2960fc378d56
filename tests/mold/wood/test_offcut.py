"""What one offcut gives: counted by hand, whatever the marks, the grain and the blade."""

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.materials.loading import load_materials
from pourwright.mold.wood.offcut import parts_from_offcut
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.stock import SawSetup, Sheet

BOARDS = load_materials().board
SAW = SawSetup(kerf=0.004, trim=0.010)


def part(mark, length, width, **more):
    return WoodPart(
        mark=mark, board=BOARDS["plywood"], length=length, width=width, thickness=0.018, belongs="box", **more
    )


def offcut(length, width, **more):
    more = {"name": "rest", "board": "plywood", "thickness": 0.018, "offcut": True} | more
    return Sheet(length=length, width=width, **more)


def given_by(parts, sheet, saw=SAW):
    return parts_from_offcut(parts, sheet, saw, "metric")


def test_two_of_three_alike_fit_to_the_last_millimetre():
    # 10 + 500 + 4 + 500 + 10 by 10 + 300 + 10
    found = given_by([part(mark, 0.5, 0.3) for mark in "abc"], offcut(1.024, 0.32))
    assert [each.mark for each in found.sheet.placed] == ["a", "b"]
    assert (found.over, found.proven, found.sheet.left) == (("c",), True, ())
    assert [cut.gives for cut in found.sheet.cuts if not cut.trims] == [("a", "b")]


def test_two_small_ones_beat_a_large_one_that_uses_less():
    # of 400 x 300 within the trim: 390 x 200 is 0.078 m2; 198 x 300 twice, 4 apart, is 0.1188 m2
    asked = [part("large", 0.39, 0.2), part("left half", 0.198, 0.3), part("right half", 0.198, 0.3)]
    found = given_by(asked, offcut(0.42, 0.32))
    assert {each.mark for each in found.sheet.placed} == {"left half", "right half"}
    assert found.over == ("large",)


def test_grain_that_must_run_along_it_keeps_a_part_off():
    across = part("shelf", 0.3, 0.5, grain="length")
    assert given_by([across], offcut(0.52, 0.32)).over == ("shelf",)
    (turned,) = given_by([across], offcut(0.52, 0.32, grain="none")).sheet.placed
    assert turned.turned
    (along,) = given_by([part("shelf", 0.3, 0.5, grain="width")], offcut(0.52, 0.32)).sheet.placed
    assert (along.length, along.width) == (0.5, 0.3)


def test_where_nothing_fits_all_are_over_and_the_offcut_is_left():
    found = given_by([part("a", 0.5, 0.3)], offcut(0.5, 0.3))
    assert (found.sheet.placed, found.over) == ((), ("a",))
    assert [(each.length, each.width) for each in found.sheet.left] == [pytest.approx((0.48, 0.28))]


@pytest.mark.parametrize(
    ("sheet", "saw", "words"),
    [
        (offcut(-0.5, 0.3), SAW, "rest: a length of -500 mm"),
        (offcut(0.5, 0.0), SAW, "rest: a width of 0 mm"),
        (offcut(1, 1), SawSetup(kerf=0.4), "a: a kerf of 400 mm is wider"),
    ],
)
def test_what_cannot_be_is_refused(sheet, saw, words):
    with pytest.raises(UserError, match=words):
        given_by([part("a", 0.5, 0.3)], sheet, saw)


SIDES = st.integers(60, 500).map(lambda mm: mm / 1000)
ROWS = st.lists(st.tuples(SIDES, SIDES, st.sampled_from(["length", "any"])), min_size=1, max_size=6)


@settings(max_examples=12, deadline=None, derandomize=True)
@given(ROWS, st.booleans())
def test_every_part_lies_once_or_is_over_and_none_meets_another(rows, twice):
    rows = rows + rows if twice else rows
    asked = [part(f"part {at}", *row[:2], grain=row[2]) for at, row in enumerate(rows)]
    found = given_by(asked, offcut(0.9, 0.45))
    placed = found.sheet.placed
    assert sorted([each.mark for each in placed] + list(found.over)) == sorted(each.mark for each in asked)
    sizes = {each.mark: sorted(each.sawn) for each in asked}
    for at, one in enumerate(placed):
        assert sorted((one.length, one.width)) == pytest.approx(sizes[one.mark])
        assert 0.01 - 1e-9 <= one.x <= 0.89 - one.length + 1e-9
        assert 0.01 - 1e-9 <= one.y <= 0.44 - one.width + 1e-9
        for other in placed[at + 1 :]:
            beside = one.x + one.length + SAW.kerf, other.x + other.length + SAW.kerf
            above = one.y + one.width + SAW.kerf, other.y + other.width + SAW.kerf
            apart_x = other.x >= beside[0] - 1e-9 or one.x >= beside[1] - 1e-9
            apart_y = other.y >= above[0] - 1e-9 or one.y >= above[1] - 1e-9
            assert apart_x or apart_y, (one, other)


def test_of_two_that_are_alike_but_for_their_names_each_lies_as_it_is():
    # 10 + 200 + 4 + 200 + 10 by 10 + 100 + 10: 200 x 100 straight, 100 x 200 turned
    asked = [part("long", 0.2, 0.1), part("wide", 0.1, 0.2)]
    placed = {each.mark: each for each in given_by(asked, offcut(0.424, 0.12)).sheet.placed}
    assert {mark: each.turned for mark, each in placed.items()} == {"long": False, "wide": True}
    assert all((each.length, each.width) == (0.2, 0.1) for each in placed.values())
