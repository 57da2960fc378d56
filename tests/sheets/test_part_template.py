"""Templates at their true size: what is printed has its length, on each page and in the machine's file."""

import io
import math
import re
from xml.etree import ElementTree as ET

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from pourwright.jobs.cut_part import CutGroove, CutHole, CutPart
from pourwright.jobs.plan import JobInfo
from pourwright.sheets.part_dxf import part_dxf
from pourwright.sheets.part_pages import OVERLAP, page_name, pages_of
from pourwright.sheets.part_template import draw_template, templates_pdf
from pourwright.sheets.wording import Wording
from tests.sheets.printed import words_of

# an inch is 25.4 mm (international yard and pound agreement of 1959) and 72 points (ISO 32000)
SVG = "{http://www.w3.org/2000/svg}"
POINTS = 72.0 / 25.4
NEAR = 0.01


def wording(units="metric", paper="A4"):
    job = JobInfo(
        title="A box",
        variant="",
        units=units,
        paper=paper,
        time_zone="Europe/Berlin",
        currency="EUR",
        invented=True,
    )
    return Wording(job)


def sample(length=0.3, width=0.2, **changes):
    over = changes.get("oversize_m", 0.0)
    plain = {
        "mark": "side 1",
        "belongs": "box",
        "board": "plywood",
        "length_m": length,
        "width_m": width,
        "thickness_m": 0.018,
        "sawn_m": (length + 2 * over, width + 2 * over),
        "mass_kg": 0.7,
    }
    return CutPart(**(plain | changes))


def times(one, other):
    a, b, c, d, e, f = one
    p, q, r, s, t, u = other
    return (
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
    )


def lines_of(page, reader):
    """Every path that a page strokes, its corners in points of the paper, y up."""
    now, kept, path, found = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), [], [], []
    for values, sign in ContentStream(page.get_contents(), reader).operations:
        if sign == b"q":
            kept.append(now)
        elif sign == b"Q":
            now = kept.pop()
        elif sign == b"cm":
            now = times(tuple(float(value) for value in values), now)
        elif sign in {b"m", b"l"}:
            path.append(times((1.0, 0.0, 0.0, 1.0, *map(float, values)), now)[4:])
        elif sign in {b"S", b"s"}:
            found.append(path)
            path = []
        elif sign in {b"n", b"f", b"f*"}:
            path = []
    return found


def printed(pdf):
    reader = PdfReader(io.BytesIO(pdf))
    return [(page, lines_of(page, reader)) for page in reader.pages]


def extent(path):
    return tuple(max(axis) - min(axis) for axis in zip(*path, strict=True))


def shows(path, size):
    return all(math.isclose(a, b, abs_tol=NEAR) for a, b in zip(extent(path), size, strict=True))


@pytest.mark.parametrize(("units", "paper"), [("metric", "A4"), ("us", "letter")])
def test_every_page_has_a_line_of_100_mm(units, paper):
    pages = printed(templates_pdf([sample(), sample(0.08, 0.03)], wording(units, paper)))
    assert len(pages) == 3
    for _, lines in pages:
        assert sum(shows(line, (283.465, 0.0)) for line in lines) == 1


@pytest.mark.parametrize(("paper", "size"), [("A4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_a_part_is_printed_as_large_as_it_is(paper, size):
    for page, lines in printed(templates_pdf([sample()], wording(paper=paper))):
        assert [float(edge) for edge in page.mediabox[2:]] == pytest.approx(
            [edge * POINTS for edge in size], abs=NEAR
        )
        assert any(shows(line, (300.0 * POINTS, 200.0 * POINTS)) for line in lines)


def test_pages_laid_together_show_one_part():
    part = sample(0.75, 0.4)
    pages = pages_of(part, "A4")
    corners = []
    for page, (_, lines) in zip(pages, printed(templates_pdf([part], wording())), strict=True):
        (line,) = [one for one in lines if shows(one, (750.0 * POINTS, 400.0 * POINTS))]
        left, low = (min(axis) / POINTS for axis in zip(*line, strict=True))
        wide, high = page.size[0] - 20.0 - OVERLAP, page.size[1] - 20.0 - 43.0 - OVERLAP
        corners += [left + wide * page.column, low - high * page.row]
    # laid with their overlap, every page puts the part's corner at the same place
    assert len(pages) > 4
    assert corners == pytest.approx(corners[:2] * len(pages), abs=NEAR / POINTS)


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("size", [(0.3, 0.2), (0.05, 0.02), (2.44, 1.22), (0.19, 1.0)])
def test_all_of_a_part_is_on_some_page(paper, size):
    part = sample(*size, oversize_m=0.005)
    pages = pages_of(part, paper)
    length, width = (1000.0 * edge for edge in size)
    for i in range(201):
        x, y = -5.0 + (length + 10.0) * i / 200, -5.0 + (width + 10.0) * i / 200
        for point in ((x, -5.0), (x, width + 5.0), (-5.0, y), (length + 5.0, y)):
            seen = [
                page
                for page in pages
                if page.usable[0] <= point[0] <= page.usable[2]
                and page.usable[1] <= point[1] <= page.usable[3]
            ]
            assert seen
            # and it is no nearer to the edge of the paper than a printer reaches
            across, down = seen[0].at(*point)
            assert 10.0 <= across <= seen[0].size[0] - 10.0
            assert 10.0 <= down <= seen[0].size[1] - 10.0
    assert len({page.name for page in pages}) == len(pages)


def test_a_small_part_takes_one_page_and_a_large_one_the_fewest():
    # A4 holds 190 x 234 mm upright or 277 x 147 mm lying; pages join with 10 mm
    assert len(pages_of(sample(0.18, 0.22), "A4")) == 1
    assert len(pages_of(sample(0.27, 0.14), "A4")) == 1
    assert pages_of(sample(0.27, 0.14), "A4")[0].size == (297.0, 210.0)
    # 2444 x 1224 mm: 14 x 6 upright, 10 x 9 lying
    assert len(pages_of(sample(2.44, 1.22), "A4")) == 84
    assert [page_name(i, 0) for i in (0, 25, 26, 51, 52)] == ["A1", "Z1", "AA1", "AZ1", "BA1"]


def test_pages_are_named_and_say_what_joins_them():
    told = words_of(templates_pdf([sample()], wording()))
    assert "sheet A1 of A1 to B1" in told[0]
    assert "to B1" in told[0]
    assert "to A1" in told[1]
    assert all("100 mm: measure it" in page and "15/16" not in page for page in told)


def test_a_maker_in_inches_reads_inches():
    part = sample(
        0.3048,
        0.1524,
        oversize_m=0.00635,
        grooves=[CutGroove(start_m=0.1, end_m=0.1127, depth_m=0.00635)],
        holes=[CutHole(at_m=(0.2, 0.1), diameter_m=0.003175, use="screw into end 1")],
    )
    told = draw_template(part, wording("us", "letter"))
    # 0.3048 m is 12 in, 0.00635 m a quarter; 1/8 in is 0.125 in
    for words in (
        "finished 12 × 6 × 11/16 in; sawn 12 1/2 × 6 1/2 in",
        "groove 1/2 in wide, 1/4 in deep",
        "Ø 0.125 in",
        "100 mm = 3 15/16 in",
    ):
        assert words in told


def test_a_picture_is_in_millimetres():
    root = ET.fromstring(draw_template(sample(), wording()).split("?>", 1)[1])
    size = [float(root.get(edge).removesuffix("mm")) for edge in ("width", "height")]
    assert root.get("width").endswith("mm")
    assert root.get("height").endswith("mm")
    assert [float(edge) for edge in root.get("viewBox").split()] == [0.0, 0.0, *size]
    paths = [re.findall(r"-?[\d.]+", one.get("d")) for one in root.iter(SVG + "path")]
    sizes = [extent(list(zip(*[iter(map(float, path))] * 2, strict=True))) for path in paths]
    assert (300.0, 200.0) in [(round(a, 6), round(b, 6)) for a, b in sizes]


def boxes(svg):
    """Where each text stands: left, top, right, bottom."""
    found = []
    for one in ET.fromstring(svg.split("?>", 1)[1]).iter(SVG + "text"):
        size, x, y = (float(one.get(key)) for key in ("font-size", "x", "y"))
        wide = 0.602 * size * len(one.text)
        left = x - (wide / 2 if one.get("text-anchor") == "middle" else 0.0)
        found.append((left, y - 0.75 * size, left + wide, y + 0.2 * size))
    return found


@pytest.mark.parametrize("grain", ["length", "width"])
@pytest.mark.parametrize("size", [(0.3, 0.2), (0.08, 0.03), (0.12, 0.012)])
def test_labels_do_not_overlap(size, grain):
    holes = [
        CutHole(at_m=(size[0] * (0.1 + 0.2 * i), size[1] / 2), diameter_m=0.004, use="screw")
        for i in range(5)
    ]
    part = sample(*size, grain=grain, holes=holes, grooves=[CutGroove(start_m=0, end_m=0.018, depth_m=0.006)])
    placed = boxes(draw_template(part, wording()))
    for i, (a, b, c, d) in enumerate(placed):
        assert all(c <= e or g <= a or d <= f or h <= b for e, f, g, h in placed[i + 1 :])


def test_the_same_parts_give_the_same_bytes():
    assert templates_pdf([sample()], wording()) == templates_pdf([sample()], wording())
    assert part_dxf(sample(), wording()) == part_dxf(sample(), wording())


def test_a_machine_reads_exact_lengths():
    import ezdxf

    arch = [(0.0, 0.0), (0.3, 0.0), (0.15, 0.2)]
    part = sample(
        oversize_m=0.005,
        outlines_m=[arch],
        grooves=[CutGroove(start_m=0.1, end_m=0.118, depth_m=0.006)],
        holes=[CutHole(at_m=(0.0123, 0.1), diameter_m=0.0045, use="screw into end 1")],
    )
    drawing = ezdxf.read(io.StringIO(part_dxf(part, wording()).decode()))
    assert (drawing.dxfversion, drawing.units, drawing.header["$MEASUREMENT"]) == ("AC1024", 4, 1)
    assert not drawing.audit().has_errors
    lines = {
        one.dxf.layer: [tuple(point) for point in one.get_points("xy")]
        for one in drawing.modelspace().query("LWPOLYLINE")
    }
    assert lines["finished"] == [(0.0, 0.0), (300.0, 0.0), (150.0, 200.0)]
    assert lines["sawn"] == [(-5.0, -5.0), (305.0, -5.0), (305.0, 205.0), (-5.0, 205.0)]
    assert lines["groove"] == [(100.0, 0.0), (118.0, 0.0), (118.0, 200.0), (100.0, 200.0)]
    (hole,) = drawing.modelspace().query("CIRCLE")
    assert (*hole.dxf.center, hole.dxf.radius, hole.dxf.layer) == (12.3, 100.0, 0.0, 2.25, "hole")
    told = [one.dxf.text for one in drawing.modelspace().query("TEXT")]
    assert told == ["groove 18 mm wide, 6.0 mm deep", "Ø 4.5 mm screw into end 1", "side 1"]
