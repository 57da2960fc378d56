"""DXF and SVG drawings, made by a script, against closed forms; and everything that is wrong with them."""

import itertools
import re

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outline_files import read_outline
from pourwright.geometry.sections import outline_area
from tests.geometry.drawings import dxf_bytes, stadium, svg_bytes

SLOT = 100 * 50 + np.pi * 25**2 / 2


@pytest.fixture
def read(tmp_path):
    def areas(content, ending, unit=None, layer=None):
        path = tmp_path / f"top{ending}"
        path.write_bytes(content)
        loops = read_outline(path, unit, layer)
        return sorted((abs(outline_area(loop)) * 1e6 for loop in loops), reverse=True)

    return areas


def test_bulges_and_circles_keep_their_area(read):
    assert read(dxf_bytes(stadium), ".dxf") == pytest.approx([SLOT, np.pi * 100], rel=1e-12)


@pytest.mark.parametrize(
    ("units", "unit", "mm"), [(1, None, 25.4), (6, None, 1000.0), (0, "in", 25.4), (0, "cm", 10.0)]
)
def test_units_of_a_dxf(read, units, unit, mm):
    def square(space, _):
        space.add_lwpolyline([(0, 0), (0.5, 0), (0.5, 0.25), (0, 0.25)], close=True)

    assert read(dxf_bytes(square, units), ".dxf", unit) == pytest.approx([0.125 * mm**2], rel=1e-12)


def test_lines_and_arcs_in_any_order_and_direction_are_chained(read):
    """A rectangle of 80 x 40 with a half circle of radius 20 cut into its right side."""

    def loose(space, _):
        space.add_arc((80, 20), 20, 90, 270)
        space.add_line((80, 40.01), (0, 40))
        space.add_line((0, 0), (80, 0))
        space.add_line((0, 0.02), (0, 40))

    assert read(dxf_bytes(loose), ".dxf") == pytest.approx([80 * 40 - np.pi * 200], rel=5e-4)


def test_ellipse_and_spline(read):
    """pi a b; and two thirds of base by height under a parabola (Archimedes, from memory)."""

    def curves(space, _):
        space.add_ellipse((0, 0), (50, 0), 0.4)
        space.add_open_spline([(200, 0), (250, 100), (300, 0)], degree=2)
        space.add_line((200, 0), (300, 0))

    exact = [np.pi * 50 * 20, 100 * 50 * 2 / 3]
    assert read(dxf_bytes(curves), ".dxf") == pytest.approx(sorted(exact, reverse=True), rel=1e-3)


def test_blocks_are_exploded_with_their_scale_and_turn(read):
    def blocks(space, document):
        plug = document.blocks.new("plug")
        stadium(plug)
        space.add_blockref("plug", (10, 20), dxfattribs={"xscale": 2, "yscale": 2, "rotation": 30})

    assert read(dxf_bytes(blocks), ".dxf") == pytest.approx([4 * SLOT, 4 * np.pi * 100], rel=1e-9)


def test_mirrored_arcs(read):
    """Drawn from behind, with the extrusion turned over."""

    def mirrored(space, _):
        space.add_lwpolyline(
            [(0, 0, 0), (100, 0, 1), (100, 50, 0), (0, 50, 0)], format="xyb", close=True,
            dxfattribs={"extrusion": (0, 0, -1)},
        )  # fmt: skip

    assert read(dxf_bytes(mirrored), ".dxf") == pytest.approx([SLOT], rel=1e-9)


def test_layers(read):
    def layered(space, document):
        for name, radius in (("cut", 10), ("notes", 20), ("hidden", 30)):
            layer = document.layers.add(name)
            space.add_circle((0, 0), radius, dxfattribs={"layer": name})
        layer.freeze()

    content = dxf_bytes(layered)
    assert read(content, ".dxf") == pytest.approx([np.pi * 400, np.pi * 100], rel=1e-12)
    assert read(content, ".dxf", layer="Cut") == pytest.approx([np.pi * 100], rel=1e-12)
    with pytest.raises(UserError, match="no layer 'dut'; allowed: 0, Defpoints, cut, hidden, notes"):
        read(content, ".dxf", layer="dut")


def test_svg_in_its_own_size(read):
    """A rounded rectangle, a turned circle, a parabola: 400 units of the drawing are 200 mm."""
    body = (
        '<defs><rect width="5" height="5"/></defs><rect x="10" y="10" width="300" height="100" rx="20"/>'
        '<g transform="translate(100,60) rotate(30)"><circle r="20"/></g><text>hello</text>'
        '<path display="none" d="M0 0 H5 V5 Z"/>'
        '<path d="M200 40 Q 250 140 300 40 Z" transform="scale(1,0.5)"/>'
    )
    found = read(svg_bytes(body, 'width="200mm" height="100mm" viewBox="0 0 400 200"'), ".svg")
    exact = [(300 * 100 - (4 - np.pi) * 400) / 4, 100 * 50 * 2 / 3 / 8, np.pi * 100]
    assert found == pytest.approx(sorted(exact, reverse=True), rel=1e-3)


@pytest.mark.parametrize(
    ("size", "unit", "mm"),
    [
        ('width="4in" height="2in" viewBox="0 0 4 2"', None, 25.4),
        ('width="10cm" viewBox="0 0 50 50"', None, 2.0),
        ('width="96mm" height="96mm"', None, 25.4 / 96),
        ('width="300" height="200" viewBox="0 0 300 200"', "in", 25.4),
        ('viewBox="0 0 300 200"', "mm", 1.0),
    ],
)
def test_units_of_an_svg(read, size, unit, mm):
    assert read(svg_bytes('<rect width="3" height="2"/>', size), ".svg", unit) == pytest.approx(
        [6 * mm**2], rel=1e-9
    )


def test_y_points_up(tmp_path):
    path = tmp_path / "top.svg"
    path.write_bytes(svg_bytes('<path d="M0 0 L40 0 L0 30 Z"/>'))
    (loop,) = read_outline(path)
    # the right angle lies at the top left of the drawing, 100 mm above its lower edge
    assert sorted(map(tuple, (loop * 1000).round(9).tolist())) == [(0, 70), (0, 100), (40, 100)]


def test_a_plain_document_type_does_no_harm(read):
    plain = '<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd">'
    assert read(svg_bytes('<rect width="3" height="2"/>', before=plain), ".svg") == pytest.approx([6.0])


def lines(*ends):
    return dxf_bytes(lambda space, _: [space.add_line(a, b) for a, b in ends])


def within_itself(space, document):
    block = document.blocks.new("a")
    block.add_blockref("a", (1, 1))
    space.add_blockref("a", (0, 0))


def rows_without_end(space, document):
    document.blocks.new("a").add_line((0, 0), (1, 0))
    space.add_blockref("a", (0, 0), dxfattribs={"row_count": 30000, "column_count": 30000, "row_spacing": 9})


BOMB = '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>'
DOUBLING = "".join(f'<g id="g{n + 1}"><use href="#g{n}"/><use href="#g{n}"/></g>' for n in range(40))
# ruff: noqa: E501 - a table is read more easily with one case a line
CASES = {
    "no unit": (dxf_bytes(stadium, 0), ".dxf", None, r"does not say its unit \(\$INSUNITS\); allowed: mm, cm"),
    "two units": (dxf_bytes(stadium), ".dxf", "in", "one of its numbers is 1 mm, not 25.4 mm"),
    "odd unit": (dxf_bytes(stadium, 18), ".dxf", None, "unit number 18"),
    "open": (
        lines(((0, 0), (50, 0)), ((50, 0), (50, 40)), ((50, 40), (0, 3))), ".dxf", None,
        "is open: a line ends, 3 mm from the next end, near x = 0, y = [03] mm",
    ),
    "branch": (
        lines(((0, 0), (50, 0)), ((50, 0), (50, 40)), ((50, 40), (0, 0)), ((0, 0), (9, 9))), ".dxf", None,
        "3 line ends meet in one point near x = 0, y = 0 mm",
    ),
    "not flat": (lines(((0, 0, 0), (50, 0, 5)), ((50, 0, 5), (0, 0, 0))), ".dxf", None, "z runs over 5 mm"),
    "only text": (dxf_bytes(lambda space, _: space.add_text("a")), ".dxf", None, "only TEXT; allowed: ARC"),
    "nothing": (dxf_bytes(lambda *_: None), ".dxf", None, "only nothing"),
    "far": (lines(((0, 0), (1e12, 0)), ((1e12, 0), (0, 0))), ".dxf", None, "no place that could be real"),
    "block in itself": (dxf_bytes(within_itself), ".dxf", None, "without end|no line or arc"),
    "rows": (dxf_bytes(rows_without_end), ".dxf", None, "more than 50000 lines, or 1000 blocks"),
    "garbage": (b"\x00\xff garbage", ".dxf", None, "cannot be read"),
    "empty": (b" ", ".dxf", None, "the file is empty"),
    "no size": (svg_bytes('<rect width="3" height="2"/>', 'width="30" height="20"'), ".svg", None, "how large"),
    "percent": (svg_bytes("", 'width="100%" height="100%"'), ".svg", None, "how large it is"),
    "two sizes": (svg_bytes('<rect width="3" height="2"/>'), ".svg", "in", "is 1 mm, not 25.4 mm"),
    "entities": (svg_bytes("<text>&b;</text>", before=BOMB), ".svg", None, "declares entities"),
    "doubling": (svg_bytes(f'<g id="g0"><rect width="1" height="1"/></g>{DOUBLING}'), ".svg", None, "repeats"),
    "use of itself": (svg_bytes('<g id="a"><use href="#a"/></g>'), ".svg", None, "repeats itself"),
    "no svg": (b"<html></html>", ".svg", None, "begins with <html>"),
    "no xml": (b"<svg", ".svg", None, "cannot be read"),
    "utf-16": ("<svg/>".encode("utf-16"), ".svg", None, "UTF-8"),
    "no shape": (svg_bytes("<text>a</text>"), ".svg", None, "no closed outline"),
    "not a number": (svg_bytes('<path d="M0 0 L1e400 0 L5 5 Z"/>'), ".svg", None, "could be real|cannot be read"),
    "svg open": (svg_bytes('<path d="M0 0 H50 V40"/>'), ".svg", None, "is open"),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_bad_drawings_are_refused_in_one_line(read, case):
    content, ending, unit, reason = CASES[case]
    with pytest.raises(UserError) as refused:
        read(content, ending, unit)
    assert re.search(reason, str(refused.value))
    assert str(refused.value).startswith(f"top{ending}: ")


def test_other_files_and_none(tmp_path):
    with pytest.raises(UserError, match=r"ending in '.dwg' are no drawings; allowed: .dxf, .svg"):
        read_outline(tmp_path / "top.dwg")
    with pytest.raises(UserError, match=r"no file 'top.dxf'"):
        read_outline(tmp_path / "top.dxf")
    with pytest.raises(UserError, match="'furlong' is no unit"):
        read_outline(tmp_path / "top.dxf", "furlong")


SEEDS = {
    ".dxf": dxf_bytes(stadium),
    ".svg": svg_bytes(
        '<path d="M0 0 H50 A5 5 0 0 1 55 40 C 20 20 10 50 0 40 Z"/><circle r="5" cx="9" cy="9"/>'
    ),
}


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(
    ending=st.sampled_from(sorted(SEEDS)),
    cuts=st.lists(st.tuples(st.floats(0, 1), st.integers(0, 30), st.binary(max_size=12)), max_size=4),
)
def test_spoilt_drawings_end_in_an_outline_or_one_line(tmp_path, ending, cuts):
    content = SEEDS[ending]
    for share, length, put in cuts:
        at = int(share * len(content))
        content = content[:at] + put + content[at + length :]
    path = tmp_path / f"spoilt{ending}"
    path.write_bytes(content)
    told = []
    try:
        loops = read_outline(path, "mm")
    except UserError as refused:
        told.append(str(refused))
    else:
        assert all(np.isfinite(loop).all() and len(loop) > 1 for loop in loops)


def square_dxf(header=""):
    """Four lines by hand, 10 x 6, as small programs write them: with no header, or with what it says."""
    corners = [(0, 0), (10, 0), (10, 6), (0, 6), (0, 0)]
    ends = itertools.pairwise(corners)
    lines = "".join(f"0\nLINE\n8\n0\n10\n{a}\n20\n{b}\n11\n{c}\n21\n{d}\n" for (a, b), (c, d) in ends)
    return f"{header}0\nSECTION\n2\nENTITIES\n{lines}0\nENDSEC\n0\nEOF\n".encode()


def test_a_drawing_without_a_header_does_not_say_its_unit(tmp_path):
    """Whatever the library takes where nothing is said: metres."""
    path = tmp_path / "a.dxf"
    path.write_bytes(square_dxf())
    with pytest.raises(UserError, match="does not say its unit"):
        read_outline(path, None)
    (loop,) = read_outline(path, "in")
    assert abs(outline_area(loop)) == pytest.approx(60 * 0.0254**2)
    said = "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n"
    path.write_bytes(square_dxf(said))
    (loop,) = read_outline(path, None)
    assert abs(outline_area(loop)) == pytest.approx(60e-6)
