"""The page that tells how sure a plan is, and its drawings."""

import math
import re
from itertools import combinations, pairwise
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import draw_all, plan_pdf
from pourwright.sheets.compared_drawing import LEAST, draw_compared, height_of
from pourwright.sheets.matters_drawing import NARROW, WIDE, draw_matters
from pourwright.sheets.pages.chances import chance_words
from tests.sheets.printed import words_of
from tests.sheets.sample_chances import ranking, share, sure_document, sure_plan
from tests.sheets.sample_plan import sample_plan
from tests.sheets.sample_soft import soft_document
from tests.sheets.test_drawings import SVG, frames, overlap, size

WORDS = st.text("abcdefghij klmnop-", min_size=1, max_size=70)
SHARES = st.floats(-0.02, 1.1)
INPUTS = st.lists(st.tuples(WORDS, SHARES, SHARES), min_size=1, max_size=12)
PLANS = st.lists(st.tuples(st.floats(1.0, 400.0), st.floats(0.0, 1.0)), min_size=2, max_size=12)
INNER, OUTER = "#9c3a10", "#d9c4b8"


def pages(plan: PlanDocument) -> list[str]:
    return words_of(plan_pdf(plan))


def bars(svg: str, tone: str) -> list[float]:
    """Widths of the bars of one tone, from above; the legend's own is the last."""
    rects = [node.attrib for node in ET.fromstring(svg).iter(f"{SVG}rect") if node.attrib.get("fill") == tone]
    return [float(rect["width"]) for rect in rects][:-1]


def assert_readable(svg: str) -> None:
    width, height = size(svg)
    texts = frames(svg)
    for words, (left, top, right, bottom) in texts:
        inside = left >= -0.1 and top >= 0.0 and right <= width + 0.1 and bottom <= height
        assert inside, f"{words!r} leaves the paper"
    for (one, a), (other, b) in combinations(texts, 2):
        assert not overlap(a, b), f"{one!r} lies on {other!r}"


def with_ranking(inputs: list[tuple[str, float, float]]) -> PlanDocument:
    document = sure_document(1)
    told = ranking("peak", "hottest place", "degC", 54.0, 5.0)
    told["shares"] = [share(str(i), *each) for i, each in enumerate(inputs)]
    document["chances"]["rankings"] = [told]
    return PlanDocument.model_validate(document)


def matters(plan: PlanDocument, width: float = NARROW) -> str:
    assert plan.chances is not None
    return draw_matters(plan, plan.chances.rankings[0], width)


def with_compared(points: list[tuple[float, float]]) -> PlanDocument:
    document: dict[str, Any] = sure_document(1)
    document["chances"]["compared"] = [
        {"pours": i, "chosen": i == 1, "days": days, "over_limit": over, "text": "kept"}
        for i, (days, over) in enumerate(points, 1)
    ]
    return PlanDocument.model_validate(document)


@pytest.mark.parametrize(("units", "paper"), [("metric", "A4"), ("us", "letter")])
def test_the_page_says_how_sure_the_plan_is(units: str, paper: str) -> None:
    plan = sure_plan(4, units=units, paper=paper)
    found = [text for text in pages(plan) if "How sure is this plan" in text]
    assert len(found) == 1
    # pour 2: 0.024 of such pours; any pour: 0.036; missed bond of pour 3: 0.09
    for words in ["about 1 in 42", "about 1 in 28", "about 1 in 11", "95 in 100", "fewer than 1 in 1000"]:
        assert words in found[0]
    assert "Pour 2 stands near a cliff" in found[0]
    assert "Pour 1 stands near a cliff" not in found[0]
    assert "16 °C at night: 3 pours instead of 4." in " ".join(pages(plan))


def test_a_number_of_pours_without_a_plan_says_what_failed_and_by_how_much() -> None:
    found = " ".join(pages(sure_plan()))
    assert "fails: the hottest place goes over the limit by 24 °C or more" in found
    assert "fails: the hottest place goes over the limit by 8 °C or more" in found


def test_levels_of_other_plans_are_told_in_both_readings() -> None:
    found = " ".join(pages(sure_plan()))
    assert "150, 300, 450 mm (300, 150, 0 mm)" in found


def test_a_bond_that_is_void_has_no_chance_of_being_missed() -> None:
    document = sure_document() | {"soft": soft_document()["soft"]}
    found = next(text for text in pages(PlanDocument.model_validate(document)) if "How sure" in text)
    assert found.count("void: its top blushes wash and sand it") == 1


def test_one_pour_alone_has_no_bond_to_miss() -> None:
    assert not any("a bond is missed" in text for text in pages(sure_plan(1)))
    assert any("a bond is missed" in text for text in pages(sure_plan(2)))


def test_a_top_that_is_sanded_as_planned_misses_no_bond() -> None:
    document = sure_document()
    document["pours"][2]["sand_first"] = True
    found = next(text for text in pages(PlanDocument.model_validate(document)) if "How sure" in text)
    assert found.count("as planned: sand it") == 1


def test_the_last_lines_name_method_doubts_draws_and_seed() -> None:
    plan = sure_plan()
    assert plan.chances is not None
    found = " ".join(pages(plan))
    assert plan.chances.method in found
    for words in [
        "200 draws from seed 0",
        "92 heat runs",
        "20 of them were kept apart",
        "340 J/g (316 to 364)",
    ]:
        assert words in found
    assert {each.words for each in plan.chances.doubts} == {
        each.words for each in plan.chances.doubts if each.words in found
    }


def test_a_plan_without_chances_has_neither_page_nor_drawing() -> None:
    assert not any("How sure is this plan" in text for text in pages(sample_plan()))
    assert not any(name.startswith(("what-matters", "pours-days")) for name in draw_all(sample_plan()))


@pytest.mark.parametrize("missing", ["rankings", "compared", "notes", "doubts", "pours"])
def test_the_page_stands_without_one_of_its_parts(missing: str) -> None:
    document = sure_document(2)
    document["chances"][missing] = []
    texts = pages(PlanDocument.model_validate(document))
    assert sum("How sure is this plan" in text for text in texts) == 1


@pytest.mark.parametrize(
    ("chance", "told"),
    [
        (0.0004, "fewer than 1 in 1000"),
        (0.0057, "about 1 in 180"),
        (0.05, "about 1 in 20"),
        (0.3, "about 1 in 3"),
        (0.62, "about 6 in 10"),
        (0.99, "nearly all"),
    ],
)
def test_chances_are_told_as_one_in_so_many(chance: float, told: str) -> None:
    assert chance_words(chance) == told


@settings(max_examples=60, deadline=None)
@given(INPUTS, st.sampled_from([NARROW, WIDE]))
def test_bars_are_as_long_as_their_shares_and_the_longest_comes_first(
    inputs: list[tuple[str, float, float]], width: float
) -> None:
    svg = matters(with_ranking(inputs), width)
    assert_readable(svg)
    totals = sorted((total for _, _, total in inputs), reverse=True)
    shown = [total for total in totals if total >= 0.01] or totals[:1]
    drawn = bars(svg, OUTER)
    assert len(drawn) == len(shown)
    assert all(longer >= shorter for longer, shorter in pairwise(drawn))
    whole = float(re.findall(r'<text x="([\d.]+)"[^>]*>100</text>', svg)[0])
    nothing = float(re.findall(r'<text x="([\d.]+)"[^>]*>0 %</text>', svg)[0])
    for total, bar in zip(shown, drawn, strict=True):
        assert math.isclose(bar, min(max(total, 0.0), 1.0) * (whole - nothing), abs_tol=0.02)


def test_the_share_alone_is_a_bar_within_the_bar() -> None:
    svg = matters(with_ranking([("speed of the resin", 0.4, 0.5), ("shop", 0.1, 0.2)]))
    inner, outer = bars(svg, INNER), bars(svg, OUTER)
    assert math.isclose(inner[0] / outer[0], 0.8, abs_tol=0.01)
    assert math.isclose(inner[1] / outer[1], 0.5, abs_tol=0.01)
    told = [words for words, _ in frames(svg)]
    assert {"50 %", "20 %", "nine of ten heat runs kept apart agree within 0.6 °C"} <= set(told)


@settings(max_examples=60, deadline=None)
@given(PLANS)
def test_plans_stand_at_their_days_and_chance_and_no_label_lies_on_another(
    points: list[tuple[float, float]],
) -> None:
    svg = draw_compared(with_compared(points))
    assert svg is not None
    assert_readable(svg)
    told = {words for words, _ in frames(svg)}
    assert {f"{i} pours" if i > 1 else "1 pour" for i in range(1, len(points) + 1)} <= told


def test_days_run_to_the_right_and_rarer_runs_down_by_powers_of_ten() -> None:
    svg = draw_compared(with_compared([(5.0, 0.1), (7.0, 0.01), (9.0, 0.0)]))
    assert svg is not None
    marks = re.findall(r'd="M([\d.-]+) ([\d.-]+)a4', svg)[2:]
    (x1, y1), (x2, y2), (x3, y3) = ((float(x), float(y)) for x, y in marks)
    assert math.isclose(x2 - x1, x3 - x2, abs_tol=0.02)
    # a tenth, a hundredth, and nothing, which stands at the lowest line
    assert math.isclose(y2 - y1, y3 - y2, abs_tol=0.02)
    assert y1 < y2
    assert height_of(0.0) == math.log10(LEAST)


def test_the_chosen_number_of_pours_is_filled() -> None:
    svg = draw_compared(with_compared([(5.0, 0.1), (7.0, 0.01)]))
    assert svg is not None
    fills = re.findall(r'd="M[\d.-]+ [\d.-]+a4[^"]*" fill="(#\w+)"', svg)[2:]
    assert fills == ["#1a1a1a", "#ffffff"]


def test_one_plan_alone_needs_no_chart() -> None:
    assert draw_compared(with_compared([(5.0, 0.1)])) is None


def test_drawings_of_the_sample_are_readable_in_both_units() -> None:
    for units in ("metric", "us"):
        for count in (1, 4, 12):
            for svg in draw_all(sure_plan(count, units=units)).values():
                assert_readable(svg)
