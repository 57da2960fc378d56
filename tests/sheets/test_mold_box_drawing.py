"""The panels of the box on paper: every fastener is there, nothing leaves the paper, lengths add up."""

import re
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from pourwright.sheets.mold_box_drawing import WIDTH, draw_box
from pourwright.sheets.mold_box_panel import BulgePicture, PanelPicture
from pourwright.sheets.wording import Wording
from tests.sheets.sample_plan import sample_plan

SVG = "{http://www.w3.org/2000/svg}"


def bulge(length, height, most=0.0006):
    across, up = (np.linspace(0.0, edge, 13) for edge in (length, height))
    x, z = ((edges[1:] + edges[:-1]) / 2 for edges in (across, up))
    return BulgePicture(across, up, most * np.outer(z / height, np.sin(np.pi * x / length)))


def panel(name="2 × side", length=0.436, wet=0.4, height=0.4, **changes):
    given = {
        "bulge": bulge(wet, height),
        "note": "",
        "lie": "",
        "battens": (),
        "lath": 0.045,
        "means": "screws",
        "corner": (0.07, 0.2, 0.33),
        "corner_out": 0.009,
        "flange": 0.0,
        "base": (0.07, 0.2, 0.33),
    }
    return PanelPicture(name=name, length=length, wet=wet, height=height, **(given | changes))


@pytest.fixture
def words():
    return Wording(sample_plan().job)


CASES = {
    "plain": [panel(), panel("2 × end", length=0.3, wet=0.3, corner=(), base=(0.07, 0.15, 0.23))],
    "level": [panel(height=1.1, lie="level", battens=(0.37, 0.73, 1.1))] * 2,
    "upright": [panel(length=1.2, wet=1.164, lie="upright", battens=(0.39, 0.78)), panel()],
    "clamps": [panel(means="clamps", corner_out=0.03), panel("2 × end", flange=0.045, corner=())],
    "bands": [panel(means="bands", corner=(0.1, 0.25))] * 2,
    "long and low": [panel(length=2.4, wet=2.36, height=0.1, base=tuple(np.linspace(0.07, 2.29, 16)))] * 2,
    "unknown": [panel(bulge=None, note="far too thin: it would bend by more than 1.5 mm", base=())] * 2,
}


@pytest.mark.parametrize("case", CASES)
def test_nothing_leaves_the_paper(words, case) -> None:
    root = ET.fromstring(draw_box("Box", CASES[case], words))
    high = float(root.attrib["viewBox"].split()[3])
    for rect in root.iter(f"{SVG}rect"):
        x, y, wide, tall = (float(rect.attrib.get(name, 0)) for name in ("x", "y", "width", "height"))
        assert x >= -0.01
        assert x + wide <= WIDTH + 0.01
        assert y >= -0.01
        assert y + tall <= high + 0.01
    for text in root.iter(f"{SVG}text"):
        width = len(text.text or "") * 0.602 * float(text.attrib["font-size"])
        left = {"middle": width / 2, "end": width}.get(text.attrib.get("text-anchor", "start"), 0.0)
        assert float(text.attrib["x"]) - left >= -0.5
        assert float(text.attrib["x"]) - left + width <= WIDTH + 0.5


def test_every_screw_is_drawn_on_both_edges(words) -> None:
    svg = draw_box("Box", CASES["plain"], words)
    # three a corner on the side, and one that explains the sign
    assert svg.count("<circle") == 2 * 3 + 1


def test_chains_of_dimensions_add_up(words) -> None:
    texts = re.findall(r">([0-9]+)</text>", draw_box("Box", CASES["plain"], words))
    up = ["70", "130", "130", "70"]
    assert [each for each in texts if each in {"70", "130"}][: len(up)] == up
    # from the end of the side's board: 18 mm beyond what is wet
    assert texts.count("88") == 2
    assert {"436", "300"} <= set(texts)


def test_a_panel_that_cannot_be_reckoned_has_no_colours(words) -> None:
    svg = draw_box("Box", CASES["unknown"], words)
    assert "far too thin" in svg
    assert "bulges by" not in svg


def test_the_same_box_gives_the_same_drawing(words) -> None:
    assert draw_box("Box", CASES["plain"], words) == draw_box("Box", CASES["plain"], words)
