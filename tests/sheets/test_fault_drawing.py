import re

import numpy as np

from pourwright.geometry import box
from pourwright.sheets.body_view import STONE
from pourwright.sheets.fault_drawing import GLOW, Marked, _glowing, fault_drawing

CUBE = box([0.2, 0.2, 0.2])


def texts(svg):
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


def test_each_item_has_its_letter_in_both_views():
    place = CUBE.vertices[:1]
    svg = fault_drawing(CUBE, "What is wrong", [Marked("a hole", place), Marked("a fin", place)])
    assert texts(svg).count("A") == 2
    assert texts(svg).count("B") == 2
    assert "A: a hole" in texts(svg)
    assert "B: a fin" in texts(svg)


def test_bodies_carry_their_own_numbers():
    svg = fault_drawing(CUBE, "What is wrong", [Marked("2 bodies", CUBE.vertices[[0, 7]], ("1", "2"))])
    assert texts(svg).count("1") == texts(svg).count("2") == 2
    assert "2 bodies" in texts(svg)


def test_many_places_get_a_few_marks():
    places = np.linspace([-0.1, -0.1, 0.2], [0.1, 0.1, 0.2], 50)
    assert texts(fault_drawing(CUBE, "What is wrong", [Marked("a slit", places)])).count("A") == 10


def test_words_without_a_place_stand_alone():
    assert "it is too small" in texts(fault_drawing(CUBE, "x", [Marked("it is too small", np.empty((0, 3)))]))


def test_the_triangle_at_a_place_glows():
    tints = _glowing(CUBE, [CUBE.triangles[4].mean(axis=0)[None]])
    assert tints[4].tolist() == list(GLOW)
    assert (np.delete(tints, 4, axis=0) == STONE).all()


def test_a_whole_surface_does_not_glow():
    assert (_glowing(CUBE, [CUBE.vertices]) == STONE).all()


def test_the_same_drawing_each_time():
    items = [Marked("a hole", CUBE.vertices[:3])]
    assert fault_drawing(CUBE, "x", items) == fault_drawing(CUBE, "x", items)
