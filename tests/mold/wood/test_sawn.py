"""Parts of wood on sheets and bars: where they lie, every cut, what is left, and what is refused."""

import itertools
from collections import Counter

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.materials.loading import load_materials
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.sawn import nest_wood
from pourwright.mold.wood.stock import BarStock, SawSetup, Sheet

BOARDS = load_materials().board
SAW = SawSetup(kerf=0.004, trim=0.010)
HAIR = 1e-8


def part(mark, length, width, board="mdf", **more):
    more = {"thickness": 0.018, "belongs": "box"} | more
    return WoodPart(mark=mark, board=BOARDS[board], length=length, width=width, **more)


def lath(mark, length):
    return part(mark, length, 0.045, "pine", thickness=0.07, bar=True)


def sheet(length, width, **more):
    more = {"name": "sheet", "board": "mdf", "thickness": 0.018} | more
    return Sheet(length=length, width=width, **more)


def nest(parts, sheets=(), bars=(), saw=SAW, system="metric"):
    return nest_wood(parts, sheets, bars, saw, system, 0)


def test_a_sheet_cut_in_two_to_the_last_millimetre():
    # 10 + 500 + 4 + 500 + 10 by 10 + 300 + 10
    (group,) = nest([part("a", 0.5, 0.3), part("b", 0.5, 0.3)], [sheet(1.024, 0.32)]).groups
    (sawn,) = group.sheets
    assert [(each.mark, round(each.x, 6), each.y) for each in sawn.placed] == [
        ("a", 0.010, 0.010),
        ("b", 0.514, 0.010),
    ]
    told = [(cut.way, round(cut.measure, 6), cut.gives, cut.trims) for cut in sawn.cuts]
    trim = (0.010, ("sheet",), True)
    assert told == [("rip", *trim)] * 2 + [("crosscut", *trim)] * 2 + [("crosscut", 0.5, ("a", "b"), False)]
    sizes = [(1.024, 0.32), (1.024, 0.31), (1.024, 0.3), (1.014, 0.3), (1.004, 0.3)]
    assert [(cut.length, cut.width) for cut in sawn.cuts] == [pytest.approx(size) for size in sizes]
    assert sawn.left == ()
    assert (group.bound, group.proven, group.assumed) == (1, True, False)
    assert group.used == pytest.approx(0.3 / (1.024 * 0.32))


def test_a_part_that_is_trimmed_later_is_sawn_larger():
    (group,) = nest([part("a", 0.49, 0.29, oversize=0.005)], [sheet(1.024, 0.32)]).groups
    (sawn,) = group.sheets
    (placed,) = sawn.placed
    assert (placed.length, placed.width) == pytest.approx((0.5, 0.3))
    assert [(each.name, each.length) for each in sawn.left] == [("left 1", pytest.approx(0.5))]
    assert sawn.left[0].x == pytest.approx(0.514)


def test_grain_along_the_width_turns_the_part():
    asked = [part("a", 0.3, 0.5, grain="width"), part("b", 0.3, 0.3, grain="width")]
    (group,) = nest(asked, [sheet(1.024, 0.32)]).groups
    a, b = sorted(group.sheets[0].placed, key=lambda each: each.mark)
    assert (a.turned, a.length, a.width) == (True, 0.5, 0.3)
    assert b.turned


def test_a_sheet_without_grain_lets_a_part_turn():
    asked = [part("a", 0.3, 0.5, grain="length")]
    with pytest.raises(
        UserError, match="a: 300 mm x 500 mm fits on a sheet only with its grain across"
    ) as no:
        nest(asked, [sheet(1.024, 0.32)])
    assert "run along its width" in no.value.todo
    (group,) = nest(asked, [sheet(1.024, 0.32, grain="none")]).groups
    assert group.sheets[0].placed[0].turned


def test_a_board_without_a_sheet_takes_whole_ones_and_says_so():
    sawn = nest([part(f"lid {at}", 1.3, 1.1) for at in range(2)], [sheet(2, 1, thickness=0.012)])
    assert [each.number for each in sawn.groups[0].sheets] == [1, 2]
    note, others = sawn.notes
    assert note.startswith("No sheet of MDF (18 mm) is stated: whole sheets of 2440 mm x 1220 mm are taken")
    assert others.startswith("Those stated are 12.0 mm thick")


def test_what_is_planed_comes_out_of_its_whole_board_unless_one_as_thin_is_there():
    asked = [part("a", 0.5, 0.3), part("b", 0.5, 0.3, thickness=0.012, planed_from=0.018)]
    (group,) = nest(asked, [sheet(1.024, 0.32)]).groups
    assert [each.mark for each in group.sheets[0].placed] == ["a", "b"]
    whole, thin = nest(asked, [sheet(1.024, 0.32), sheet(1.024, 0.32, thickness=0.012)]).groups
    assert (whole.thickness, thin.thickness) == (0.018, 0.012)


def test_offcuts_come_before_sheets_and_boards_stay_apart():
    asked = [part("a", 0.5, 0.3), part("b", 0.5, 0.3, thickness=0.012)]
    stock = [sheet(2, 1), sheet(0.6, 0.4, name="rest", offcut=True), sheet(2, 1, thickness=0.012)]
    sawn = nest(asked, stock)
    assert [group.sheets[0].sheet.name for group in sawn.groups] == ["rest", "sheet"]
    assert (sawn.groups[0].bound, sawn.groups[0].proven) == (0, True)


def test_bars_are_cut_in_order_and_the_rest_is_told():
    # trimmed 10 mm, then 700 + 4 + 700 + 4 of 2000: 592 are left, 10 of them the far end's trim
    bar = BarStock(name="lath", board="pine", width=0.07, thickness=0.045, length=2.0)
    (group,) = nest([lath("bar 1", 0.7), lath("bar 2", 0.7)], bars=[bar]).bars
    (sawn,) = group.bars
    assert [(each.mark, round(each.start, 6)) for each in sawn.pieces] == [("bar 1", 0.01), ("bar 2", 0.714)]
    assert [(cut.way, cut.measure, cut.gives) for cut in sawn.cuts] == [
        ("crosscut", 0.010, ("bar",)),
        ("crosscut", 0.7, ("bar 1", "bar")),
        ("crosscut", 0.7, ("bar 2", "bar")),
    ]
    assert sawn.left == pytest.approx(2.0 - 0.010 - 1.408 - 0.010)
    assert (group.proven, group.assumed) == (True, False)


@pytest.mark.parametrize(
    ("asked", "stock", "words"),
    [
        # 2 x 620 of 1200 mm that the trimmed sheet is wide
        (
            part("lid", 1.3, 1.24),
            [],
            "lid: .*join it from 2 boards 620 mm wide, edge to edge with glue and a",
        ),
        (part("lid", 3.0, 0.3), [], "lid: .*join it from 2 boards 1500 mm long, edge to edge"),
        (
            part("lid", 3.0, 0.3, grain="length"),
            [sheet(2.44, 1.22)],
            "join it from 2 boards 1500 mm long, end to end",
        ),
        (part("slip", 0.5, 0.003), [], "slip: a kerf of 4.0 mm is wider than the part's 3.0 mm"),
        (lath("bar 1", 3.0), [], "bar 1: 3000 mm is longer than every bar .*2 bars 1500 mm long"),
        (part("lid", 0.5, 0.3), [sheet(1, 1, count=-1)], "sheet: a count of -1"),
    ],
)
def test_what_cannot_be_sawn_is_refused_by_its_mark(asked, stock, words):
    with pytest.raises(UserError, match=words):
        nest([asked], stock)


def test_two_parts_of_one_mark_are_refused():
    with pytest.raises(UserError, match="lid: 2 parts have this mark"):
        nest([part("lid", 0.5, 0.3), part("lid", 0.4, 0.3), part("a", 0.4, 0.3)])


def test_words_are_in_the_units_of_the_maker():
    with pytest.raises(UserError, match=r"lid: 60 in x 50 in .*2 boards 25 in wide"):
        nest([part("lid", 60 * 0.0254, 50 * 0.0254)], system="us")


def test_parts_that_are_left_over_are_named():
    asked = [part("large", 0.5, 0.3), part("small", 0.2, 0.2)]
    with pytest.raises(UserError, match=r"MDF \(18 mm\) do not hold all parts: left over small"):
        nest(asked, [sheet(0.6, 0.4)])
    bar = BarStock(name="lath", board="pine", width=0.07, thickness=0.045, length=1.0)
    with pytest.raises(UserError, match="do not hold all parts: left over b;"):
        nest([lath("a", 0.7), lath("b", 0.6)], bars=[bar])


SIDES = st.integers(60, 900).map(lambda mm: mm / 1000)
ROWS = st.lists(st.tuples(SIDES, SIDES, st.sampled_from(["length", "width", "any"])), min_size=1, max_size=5)


@settings(max_examples=8, deadline=None, derandomize=True)
@given(ROWS)
def test_every_part_lies_once_inside_with_room_for_the_blade(rows):
    asked = [part(f"part {at}", *row[:2], grain=row[2]) for at, row in enumerate(rows)]
    stock = [sheet(1.2, 1.0, count=9), sheet(0.95, 0.95, name="rest", offcut=True, grain="none")]
    (group,) = nest(asked, stock).groups
    marks = Counter(each.mark for sawn in group.sheets for each in sawn.placed)
    assert marks == Counter(each.mark for each in asked)
    for sawn in group.sheets:
        for each in sawn.placed:
            assert min(each.x, each.y) >= SAW.trim - HAIR
            assert each.x + each.length <= sawn.sheet.length - SAW.trim + HAIR
            assert each.y + each.width <= sawn.sheet.width - SAW.trim + HAIR
            assert sawn.sheet.grain == "none" or each.turned in _allowed(each.mark, asked)
        for one, two in itertools.combinations(sawn.placed, 2):
            gaps = (two.x - one.x - one.length, one.x - two.x - two.length)
            above = (two.y - one.y - one.width, one.y - two.y - two.width)
            assert max(*gaps, *above) >= SAW.kerf - HAIR


def _allowed(mark, asked):
    grain = next(each.grain for each in asked if each.mark == mark)
    return {"length": {False}, "width": {True}, "any": {False, True}}[grain]
