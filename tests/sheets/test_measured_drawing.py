"""The drawing of a measured body."""

import re

import numpy as np
import pytest
from lxml import etree

from pourwright.foundation.notation import UnitSystem
from pourwright.sheets.measured_drawing import DrawnReading, MeasuredOutline, draw_measured
from pourwright.sheets.pages.summary import summary_page
from pourwright.sheets.picture_files import png_of
from tests.sheets.sample_plan import sample_plan


def outline(depth=1.0, doubt=0.01):
    levels = np.linspace(0.0, 0.4, 41)
    halves = np.stack([0.1 + 0.2 * levels, depth * (0.1 + 0.2 * levels)], axis=1)
    readings = [
        DrawnReading(z, (0.1 + 0.2 * z, depth * (0.1 + 0.2 * z)), f"girth {z:.1f}") for z in (0.0, 0.2, 0.4)
    ]
    return MeasuredOutline("vase", levels, halves, np.full(41, doubt), readings, 0.1, "10 l, more or less")


def dots(svg):
    return re.findall(r'd="M([\d.]+) ([\d.]+)a', svg)


def test_every_reading_is_a_dot_on_either_side():
    svg = draw_measured(outline(), UnitSystem.METRIC)
    etree.fromstring(svg.encode())
    # two for each of three readings, one in the legend
    assert len(dots(svg)) == 7
    assert "girth 0.2" in svg
    assert "measure next: 100 mm" in svg
    assert "10 l, more or less" in svg


def test_an_end_that_nobody_read_has_no_dot():
    shown = outline()
    shown.readings[-1] = DrawnReading(0.4, None, "ends flat")
    svg = draw_measured(shown, UnitSystem.METRIC)
    assert len(dots(svg)) == 5
    assert "ends flat" in svg


def test_a_side_that_differs_is_drawn_beside():
    assert len(dots(draw_measured(outline(depth=0.7), UnitSystem.METRIC))) == 13


@pytest.mark.parametrize(("doubt", "words"), [(0.01, "in 8 of 10 cases<"), (0.001, "drawn 5 times as wide")])
def test_a_band_that_would_not_be_seen_is_drawn_wider_and_says_so(doubt, words):
    assert words in draw_measured(outline(doubt=doubt), UnitSystem.METRIC)


def test_the_ruler_speaks_the_makers_unit():
    svg = draw_measured(outline(), UnitSystem.US)
    assert ">2 in<" in svg
    assert "mm" not in svg


def test_the_first_page_tells_the_band_of_a_measured_piece():
    plan = sample_plan()
    assert " to " not in summary_page(plan)["lead"].partition(", cast in")[0]
    piece = plan.piece.model_copy(
        update={"volume_m3": 0.01, "volume_m3_p10": 0.0095, "volume_m3_p90": 0.0104}
    )
    assert "10.0 l (9.50 l to 10.4 l)" in summary_page(plan.model_copy(update={"piece": piece}))["lead"]


def test_it_becomes_a_picture():
    assert png_of(draw_measured(outline(), UnitSystem.METRIC)).startswith(b"\x89PNG")
