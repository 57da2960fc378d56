"""The picture of the ways up: bodies to one scale, an arrow where one is poured, a disc that keeps areas."""

import re

import numpy as np
import pytest

from pourwright.geometry import box, half_sphere
from pourwright.sheets.body_view import Mark
from pourwright.sheets.ways_drawing import PullMap, WayPicture, ways_drawing

NONE = np.zeros(12, dtype=bool)
UP = np.array([0.0, 0.0, 1.0])


def picture(title, size, pull, marks=()):
    mesh = box(size)
    top = mesh.triangles[:, :, 2].min(axis=1) > size[2] - 1e-9
    return WayPicture(title, ("100 mm deep", "a sentence"), mesh, top, NONE, NONE, marks, pull)


def drawn(shares=None):
    ways = half_sphere(200)
    shares = np.linspace(0, 0.4, 200) if shares is None else shares
    tall = picture("1  -z: upside down", [0.1, 0.1, 0.4], UP, (Mark(np.array([0, 0, 0.2]), "A"),))
    flat = picture("2  +x: on its side", [0.4, 0.1, 0.1], None)
    return ways_drawing(
        "part <1>", [tall, flat], PullMap(ways, shares, UP, "Opened along z, both ways: nothing locks.")
    )


def images(svg):
    return [
        [float(value) for value in found]
        for found in re.findall(r'<image[^>]*?width="([\d.]+)"[^>]*?height="([\d.]+)"', svg)
    ]


def test_it_says_what_it_was_given():
    svg = drawn()
    for words in (
        "upside down",
        "on its side",
        "a mold of two parts",
        "open face",
        "the way out",
        "A",
        "part &lt;1&gt;",
    ):
        assert words in svg
    assert drawn() == svg


def test_bodies_are_drawn_to_one_scale():
    tall, flat = images(drawn())
    # from the front and above: a box 400 high, and one 400 wide
    assert tall[1] > 1.5 * tall[0]
    assert flat[0] > 1.5 * flat[1]
    assert 0.7 < tall[1] / flat[0] < 1.3


def test_only_what_can_be_poured_has_an_arrow():
    strokes = re.findall(r'stroke-width="1.6"', drawn())
    # three lines of one arrow, and the one of the legend
    assert len(strokes) == 4


def test_the_disc_keeps_areas():
    """Directions spread evenly over the half sphere lie evenly on the disc: half within r / sqrt 2."""
    svg = drawn()
    dots = [
        tuple(map(float, found))
        for found in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="5\.\d+"', svg)
    ]
    assert len(dots) == 200
    middle = np.mean(dots, axis=0)
    radius = np.hypot(*(np.array(dots) - middle).T)
    assert (radius < radius.max() / np.sqrt(2)).mean() == pytest.approx(0.5, abs=0.03)


def test_nothing_locks_anywhere():
    assert "nan" not in drawn(np.zeros(200))
