"""Cutting plans on paper: parts where they lie, cuts numbered and measured, nothing overlaps."""

import re
from xml.etree import ElementTree as ET

import pytest

from pourwright.jobs.cut_nested import BarPart, LeftPiece, NestedBar, NestedSheet, PlacedPart, SheetCut
from pourwright.jobs.cut_part import cut_part
from pourwright.jobs.plan import JobInfo
from pourwright.materials.loading import load_materials
from pourwright.mold.wood.part import Groove, Hole, WoodPart
from pourwright.sheets.cut_bars_drawing import cuts_of, draw_cut_bars
from pourwright.sheets.cut_sheet_drawing import cut_words, draw_cut_sheet
from pourwright.sheets.cut_tags import key_letters
from pourwright.sheets.wording import Wording

SVG = "{http://www.w3.org/2000/svg}"
WIDE = 0.602
"""Width of a letter of the drawing font over its size, as the font states it."""


def wording(units="metric"):
    job = JobInfo(
        title="A box",
        variant="",
        units=units,
        paper="A4",
        time_zone="Europe/Berlin",
        currency="EUR",
        invented=True,
    )
    return Wording(job)


def sheet(**changes):
    """A sheet of 1.0 x 0.5 m cut by hand: trimmed 10 mm, kerf 4 mm."""
    cuts = [
        SheetCut(number=1, axis="x", x_m=0.61, y_m=0.01, length_m=0.48, at_m=0.6, words="sides"),
        SheetCut(number=2, axis="y", x_m=0.01, y_m=0.21, length_m=0.6, at_m=0.2),
        SheetCut(number=3, axis="x", x_m=0.634, y_m=0.01, length_m=0.48, at_m=0.02),
    ]
    plain = {
        "name": "sheet 1",
        "board": "plywood",
        "thickness_m": 0.018,
        "length_m": 1.0,
        "width_m": 0.5,
        "trim_m": 0.01,
        "kerf_m": 0.004,
        "grain": "length",
        "parts": [
            PlacedPart(mark="side 1", x_m=0.01, y_m=0.01, length_m=0.6, width_m=0.2),
            PlacedPart(mark="side 2", x_m=0.01, y_m=0.214, length_m=0.6, width_m=0.276, turned=True),
            PlacedPart(mark="a batten with a long name", x_m=0.614, y_m=0.01, length_m=0.02, width_m=0.05),
        ],
        "cuts": cuts,
        "left": [LeftPiece(x_m=0.638, y_m=0.01, length_m=0.352, width_m=0.48)],
        "used_share": 0.58,
    }
    return NestedSheet(**(plain | changes))


def read(svg):
    return ET.fromstring(svg.split("?>", 1)[1])


def texts(svg):
    return [one.text for one in read(svg).iter(f"{SVG}text")]


def rectangles(svg):
    keys = ("x", "y", "width", "height")
    return [[float(one.get(key, 0.0)) for key in keys] for one in read(svg).iter(f"{SVG}rect")]


def boxes(svg):
    """Where each text stands: left, top, right, bottom."""
    found = []
    for one in read(svg).iter(f"{SVG}text"):
        size, x, y = (float(one.get(key)) for key in ("font-size", "x", "y"))
        wide = WIDE * size * len(one.text)
        left = x - {"middle": wide / 2, "end": wide}.get(one.get("text-anchor"), 0.0)
        box = (left, y - 0.75 * size, left + wide, y + 0.15 * size)
        if turn := one.get("transform"):
            _, cx, cy = (float(value) for value in re.findall(r"-?[\d.]+", turn))
            # a quarter turn to the left: what lay right of the middle now lies above it
            left, top, right, bottom = (box[i] - (cx, cy)[i % 2] for i in range(4))
            box = (cx + top, cy - right, cx + bottom, cy - left)
        found.append(box)
    return found


def test_parts_lie_to_scale():
    drawn = rectangles(draw_cut_sheet(sheet(), wording()))
    wide, high = 0.6, 0.2
    # 510 pt less 60 for the dimension and 6 at the right, for a sheet of 1 m
    scale = 444.0
    found = [one for one in drawn if one[2:] == pytest.approx([wide * scale, high * scale], abs=0.011)]
    assert len(found) == 1
    # its left lower corner lies a trim from that of the sheet
    assert found[0][0] == pytest.approx(60.0 + 0.01 * scale, abs=0.011)
    assert found[0][1] + found[0][3] == pytest.approx(30.0 + (0.5 - 0.01) * scale, abs=0.011)


def test_cuts_are_numbered_measured_and_as_wide_as_the_blade():
    svg = draw_cut_sheet(sheet(), wording())
    told = texts(svg)
    assert {"1", "2", "3"} <= set(told)
    assert [cut_words(cut, wording()) for cut in sheet().cuts] == [
        "600 mm from the left edge",
        "200 mm from the lower edge",
        "20 mm from the left edge",
    ]
    lines = [one for one in read(svg).iter(f"{SVG}line") if one.get("stroke") == "#9c3a10"]
    # the blade is 4 mm wide, its middle 2 mm beyond the first piece
    assert [float(one.get("stroke-width")) for one in lines] == pytest.approx([0.004 * 444.0] * 3, abs=0.006)
    assert float(lines[0].get("x1")) == pytest.approx(60.0 + 0.612 * 444.0, abs=0.006)
    assert lines[0].get("x1") == lines[0].get("x2")


def test_what_has_no_room_is_told_below():
    told = texts(draw_cut_sheet(sheet(), wording()))
    assert "a" in told
    assert "a: a batten with a long name, 20 × 50 mm" in told
    assert "left over" in told
    assert "352 × 480 mm" in told
    assert "side 2 ↻" in told
    assert [key_letters(count) for count in (0, 25, 26, 51, 52)] == ["a", "z", "aa", "az", "ba"]


def test_an_offcut_without_grain_says_so():
    told = texts(draw_cut_sheet(sheet(offcut=True, grain="", trim_m=0.0), wording()))
    assert "sheet 1: offcut, plywood, 1000 × 500 × 18 mm" in told
    assert not any("grain" in words or "trim" in words for words in told)


def test_a_maker_in_inches_reads_inches():
    # 0.6096 m is 24 in, 0.3048 m 12 in; 3.175 mm an eighth
    part = PlacedPart(mark="side 1", x_m=0.0, y_m=0.0, length_m=0.6096, width_m=0.3048)
    cut = SheetCut(number=1, axis="x", x_m=0.6096, y_m=0.0, length_m=0.5, at_m=0.6096)
    told = texts(draw_cut_sheet(sheet(kerf_m=0.003175, parts=[part], cuts=[cut], left=[]), wording("us")))
    assert "24 × 12 in" in told
    assert cut_words(cut, wording("us")) == "24 in from the left edge"
    assert any("kerf 1/8 in" in words for words in told)
    assert not any(" mm" in words for words in told)


def crowded():
    """A sheet of which every centimetre is cut: 12 strips, each into 10 pieces."""
    parts, cuts = [], []
    for i in range(12):
        x = 0.08 * i
        cuts.append(
            SheetCut(number=len(cuts) + 1, axis="x", x_m=x + 0.077, y_m=0.0, length_m=0.5, at_m=0.077)
        )
        for j in range(10):
            y = 0.05 * j
            parts.append(
                PlacedPart(
                    mark=f"piece {i}.{j}", x_m=x, y_m=y, length_m=0.077, width_m=0.047, turned=j % 2 == 0
                )
            )
            cuts.append(
                SheetCut(number=len(cuts) + 1, axis="y", x_m=x, y_m=y + 0.047, length_m=0.077, at_m=0.047)
            )
    return sheet(parts=parts, cuts=cuts, left=[], trim_m=0.0, kerf_m=0.003)


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("make", [sheet, crowded, lambda: sheet(length_m=0.7, width_m=2.0)])
def test_labels_do_not_overlap_and_stay_on_the_paper(make, units):
    svg = draw_cut_sheet(make(), wording(units))
    placed = boxes(svg)
    for i, (a, b, c, d) in enumerate(placed):
        assert all(c <= e or g <= a or d <= f or h <= b for e, f, g, h in placed[i + 1 :])
    high = float(read(svg).get("height").removesuffix("pt"))
    assert all(a >= 0 and b >= 0 and c <= 510.0 and d <= high for a, b, c, d in placed)


def bar(**changes):
    plain = {
        "name": "bar 1",
        "board": "lath",
        "thickness_m": 0.018,
        "width_m": 0.04,
        "length_m": 1.0,
        "trim_m": 0.01,
        "kerf_m": 0.003,
        "parts": [
            BarPart(mark="batten 1", x_m=0.01, length_m=0.4),
            BarPart(mark="batten 2", x_m=0.413, length_m=0.02),
        ],
        "left_m": 0.554,
        "used_share": 0.42,
    }
    return NestedBar(**(plain | changes))


def test_bars_are_cut_in_order():
    # the blade's far side is where the next part begins: 10 mm, 410 + 3 mm
    assert cuts_of(bar()) == pytest.approx([0.007, 0.41, 0.433])
    assert cuts_of(bar(trim_m=0.0, parts=[BarPart(mark="all", x_m=0.0, length_m=1.0)], left_m=0.0)) == []
    told = texts(draw_cut_bars([bar(), bar(name="bar 2")], wording()))
    for words in ("batten 1", "400 mm", "left over", "554 mm", "a: batten 2, 20 mm", "b: batten 2, 20 mm"):
        assert words in told
    assert [words for words in told if words.isdigit()] == ["1", "2", "3"] * 2


def test_labels_of_bars_do_not_overlap():
    short = [BarPart(mark=f"short {i}", x_m=0.013 * i, length_m=0.01) for i in range(20)]
    placed = boxes(draw_cut_bars([bar(), bar(parts=short, left_m=0.74)], wording("us")))
    for i, (a, b, c, d) in enumerate(placed):
        assert all(c <= e or g <= a or d <= f or h <= b for e, f, g, h in placed[i + 1 :])


def test_a_part_of_wood_is_written_down_whole():
    board = next(iter(load_materials().board.values()))
    part = WoodPart(
        mark="side 1",
        belongs="box",
        board=board,
        length=0.3,
        width=0.2,
        thickness=0.018,
        grain="length",
        oversize=0.005,
        face="inside",
        outlines=(((0.0, 0.0), (0.3, 0.0), (0.3, 0.2)),),
        grooves=(Groove(start=0.0, end=0.018, depth=0.006),),
        holes=(Hole(at=(0.1, 0.05), diameter=0.004, use="screw"),),
    )
    told = cut_part(part)
    assert (told.board, told.sawn_m, told.mass_kg) == (board.name, pytest.approx((0.31, 0.21)), part.mass)
    assert told.outlines_m == [[(0.0, 0.0), (0.3, 0.0), (0.3, 0.2)]]
    assert (told.grooves[0].end_m, told.holes[0].at_m, told.holes[0].use) == (0.018, (0.1, 0.05), "screw")
