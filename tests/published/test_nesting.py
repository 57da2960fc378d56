"""Cutting from sheets and bars.

F01, F02: Beasley, Operations Research 33 (1985) 49, OR-Library ngcutap problems 1 and 2, read in a public
copy; their optima are reached by straight cuts too (proven by enumeration). F04: Christofides and
Whitlock, Operations Research 25 (1977) 30, OR-Library cgcut1; 244 proven by enumeration. F06: the
pinwheel, a standard counter-example: 25 freely, 19 by straight cuts, both proven. F08: Winston,
Operations Research (data from memory), optimum by enumeration of patterns. F09, F10: made for this
project, enumeration of patterns and arithmetic. F11: bin packing example of the OR-Tools documentation
(data from memory); 370/100 needs 4, and 4 were found. All exact.
"""

from collections import Counter

import pytest

from pourwright.geometry.nesting.asked import Part, Saw, Stock
from pourwright.geometry.nesting.bars import Length, cut_bars, fractional_bars
from pourwright.geometry.nesting.chosen import choose_parts

# F01
NGCUT_1 = ((10, 10), [(3, 7, 2, 35), (8, 2, 2, 40), (10, 2, 1, 27), (5, 4, 3, 23), (2, 9, 2, 43)], 164)
# F02
NGCUT_2 = (
    (10, 10),
    [
        (1, 10, 3, 28),
        (5, 3, 2, 40),
        (9, 3, 3, 63),
        (6, 1, 3, 13),
        (3, 8, 3, 31),
        (4, 1, 1, 10),
        (7, 3, 2, 44),
    ],
    230,
)
# F04
CGCUT_1 = (
    (15, 10),
    [(8, 4, 2, 66), (3, 7, 1, 35), (8, 2, 3, 24), (3, 4, 5, 17), (3, 3, 2, 11), (3, 2, 2, 8), (2, 1, 1, 2)],
    244,
)
# F06
PINWHEEL = ((5, 5), [(3, 2, 2, 6), (2, 3, 2, 6), (1, 1, 1, 1)], 19)


@pytest.mark.parametrize(
    ("sheet", "rows", "value"), [NGCUT_1, NGCUT_2, CGCUT_1, PINWHEEL], ids=["F01", "F02", "F04", "F06"]
)
def test_most_value_from_one_sheet(sheet, rows, value):
    parts = [Part(f"{w} x {h}", w, h, count, value=worth) for w, h, count, worth in rows]
    choice = choose_parts(parts, Stock("sheet", *sheet), Saw())
    assert choice.value == value
    assert choice.proven
    assert sum(piece.part.value for piece in choice.placed) == value


@pytest.mark.parametrize(("problem", "beyond"), [(CGCUT_1, 249), (PINWHEEL, 25)], ids=["F04", "F06"])
def test_what_no_saw_gives_is_never_claimed(problem, beyond):
    # F04: 249 needs more parts of a kind than there are; F06: 25 needs cuts that end inside the sheet
    sheet, rows, _ = problem
    parts = [Part(f"{w} x {h}", w, h, count, value=worth) for w, h, count, worth in rows]
    choice = choose_parts(parts, Stock("sheet", *sheet), Saw())
    assert choice.value < beyond
    taken = Counter(piece.part.name for piece in choice.placed)
    assert all(taken[part.name] <= part.count for part in parts)


def bars_for(stock, lengths, demand, kerf=0.0):
    wanted = [Length(str(each), each, count) for each, count in zip(lengths, demand, strict=True)]
    plan = cut_bars(wanted, [Length("bar", stock, 100)], Saw(kerf))
    assert plan.proven
    return len(plan.bars)


def test_lumber():
    # F08
    assert bars_for(17, [3, 5, 9], [25, 20, 15]) == 19


def test_fractions_of_the_lumber_bound_its_plan():
    # F08: 310 of length from 17 are 18.24 bars, ways in fractions need 18.3333
    wanted, bars = [Length("3", 3, 25), Length("5", 5, 20), Length("9", 9, 15)], [Length("bar", 17, 100)]
    assert fractional_bars(wanted, bars, Saw()) == pytest.approx(18.3333, abs=5e-5)
    plan = cut_bars(wanted, bars, Saw())
    assert plan.bound == len(plan.bars) == 19


@pytest.mark.parametrize(("kerf", "bars"), [(0, 6), (3, 6), (4, 6), (6, 7)])
def test_shop_sized_bars_with_kerf(kerf, bars):
    # F09
    assert bars_for(2440, [600, 455, 340, 225, 150], [6, 8, 10, 9, 12], kerf) == bars


@pytest.mark.parametrize(("kerf", "bars"), [(0, 1), (3, 2)])
def test_four_quarters_of_a_bar(kerf, bars):
    # F10
    assert bars_for(2440, [610], [4], kerf) == bars


def test_small_bins():
    # F11
    weights = [48, 30, 19, 36, 36, 27, 42, 42, 36, 24, 30]
    assert bars_for(100, weights, [1] * len(weights)) == 4
