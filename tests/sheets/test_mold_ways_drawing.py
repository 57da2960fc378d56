"""The ways side by side: every way is drawn, nothing leaves the paper."""

import re
from xml.etree import ElementTree as ET

from pourwright.sheets.mold_ways_drawing import WIDTH, WayPicture, draw_ways

SQUARE = [[(-0.1, 0.02), (0.1, 0.02), (0.1, 0.3), (-0.1, 0.3)]]
PLAIN = WayPicture(
    title="one block, cut open, hung", lines=("38 l", "5 h"), piece=SQUARE,
    box=(-0.15, 0.0, 0.15, 0.3), thickness=0.019, bars=True, taken=True,
)  # fmt: skip
LYING = WayPicture(
    title="two pours, parting bed", lines=("38 l", "7 h"),
    piece=[[(z - 0.15, x + 0.15) for x, z in SQUARE[0]]],
    box=(-0.15, 0.0, 0.15, 0.3), thickness=0.019, clay_to=0.15,
)  # fmt: skip
SKIN = WayPicture(
    title="skin in a shell", lines=("4 l", "6 h"), piece=[[(x, z - 0.02) for x, z in SQUARE[0]]],
    box=(-0.13, 0.0, 0.13, 0.31), thickness=0.019, skin=0.01, shell=0.015, possible=False,
)  # fmt: skip


def test_every_way_has_its_name_and_litres() -> None:
    svg = draw_ways("Vase", [PLAIN, LYING, SKIN])
    for number, title in enumerate(("one block", "two pours", "skin in"), 1):
        assert f"{number}  {title}" in svg
    assert svg.count("38 l") == 2


def test_nothing_leaves_the_paper() -> None:
    for count in (1, 3, 5, 6):
        svg = draw_ways("Vase", ([PLAIN, LYING, SKIN] * 2)[:count])
        root = ET.fromstring(svg)
        high = float(root.attrib["viewBox"].split()[3])
        for rect in root.iter("{http://www.w3.org/2000/svg}rect"):
            x, y, w, h = (float(rect.attrib.get(name, 0)) for name in ("x", "y", "width", "height"))
            assert x >= -0.01
            assert x + w <= WIDTH + 0.01
            assert y >= -0.01
            assert y + h <= high + 0.01
        points = re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", svg)
        assert all(0 <= float(x) <= WIDTH and 0 <= float(y) <= high for x, y in points)


def test_the_same_ways_give_the_same_drawing() -> None:
    assert draw_ways("Vase", [PLAIN, SKIN]) == draw_ways("Vase", [PLAIN, SKIN])
