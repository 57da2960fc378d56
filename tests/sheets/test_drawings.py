"""Drawings are well-formed, complete, and nothing lies on top of anything else."""

from itertools import combinations
from xml.etree import ElementTree as ET

import pytest

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import draw_all
from pourwright.sheets.section_drawing import draw_section
from pourwright.sheets.svg import ADVANCE
from pourwright.sheets.tones import tones_of
from tests.sheets.sample_plan import sample_document, sample_plan

SVG = "{http://www.w3.org/2000/svg}"
Frame = tuple[float, float, float, float]


def frames(svg: str) -> list[tuple[str, Frame]]:
    """Every text of a drawing with the box its letters fill."""
    found = []
    for node in ET.fromstring(svg).iter(f"{SVG}text"):
        size, words = float(node.attrib["font-size"]), node.text or ""
        width = len(words) * ADVANCE * size
        shift = {"middle": 0.5, "end": 1.0}.get(node.attrib.get("text-anchor", ""), 0.0)
        left, base = float(node.attrib["x"]) - shift * width, float(node.attrib["y"])
        found.append((words, (left, base - 0.73 * size, left + width, base)))
    return found


def overlap(a: Frame, b: Frame) -> bool:
    return a[0] < b[2] - 0.1 and b[0] < a[2] - 0.1 and a[1] < b[3] - 0.1 and b[1] < a[3] - 0.1


def size(svg: str) -> tuple[float, float]:
    _, _, width, height = ET.fromstring(svg).attrib["viewBox"].split()
    return float(width), float(height)


@pytest.mark.parametrize("count", [1, 2, 4, 12])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_texts_lie_beside_each_other_and_on_the_paper(count: int, units: str) -> None:
    for name, svg in draw_all(sample_plan(count, units=units)).items():
        width, height = size(svg)
        texts = frames(svg)
        assert texts
        for words, frame in texts:
            inside = frame[0] >= -0.1 and frame[1] >= 0.0 and frame[2] <= width + 0.1 and frame[3] <= height
            assert inside, f"{name}: {words!r} leaves the paper"
        for (one, a), (other, b) in combinations(texts, 2):
            assert not overlap(a, b), f"{name}: {one!r} lies on {other!r}"


def test_section_names_every_band_and_dates_every_pour() -> None:
    plan = sample_plan()
    words = {text for text, _ in frames(draw_section(plan))}
    assert {band.name for band in plan.fill.bands} <= words
    assert {"Tue 1 Dec, 09:00", "Wed 2 Dec, 09:00", "Thu 3 Dec, 09:00", "Fri 4 Dec, 09:00"} <= words
    assert {"up 200 mm (250 mm)", "dip 250 mm", "160 to 240 mm", "(210 to 290 mm)"} <= words


def test_section_of_an_upright_piece_has_one_reading() -> None:
    document = sample_document()
    for part in [*document["pours"], *document["fill"]["bands"]]:
        part["from_standing_m"], part["to_standing_m"] = part["from_m"], part["to_m"]
    document["piece"]["flipped"] = False
    words = [text for text, _ in frames(draw_section(PlanDocument.model_validate(document)))]
    assert "up 200 mm" in words
    assert not any(text.startswith("(") for text in words)


def test_a_long_or_hostile_name_stays_in_its_column() -> None:
    document = sample_document(title="<b>&\x00\x07 " + "very long " * 20)
    document["fill"]["bands"][0]["name"] = "sea green & <amber> " + "x" * 200
    for svg in draw_all(PlanDocument.model_validate(document)).values():
        width, _ = size(svg)
        assert all(frame[2] <= width + 0.1 for _, frame in frames(svg))


def test_each_glass_has_a_pattern_of_its_own() -> None:
    tones = tones_of(sample_plan().fill.bands)
    patterns = [tone.pattern for key, tone in tones.items() if key[0] is not None]
    assert len(set(patterns)) == len(patterns) == 2
    assert tones[None, None].pattern == ""


def test_chart_marks_the_limit_each_start_and_each_peak() -> None:
    words = [text for text, _ in frames(draw_all(sample_plan())["temperature.svg"])]
    assert "limit 60 °C" in words
    assert [text for text in words if text in {"1", "2", "3", "4"}] == ["1", "2", "3", "4"] * 2
    assert words.count("50 °C") == 2


def test_long_calendar_is_cut_into_several_drawings() -> None:
    document = sample_document(12)
    document["calendar"] *= 3
    names = [name for name in draw_all(PlanDocument.model_validate(document)) if name.startswith("calendar")]
    assert names == ["calendar-1.svg", "calendar-2.svg"]
