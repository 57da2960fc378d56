"""Pictures of the heat: colours that can be trusted, lines where the values are, words that can be read."""

import io
import struct
from itertools import pairwise
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import plan_pdf, sheet_files
from pourwright.sheets.contours import Field, scale_of, spread_out
from pourwright.sheets.heat_pictures import DEMOLD, HEAT_PICTURES, HOTTEST, heat_pictures
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.ramps import HARD, WARM, srgb_of_lab
from tests.sheets.sample_plan import sample_document, sample_plan

SVG = "{http://www.w3.org/2000/svg}"
SHARES = np.linspace(0.0, 1.0, 101)


def texts(svg: str) -> list[str]:
    return [node.text or "" for node in ET.fromstring(svg).iter(f"{SVG}text")]


def luminance(colours: np.ndarray) -> np.ndarray:
    """Relative luminance of sRGB, as WCAG 2.2 defines it for contrast (w3.org/TR/WCAG22, from memory)."""
    linear = np.where(colours <= 0.04045, colours / 12.92, ((colours + 0.055) / 1.055) ** 2.4)
    return linear @ [0.2126, 0.7152, 0.0722]


@pytest.mark.parametrize(
    ("lab", "rgb"),
    # the corners of sRGB in CIELAB at D65, as printed in many tables (from memory)
    [
        ((53.24, 80.09, 67.20), (1, 0, 0)),
        ((87.73, -86.18, 83.18), (0, 1, 0)),
        ((32.30, 79.19, -107.86), (0, 0, 1)),
        ((100.0, 0.0, 0.0), (1, 1, 1)),
    ],
)
def test_lab_is_the_published_space(lab, rgb):
    assert srgb_of_lab(np.array(lab)) == pytest.approx(rgb, abs=2e-3)


@pytest.mark.parametrize("ramp", [WARM, HARD])
def test_a_ramp_can_be_shown_and_its_steps_look_equal(ramp):
    colours = srgb_of_lab(ramp.lab(SHARES))
    assert colours.min() >= 0.0
    assert colours.max() <= 1.0
    steps = np.linalg.norm(np.diff(ramp.lab(SHARES), axis=0), axis=1)
    assert steps.max() / steps.min() < 1.01


@pytest.mark.parametrize(("ramp", "sign"), [(WARM, -1.0), (HARD, 1.0)])
def test_a_grey_copy_keeps_the_order_and_even_steps(ramp, sign):
    hexes = ramp.colours(9)
    colours = np.array([[int(text[i : i + 2], 16) / 255 for i in (1, 3, 5)] for text in hexes])
    light = 116.0 * np.cbrt(luminance(colours)) - 16.0  # CIE lightness above 0.9 % luminance
    steps = sign * np.diff(light)
    assert steps.min() > 0.0
    # eight bits a colour are half a step off at most: about 0.3 of lightness
    assert steps == pytest.approx(np.full(8, abs(ramp.lightness[1] - ramp.lightness[0]) / 8), abs=0.7)
    # neighbours must be told apart in grey by more than the 2 that an eye just sees
    assert steps.min() > 4.0


def test_lines_lie_where_a_slanting_plane_has_the_value():
    x, z = np.linspace(0.0, 0.3, 13), np.linspace(0.0, 0.2, 9)
    middles = ((x[1:] + x[:-1]) / 2)[None, :] + 2 * ((z[1:] + z[:-1]) / 2)[:, None]
    field = Field(x, z, middles)
    (line,) = field.lines(0.35)
    assert line[:, 0] + 2 * line[:, 1] == pytest.approx(np.full(len(line), 0.35), abs=1e-12)
    assert {round(float(end), 9) for end in (line[0, 1], line[-1, 1])} == {0.025, 0.175}


def test_bands_between_the_lines_fill_the_whole_cut():
    chance = np.random.default_rng(1)
    x, z = np.linspace(0.0, 3.0, 13), np.linspace(0.0, 2.0, 9)
    field = Field(x, z, chance.uniform(0.0, 10.0, (8, 12)))
    edges = [-1e9, 2.0, 4.0, 6.0, 8.0, 1e9]
    areas = [abs(sum(_area(o) for o in field.band(a, b))) for a, b in pairwise(edges)]
    assert sum(areas) == pytest.approx(6.0, rel=1e-9)
    assert min(areas) > 0.0


def _area(outline: np.ndarray) -> float:
    x, y = outline.T
    return float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum() / 2)


def test_cells_without_a_value_go_on_from_their_neighbours():
    x, y = np.meshgrid(np.arange(6.0), np.arange(5.0))
    plane = 3 * x - y
    holed = np.where(x > 3, np.nan, plane)
    assert np.array_equal(spread_out(holed)[:, 4], plane[:, 4])
    with pytest.raises(ValueError, match="no value"):
        spread_out(np.full((2, 2), np.nan))


@pytest.mark.parametrize(("low", "high"), [(21.3, 54.8), (70.0, 70.0), (0.8761, 0.8893), (-3.0, 250.0)])
def test_a_scale_has_round_steps_and_holds_every_value(low, high):
    scale = scale_of(np.array([low, np.nan, high]), 0.001)
    assert scale.edges[0] <= low + 1e-9
    assert scale.edges[-1] >= high - 1e-9
    assert 1 <= scale.count <= 11
    assert [float(f"{edge:.{scale.digits}f}") for edge in scale.edges] == scale.edges


def test_the_pictures_say_what_they_show():
    plan = sample_plan()
    hottest, demold = (texts(heat_pictures(plan)[name]) for name in (HOTTEST, DEMOLD))
    assert {"The hottest moment: 50 °C", "°C", "hottest: 50 °C", "pour 1", "up 390 mm"} <= set(hottest)
    assert any(line.startswith("Pour 4, 8 h 36 min after it starts: Fri 4 Dec, 17:36") for line in hottest)
    assert "not poured yet" not in hottest
    assert any("behind the middle by 4.0 mm, seen from the front" in line for line in hottest)
    assert {"The coldest place at demold: 88 % cured", "% cured", "least cured: 88 %"} <= set(demold)
    assert {"pour 1", "pour 2", "pour 3", "pour 4", "up 441 mm", "(9.0 mm as it stands)"} <= set(demold)


def test_levels_of_pours_are_told_in_both_readings():
    assert "up 120 mm (330 mm)" in texts(heat_pictures(sample_plan())[HOTTEST])
    inches = texts(heat_pictures(sample_plan(units="us"))[HOTTEST])
    assert "up 4 3/4 in (13 in)" in inches


def test_what_is_not_poured_yet_stays_white():
    words = texts(heat_pictures(sample_plan(2))[HOTTEST])
    assert {"not poured yet", "pour 1"} <= set(words)
    assert "pour 2" not in words


def test_degrees_are_the_makers():
    metric, us = (texts(heat_pictures(sample_plan(units=units))[HOTTEST]) for units in ("metric", "us"))
    assert "°F" in us
    assert "°F" not in metric
    assert {"20", "50"} <= set(metric)
    assert {"70", "120"} <= set(us)


def test_a_piece_that_never_hardens_is_said_so():
    document = sample_document()
    document["demold"] |= {"after_h": None, "at": None}
    picture = heat_pictures(PlanDocument.model_validate(document))[DEMOLD]
    assert any(
        line.startswith("Not hard enough 6 days after the last pour starts") for line in texts(picture)
    )


def test_seen_from_the_right_the_mark_lies_by_its_depth():
    document = sample_document()
    for section in document["heat"]["sections"]:
        section |= {"axis": "x", "offset_m": -0.03, "place_m": (-0.03, 0.05, 0.2)}
    lines = texts(heat_pictures(PlanDocument.model_validate(document))[DEMOLD])
    assert any("from front to back" in line and "left of the middle by 30 mm" in line for line in lines)


def test_a_plan_from_before_has_no_pictures_and_still_prints():
    document = sample_document()
    document["heat"].pop("sections")
    plan = PlanDocument.model_validate(document)
    assert heat_pictures(plan) == {}
    assert plan_pdf(plan).startswith(b"%PDF")


def test_the_pictures_are_files_of_the_plan_in_both_kinds():
    made = sheet_files(sample_plan())
    for name in HEAT_PICTURES:
        png = made[f"drawings/{name.replace('.svg', '.png')}"]
        width, height = struct.unpack(">II", png[16:24])
        assert png.startswith(b"\x89PNG")
        # 510 pt at 200 pixels an inch
        assert width == pytest.approx(510 / 72 * 200, abs=1)
        assert height > 600


def test_letters_are_painted_into_the_png():
    image = pytest.importorskip("PIL.Image")
    plain = '<svg xmlns="http://www.w3.org/2000/svg" width="90pt" height="20pt" viewBox="0 0 90 20">{}</svg>'
    words = '<text x="4" y="14" font-size="12" font-family="DejaVu Sans Mono">hottest</text>'
    dark = []
    for content in ("", words):
        pixels = np.asarray(image.open(io.BytesIO(png_of(plain.format(content)))).convert("RGBA"))
        dark.append(int(((pixels[..., 3] > 128) & (pixels[..., 0] < 100)).sum()))
    assert dark[0] == 0
    assert dark[1] > 500
