"""What is done in which order, and how the mold is kept."""

import pytest

from pourwright.geometry import cone, revolve
from pourwright.mold.space_block import SpaceBlock
from pourwright.mold.way_out.order import keeping, making_the_cut, opening_order


def steps(out):
    return list(opening_order(out, "metric"))


def place(lines, word):
    (found,) = (n for n, line in enumerate(lines) if word in line)
    return found


def test_the_cut_is_made_before_the_rubber_is_peeled_from_it(out_of, dumbbell):
    lines = steps(out_of(dumbbell))
    order = [
        "hard and as cool",
        "four sides",
        "new blade",
        "mouth with your",
        "Peel",
        "like a book",
        "mark to mark",
    ]
    assert [place(lines, word) for word in order] == list(range(len(order)))


def test_air_comes_before_the_lift_where_nothing_is_cut(out_of):
    lines = steps(out_of(cone(0.06, 0.10, 0.2)))
    assert place(lines, "floor in at its middle") < place(lines, "Lift the piece straight up")
    assert not any("blade" in line for line in lines)


def test_space_blocks_come_away_with_the_sides(out_of):
    block = SpaceBlock((0.11, -0.1, -0.019), (0.14, 0.1, 0.2), "right")
    with_wood = steps(out_of(cone(0.06, 0.10, 0.2), wall=0.04, blocks=(block,)))
    assert any("space blocks" in line for line in with_wood)
    assert not any("space blocks" in line for line in steps(out_of(cone(0.06, 0.10, 0.2))))


def test_a_hollow_gets_its_air_and_its_rubber_leaves_last(out_of):
    profile = [[0, 0.072], [0.055, 0.072], [0.112, 0], [0.12, 0], [0.06, 0.08], [0, 0.08]]
    assert any("hollow needle" in line for line in steps(out_of(revolve(profile))))
    upright = [[0, 0], [0.06, 0], [0.12, 0.08], [0.112, 0.08], [0.055, 0.008], [0, 0.008]]
    lines = steps(out_of(revolve(upright)))
    assert place(lines, "out of the hollow") == len(lines) - 2


def test_a_cut_says_where_how_long_and_how_it_refits(out_of, dumbbell):
    out = out_of(dumbbell)
    where, through, keys, end, line = making_the_cut(out.cuts[0], out.inside, "metric")
    assert where == "109 mm long at the middle of the right side, from the rim down"
    assert through.startswith("through 20 mm of rubber at the thinnest, 40 mm at the thickest")
    assert keys.startswith("one wave 8.0 mm")
    assert end.startswith("it ends in a hole of 5.0 mm")
    assert line.startswith("no edge hides")


@pytest.mark.parametrize(("units", "mass"), [("metric", "7.26 kg"), ("us", "16 lb")])
def test_the_mold_is_kept_on_its_core(units, mass):
    lines = keeping(7.26, units)
    assert lines[0].startswith("On its core")
    assert mass in lines[1]
