"""What holds of every nesting, whatever is asked."""

import itertools
from collections import Counter

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry.nesting import chosen
from pourwright.geometry.nesting.asked import Part, Saw, Stock
from pourwright.geometry.nesting.bars import Length, cut_bars
from pourwright.geometry.nesting.chosen import choose_parts
from pourwright.geometry.nesting.sheets import nest, nest_most

HAIR = 1e-8
SIDES = st.integers(50, 900).map(lambda mm: mm / 1000)
ROWS = st.lists(st.tuples(SIDES, SIDES, st.integers(1, 3), st.booleans()), min_size=1, max_size=5)
SHEETS = [Stock("sheet", 1.2, 1.0, 15), Stock("rest", 0.6, 0.4, 2, offcut=True)]


def parts_of(rows):
    return [Part(f"part {at}", *row) for at, row in enumerate(rows)]


def check_apart(pieces, kerf):
    """Between any two parts there is room for the blade on one axis."""
    for one, two in itertools.combinations(pieces, 2):
        (w, h), (v, g) = one.size, two.size
        gaps = (two.x - one.x - w, one.x - two.x - v, two.y - one.y - h, one.y - two.y - g)
        assert max(gaps) >= kerf - HAIR


def check_tree(piece):
    """Every cut runs from edge to edge, and its two pieces make up the whole."""
    if piece.part is not None:
        sides = (piece.part.width, piece.part.height)
        assert piece.size == pytest.approx(sides[::-1] if piece.turned else sides)
        assert piece.part.may_turn or not piece.turned
    if not piece.halves:
        return
    first, second = piece.halves
    if piece.axis == "x":
        assert first.width + second.width == pytest.approx(piece.width)
        assert first.height == second.height == piece.height
        assert second.x == pytest.approx(first.x + first.width)
    else:
        assert first.height + second.height == pytest.approx(piece.height)
        assert first.width == second.width == piece.width
        assert second.y == pytest.approx(first.y + first.height)
    for half in piece.halves:
        check_tree(half)


def check_inside(pieces, stock, trim):
    for piece in pieces:
        assert min(piece.x, piece.y) >= trim - HAIR
        assert piece.x + piece.size[0] <= stock.width - trim + HAIR
        assert piece.y + piece.size[1] <= stock.height - trim + HAIR


@settings(max_examples=30, deadline=None, derandomize=True)
@given(ROWS, st.sampled_from([0.0, 0.003, 0.01]), st.sampled_from([0.0, 0.01]))
def test_every_part_lies_once_apart_inside_and_on_the_tree(rows, kerf, trim):
    parts = parts_of(rows)
    nesting = nest(parts, SHEETS, Saw(kerf, trim), number=36)
    placed = Counter(piece.part.name for sheet in nesting.sheets for piece in sheet.placed)
    assert placed == {part.name: part.count for part in parts}
    assert nesting.bound <= nesting.full_sheets
    for sheet in nesting.sheets:
        check_inside(sheet.placed, sheet.stock, trim)
        check_apart(sheet.placed, kerf)
        check_tree(sheet.root)
    used = Counter(sheet.stock.name for sheet in nesting.sheets)
    assert all(used[stock.name] <= stock.count for stock in SHEETS)


@settings(max_examples=30, deadline=None, derandomize=True)
@given(ROWS, st.sampled_from([0.002, 0.02]))
def test_a_wider_blade_never_brings_more(rows, kerf):
    parts, sheet = parts_of(rows[:3]), Stock("offcut", 1.0, 0.8, offcut=True)
    narrow, wide = (choose_parts(parts, sheet, Saw(width)) for width in (kerf, 2 * kerf))
    assert narrow.proven
    assert wide.proven
    assert wide.value <= narrow.value + HAIR
    placed = Counter(piece.part.name for piece in narrow.placed)
    assert all(placed[part.name] <= part.count for part in parts)
    assert sum(piece.area for piece in narrow.placed) == pytest.approx(narrow.value)
    check_apart(narrow.placed, kerf)
    check_inside(narrow.placed, sheet, 0.0)
    check_tree(narrow.root)


@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.lists(st.tuples(SIDES, st.integers(1, 4)), min_size=1, max_size=4), st.sampled_from([0.002, 0.02]))
def test_a_wider_blade_never_saves_a_bar(rows, kerf):
    wanted = [Length(f"part {at}", *row) for at, row in enumerate(rows)]
    narrow, wide = (cut_bars(wanted, [Length("bar", 2.0, 20)], Saw(width)) for width in (kerf, 2 * kerf))
    assert narrow.bound <= len(narrow.bars) <= len(wide.bars)
    taken = Counter(each.name for bar in narrow.bars for each in bar.lengths)
    assert all(taken[each.name] == each.count for each in wanted)


@pytest.mark.parametrize(("many", "bar"), [(24, "rest"), (25, "bar")])
def test_beyond_the_most_ways_that_are_looked_at_all_lengths_are_cut(many, bar):
    # ten by ten by 25 ways for each of two bars are 5,000, the most; beyond it the first that fits is taken
    wanted = [Length(f"part {at}", 0.05 - 0.01 * at, count) for at, count in enumerate((9, 9, many, 2))]
    plan = cut_bars(wanted, [Length("bar", 50.0, 2), Length("rest", 3.0, 1)], Saw())
    assert [each.bar.name for each in plan.bars] == [bar]
    assert plan.proven == (bar == "rest")
    assert Counter(each.name for each in plan.bars[0].lengths) == {each.name: each.count for each in wanted}


@settings(max_examples=20, deadline=None, derandomize=True)
@given(st.lists(st.tuples(SIDES, st.integers(1, 3)), min_size=1, max_size=3))
def test_bars_of_two_sizes_are_no_more_than_of_the_long_one(rows):
    wanted = [Length(f"part {at}", *row) for at, row in enumerate(rows)]
    stock, saw = [Length("long", 2.0, 9), Length("short", 1.0, 9)], Saw(0.003, 0.01)
    plan = cut_bars(wanted, stock, saw)
    assert plan.proven
    every = [each for each in wanted for _ in range(each.count)]
    assert Counter(each for bar in plan.bars for each in bar.lengths) == Counter(every)
    for bar in plan.bars:
        assert sum(each.length + 0.003 for each in bar.lengths) <= bar.bar.length - 0.02 + 0.003 + HAIR
    assert len(plan.bars) <= len(cut_bars(wanted, stock[:1], saw).bars)


def test_the_same_seed_gives_the_same_plan():
    parts = parts_of([(0.4, 0.3, 9, True), (0.7, 0.2, 6, False)])
    assert nest(parts, SHEETS, Saw(0.003)) == nest(parts, SHEETS, Saw(0.003))


def test_a_finished_tree_stays_as_it_is():
    (sheet,) = nest([Part("plate", 0.3, 0.2)], SHEETS[:1], Saw()).sheets
    with pytest.raises(AttributeError):
        sheet.root.axis = None
    with pytest.raises(AttributeError):
        choose_parts([Part("plate", 0.3, 0.2)], SHEETS[0], Saw()).root.part = None


def test_edges_are_trimmed_before_anything_else():
    # long edges first: 1.2 x 1.0, then 1.2 x 0.98, then the ends of what is 0.96 wide
    (sheet,) = nest([Part("plate", 0.3, 0.2)], SHEETS[:1], Saw(0.003, 0.02)).sheets
    trims = [cut for cut in sheet.cuts if cut.trims]
    assert sheet.cuts[:4] == tuple(trims)
    assert [(cut.axis, cut.at) for cut in trims] == [("y", 0.02), ("y", 0.02), ("x", 0.02), ("x", 0.02)]
    pieces = [(1.2, 1.0), (1.2, 0.98), (1.2, 0.96), (1.18, 0.96)]
    assert [cut.piece for cut in trims] == [pytest.approx(piece) for piece in pieces]
    assert sheet.cuts[4].piece == pytest.approx((1.16, 0.96))


# eight parts that none of the 36 plain starts lays on the one sheet there is
SCARCE = [
    (0.21, 0.22),
    (0.33, 0.44),
    (0.39, 0.44),
    (0.38, 0.36),
    (0.14, 0.32),
    (0.23, 0.19),
    (0.39, 0.42),
    (0.25, 0.29),
]


def test_more_starts_are_tried_before_scarce_stock_is_refused():
    parts = [Part(f"part {at}", *size) for at, size in enumerate(SCARCE)]
    nesting = nest(parts, [Stock("sheet", 1.0, 1.0)], Saw(0.003, 0.01), number=36)
    assert len(nesting.sheets[0].placed) == len(parts)
    assert nesting.proven


def test_what_is_missing_is_told_where_it_is_asked_for():
    # two squares of 0.6 do not lie on a sheet of 1 x 1, a strip of 0.3 beside one does
    parts = [Part("square", 0.6, 0.6, 2), Part("strip", 0.3, 0.9)]
    nesting = nest_most(parts, [Stock("sheet", 1.0, 1.0)], Saw(), number=36)
    assert [part.name for part in nesting.missing] == ["square"]


def test_a_free_sheet_lets_every_part_turn():
    part, sheet = Part("plate", 0.3, 0.9), Stock("sheet", 1.0, 0.5, free=True)
    assert nest([part], [sheet], Saw()).sheets[0].placed[0].turned
    assert choose_parts([part], sheet, Saw()).value == pytest.approx(0.27)


def test_what_would_take_too_long_is_not_proven(monkeypatch):
    parts = [Part(f"part {at}", 0.2 + 0.01 * at, 0.3, 3, may_turn=True) for at in range(3)]
    sheet = Stock("offcut", 1.0, 0.6)
    proven = choose_parts(parts, sheet, Saw())
    monkeypatch.setattr(chosen, "MOST_PAIRS", 10)
    tried = choose_parts(parts, sheet, Saw())
    assert (proven.proven, tried.proven) == (True, False)
    assert 0 < tried.value <= proven.value + HAIR


PLATE = Part("plate", 0.3, 0.2)


@pytest.mark.parametrize(
    ("part", "stock", "saw", "words"),
    [
        (Part("lid", 2.0, 0.2), SHEETS[0], Saw(), "lid: 2 x 0.2 m is larger than every sheet"),
        (PLATE, SHEETS[0], Saw(0.25), "plate: the kerf"),
        (PLATE, Stock("sheet", 0.0, 1.0), Saw(), "sheet: size 0 m"),
        (PLATE, Stock("sheet", 1.0, 1.0, -1), Saw(), "sheet: count -1"),
        (PLATE, Stock("sheet", float("nan"), 1.0), Saw(), "sheet: size nan m"),
        (PLATE, SHEETS[0], Saw(float("inf")), "kerf: size inf m"),
        (Part("many", 1.0, 0.9, 20), SHEETS[0], Saw(), "not all parts"),
    ],
)
def test_what_cannot_be_is_refused_by_name(part, stock, saw, words):
    with pytest.raises(UserError, match=words):
        nest([part], [stock], saw)
