"""Cracks and halos on paper and in the terminal."""

import io
import re
import xml.etree.ElementTree as ET

import pytest
from rich.console import Console

from pourwright.cli.tables import plan_lines
from pourwright.sheets import plan_pdf
from pourwright.sheets.cracks_drawing import draw_cracks
from pourwright.sheets.document import draw_all
from pourwright.sheets.pages.cracks import cracks_page
from tests.sheets.printed import words_of
from tests.sheets.sample_cracks import PLACES, cracks_plan
from tests.sheets.sample_plan import sample_plan

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def page() -> str:
    texts = words_of(plan_pdf(cracks_plan()))
    return next(text for text in texts if "Cracks and halos" in text)


def drawn() -> ET.Element:
    plan = cracks_plan()
    assert plan.cracks is not None
    return ET.fromstring(draw_cracks(plan, plan.cracks))


def test_the_page_tells_each_place_why_and_what_to_do(page: str) -> None:
    for one in PLACES:
        assert one["where"] in page
        assert one["reason"] in page
    for words in [
        "An indication, not a prediction",
        "30 % (15 to 48)",
        "130 % (65 to 208)",
        "Let it get less hot.",
        "no faster than 7 °C an hour",
        "Do not open before 2 days 2 h.",
        "the top sinks by 0.7 mm",
        "it still covers the glass",
    ]:
        assert words in page.replace("\u00a0", " ")


def test_the_worst_light_leads() -> None:
    assert "red" in str(cracks_page(cracks_plan())["lead"])
    green = cracks_page(cracks_plan(places=PLACES[:2]))
    assert str(green["lead"]).startswith("Nothing to fear")


def test_where_no_care_is_needed_no_rate_is_asked_for() -> None:
    facts = cracks_page(cracks_plan(mind=False))["facts"]
    assert isinstance(facts, list)
    assert facts[1]["value"] == "as the shop does"


def test_lights_differ_by_shape_not_by_colour_alone() -> None:
    root = drawn()
    letters = [text.text for text in root.iter(f"{SVG}text")]
    for one in PLACES:
        # once on the section and once in the list
        assert letters.count(one["mark"]) == 2
    fills = [each.get("fill") for each in root.iter()]
    # square of red twice and in the legend, triangle of amber likewise, rings for the two green ones
    assert [fills.count(tone) for tone in ("#8f1d14", "#e8b64c", "#dcebd9")] == [3, 3, 5]
    squares = [each for each in root.iter(f"{SVG}rect") if each.get("fill") == "#8f1d14"]
    assert len(squares) == 3


def test_marks_stay_on_the_drawing_and_off_each_other() -> None:
    crowded = [{**PLACES[0], "mark": chr(65 + i), "where": f"place {i}"} for i in range(8)]
    plan = cracks_plan(places=crowded)
    assert plan.cracks is not None
    root = ET.fromstring(draw_cracks(plan, plan.cracks))
    spots = [
        (float(text.get("x", 0)), float(text.get("y", 0)))
        for text in root.iter(f"{SVG}text")
        if text.text and len(text.text) == 1 and float(text.get("x", 0)) < 250.0
    ]
    assert len(spots) == 8
    apart = [max(abs(a[0] - b[0]), abs(a[1] - b[1])) for i, a in enumerate(spots) for b in spots[:i]]
    assert min(apart) >= 12.0


def test_a_plan_without_lights_has_no_page_and_no_drawing() -> None:
    assert cracks_page(sample_plan()) == {}
    assert "cracks.svg" not in draw_all(sample_plan())
    assert "cracks.svg" in draw_all(cracks_plan())


def test_the_terminal_counts_the_lights_and_names_the_worst() -> None:
    console = Console(width=110, file=io.StringIO(), record=True)
    for part in plan_lines(cracks_plan().model_dump(mode="json", by_alias=True)):
        console.print(part)
    told = re.sub(r"\s+", " ", console.export_text())
    assert "1 red, 1 amber, 2 green" in told
    assert "most at D, inner corner, up 160 mm: 130 % of what it may bear" in told
    assert "Open it Do not open before 2 days 2 h." in told
