"""A value with its band reads the same wherever it stands; without one all stays as it was."""

import re

import pytest
from hypothesis import given, strategies as st

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import draw_all, plan_pdf
from pourwright.sheets.wording import Wording, with_band
from tests.sheets.printed import words_of
from tests.sheets.sample_chances import sure_document, with_bands
from tests.sheets.sample_plan import sample_document, sample_plan


def text_of(document: dict[str, object]) -> str:
    return " ".join(words_of(plan_pdf(PlanDocument.model_validate(document))))


def test_peak_gel_bond_and_demold_are_told_with_their_bands() -> None:
    text = text_of(with_bands(sample_document()))
    # pour 2 peaks at 47 + 3.5 sin(4) = 44.35 °C, band -5 and +7
    assert text.count("44 °C (39 to 51)") >= 2
    assert "limit 60 °C" in text
    # 15.5 h, 0.9 and 1.14 of it to the quarter of an hour
    assert "All gelled, to the last corner, 15 h 30 min (14 h to 17 h 45 min) after the start." in text
    assert "17 h (15 h 15 min to 19 h 30 min) to 1 day 7 h (1 day 4 h to 1 day 11 h) after its start" in text
    assert "6 days (5 days 2 h to 7 days 7 h) after the last pour starts" in text
    assert "(hard between Wed 9 Dec and Fri 11 Dec)" in text


def test_the_day_of_demolding_says_in_how_many_castings_it_is_hard() -> None:
    document = sure_document()
    document["demold"]["kept_after_h"] = 180.0
    kept = "after the last pour starts, to be sure in 95 in 100 after 7 days 12 h, on Thu 10 Dec, 09:00"
    assert kept in text_of(document)
    assert "to be sure" not in text_of(with_bands(sample_document()))


def test_the_hottest_pour_stands_with_its_band_on_the_first_page() -> None:
    first = words_of(plan_pdf(PlanDocument.model_validate(sure_document())))[0]
    # pour 4: 47 + 3.5 sin(8) = 50.46 °C
    assert "50 °C (45 to 57)" in first


def test_charts_show_the_band_at_each_peak() -> None:
    drawings = draw_all(PlanDocument.model_validate(with_bands(sample_document())))
    assert ">44 °C (39 to 51)<" in drawings["temperature-pour-02.svg"]
    assert all(
        f">{words}<" in drawings["temperature.svg"] for words in ["50 °C (45 to 57)", "44 °C (39 to 51)"]
    )


def test_without_bands_no_bracket_is_printed() -> None:
    for svg in (draw_all(sample_plan())[name] for name in ("temperature.svg", "temperature-pour-02.svg")):
        assert not re.search(r"°C \(\d", svg)


@pytest.mark.parametrize("count", [1, 4, 12])
def test_a_band_far_above_the_limit_stays_on_the_chart(count: int) -> None:
    document = with_bands(sample_document(count))
    document["pours"][0]["peak_temperature_degC_p90"] = 190.0
    svg = draw_all(PlanDocument.model_validate(document))["temperature.svg"]
    strokes = re.findall(r'd="M[\d.-]+ ([\d.-]+)h5M[\d.-]+ [\d.-]+V([\d.-]+)', svg)
    assert len(strokes) == count
    assert all(24.0 <= float(high) < float(low) for high, low in strokes)


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        ("49 °C", "61 °C", "54 °C (49 to 61)"),
        (None, "61 °C", "54 °C (up to 61)"),
        ("49 °C", None, "54 °C (49 or more)"),
        (None, None, "54 °C"),
        ("54 °C", "54 °C", "54 °C"),
    ],
)
def test_a_band_is_one_bracket(low: str | None, high: str | None, told: str) -> None:
    assert with_band("54 °C", low, high) == told


@given(st.floats(-50.0, 400.0), st.floats(0.0, 80.0), st.sampled_from(["metric", "us"]))
def test_both_ends_of_a_band_can_be_read_back(value: float, width: float, units: str) -> None:
    words = Wording(sample_plan(1, units=units).job)
    told = words.banded_temperature(value, value - width, value + width)
    numbers = [int(number) for number in re.findall(r"-?\d+", told)]
    low, high = (words.degrees(end) for end in (value - width, value + width))
    if len(numbers) == 3:
        assert abs(numbers[1] - low) <= 0.5001
        assert abs(numbers[2] - high) <= 0.5001
    else:
        assert abs(high - low) <= 1.001


@pytest.mark.parametrize(
    ("value", "unit", "told"),
    [
        (325.15, "K", "52 °C"),
        (10.0, "K difference", "10.0 °C"),
        (1.528e-5, "1/s", "1.53\u00a0×\u00a010⁻⁵ 1/s"),
        (54000.0, "J/mol", "54,000 J/mol"),
        (1650.0, "J/(kg K)", "1,650 J/(kg\u00a0K)"),
        (8.2, "W/(m2 K)", "8.2 W/(m²\u00a0K)"),
        (0.0, "", "0"),
        (7200.0, "s", "2 h"),
    ],
)
def test_a_doubtful_number_is_told_in_the_maker_s_units(value: float, unit: str, told: str) -> None:
    assert Wording(sample_plan(1).job).told(value, unit) == told
