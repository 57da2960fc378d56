"""Under-cure, warm box and damp on paper, and what they change on tickets and in the table of bonds."""

import re

import pytest

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import plan_pdf
from pourwright.sheets.damp_drawing import draw_damp
from pourwright.sheets.document import draw_all
from pourwright.sheets.pages.heat import heat_page
from pourwright.sheets.pages.soft import soft_page
from pourwright.sheets.warm_box_drawing import draw_warm_box
from tests.sheets.printed import words_of
from tests.sheets.sample_plan import sample_plan
from tests.sheets.sample_soft import soft_document, soft_plan


def pages(plan: PlanDocument) -> list[str]:
    return words_of(plan_pdf(plan))


def page_of(texts: list[str], words: str) -> str:
    return next(text for text in texts if words in text)


@pytest.fixture(scope="module")
def stool() -> list[str]:
    return pages(soft_plan())


def test_the_page_tells_where_it_stays_soft_and_what_gets_hard(stool):
    page = page_of(stool, "What stays soft")
    for words in [
        "stalls at about 90 % cured",
        "440 mm up (10 mm as it stands), outside",
        "neat layer on rubber",
        "however thin: 3.0 mm is hard after 4 days 23 h",
        "in time from 14 mm on, after 6 days 22 h",
        "not in time up to 96 mm: it stalls, or goes over the limit",
        "The shallowest pour is number 2, 80 mm deep.",
    ]:
        assert words in page


def test_the_warm_box_has_its_steps_and_says_who_decides(stool):
    page = page_of(stool, "Warm box")
    for words in ["the data sheet decides", "Do not open before Wed 9 Dec, 14:00.", "No open flame", "60 °C"]:
        assert words in page


def test_damp_is_told_pour_by_pour(stool):
    page = page_of(stool, "has its dew point at 14 °C")
    for words in [
        "Pour 1: dry enough all day",
        "so it blushes",
        "Pour 3: too damp at its start",
        "dew point 14 °C",
    ]:
        assert words in page


def test_a_top_that_blushes_voids_the_bond_on_the_next_ticket_and_in_the_table(stool):
    second = next(text for text in stool if "Pour 2 of 4" in text and "Before you mix" in text)
    assert "Pour 1 blushes in this air, so its bond is void: wash it with warm water" in second
    first = next(text for text in stool if "Pour 1 of 4" in text and "Before you mix" in text)
    assert "Its top blushes: wash and sand it first." in first
    third = next(text for text in stool if "Pour 3 of 4" in text and "Before you mix" in text)
    assert "blushes" not in third
    assert "Too damp at its start. Warm mold and glass to 18 °C before you pour." in third
    rows = heat_page(soft_plan())["windows"]["rows"]
    assert [row[3] for row in rows] == ["wash and sand first", "sand first", "sand first", ""]
    assert rows[0][1] == "void: its top blushes"


def test_without_a_warm_box_there_is_no_page_and_no_drawing_of_it():
    plan = soft_plan(box=False)
    assert "warm-box.svg" not in draw_all(plan)
    assert not any("Warm box" in text for text in pages(plan))


def test_a_plan_that_nobody_looked_at_has_no_such_pages():
    assert soft_page(sample_plan()) == {}
    drawn = draw_all(sample_plan())
    assert "damp.svg" not in drawn
    assert not any("What stays soft" in text for text in pages(sample_plan(1)))


def test_the_damp_chart_shades_each_night_and_shows_the_dew_point():
    drawing = draw_damp(soft_plan(2))
    # nights of 11 hours of 3 days, and the start of the first
    assert drawing.count('fill="#ecd9cf"') == 3 + 1
    assert "dew point 14 °C" in drawing
    assert "3 °C above it" in drawing


def test_a_top_far_warmer_than_the_shop_leaves_the_damp_chart():
    # it is 45 degC by day: only its nights are drawn, each as a curve of its own
    curves = re.findall(r'<path d="([^"]*)"[^>]*stroke-width="1.7"', draw_damp(soft_plan(2)))
    assert len(curves) == 2
    heights = [float(y) for curve in curves for y in re.findall(r"[ML ]-?[\d.]+ (-?[\d.]+)", curve)]
    assert min(heights) >= 24.0


def test_a_night_colder_than_the_dew_point_stays_on_the_damp_chart():
    content = soft_document(2)
    hours = content["soft"]["damp"]["hours"]
    hours["air_degC"] = [2.0 if late else 22.0 for late in hours["too_close"]]
    drawing = draw_damp(PlanDocument.model_validate(content))
    air = re.findall(r'<path d="([^"]*)"[^>]*stroke-width="1"', drawing)
    heights = [float(y) for curve in air for y in re.findall(r"[ML ]-?[\d.]+ (-?[\d.]+)", curve)]
    assert len(heights) == len(hours["air_degC"])
    # the axis of the hours lies at 152 pt
    assert max(heights) <= 152.0


def test_the_warm_box_is_drawn_from_its_beginning_to_its_opening():
    drawing = draw_warm_box(soft_plan())
    for words in ["begin", "not open before", "air in the box", "coldest place"]:
        assert words in drawing


def test_us_units_all_the_way():
    texts = pages(soft_plan(units="us", paper="letter"))
    page = page_of(texts, "What stays soft")
    assert "88 °F" in page
    assert "1/8 in is hard" in page
    drawing = draw_damp(soft_plan(units="us"))
    assert "dew point 57 °F" in drawing
