"""Charts of a plan: their numbers are the plan's, their rows the calendar's, their drawings whole."""

import csv
import io
import json
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from pourwright.app.charting.charts import CHARTS, Charted, chart_csv, chart_of, chart_svg, charted
from pourwright.foundation.errors import UserError
from pourwright.jobs.plan import PlanDocument
from tests.sheets.sample_chances import sure_plan
from tests.sheets.sample_plan import sample_document, sample_plan

INCH, GALLON = 0.0254, 3.785411784e-3


def rows_of(about: Charted, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(chart_csv(about, name), newline="")))


def test_fahrenheit_in_an_american_shop() -> None:
    plan = sample_plan(units="us")
    row = rows_of(Charted(plan, None), "heat")[0]
    celsius = plan.pours[0].history.hottest_degC[0]
    assert float(row["hottest place [°F]"]) == pytest.approx(celsius * 9 / 5 + 32, abs=5.1e-3)


def test_both_readings_of_a_level_add_up_to_the_height() -> None:
    plan = sample_plan()
    for row in rows_of(Charted(plan, None), "level"):
        both = float(row["height, as poured [mm]"]) + float(row["height, as it stands [mm]"])
        assert both == pytest.approx(1000 * plan.piece.height_m)
    (axis,) = chart_of(Charted(plan, None), "level").axes
    for tick in axis.also:
        assert 1000 * (plan.piece.height_m - tick.at) == pytest.approx(float(tick.words))


def test_inches_and_gallons_in_an_american_shop() -> None:
    plan = sample_plan(units="us")
    last = rows_of(Charted(plan, None), "level")[-1]
    assert float(last["height, as poured [in]"]) == pytest.approx(plan.piece.height_m / INCH, abs=1e-3)
    assert float(last["mold holds [gallon]"]) == pytest.approx(
        plan.dip_stick[-1].cavity_m3 / GALLON, abs=1e-3
    )


def test_nights_and_weekends_are_told() -> None:
    document = sample_document(1)
    document["job"] |= {
        "opens": "08:00",
        "closes": "18:00",
        "working_days": ["mon", "tue", "wed", "thu", "fri"],
    }
    starts = {
        "2026-12-01T09:00:00+01:00": "yes",
        "2026-12-01T21:00:00+01:00": "no",
        "2026-12-05T09:00:00+01:00": "no",
    }
    base = document["calendar"][0]
    document["calendar"] = [base | {"start": start, "end": start, "kind": "check"} for start in starts]
    about = Charted(PlanDocument.model_validate(document), None)
    assert [row["somebody is there at its start"] for row in rows_of(about, "calendar")] == list(
        starts.values()
    )
    shades = chart_of(about, "calendar").more["shades"]
    rows = chart_of(about, "calendar").more["rows"]
    shaded = [any(shade["from"] <= row["from"] < shade["to"] for shade in shades) for row in rows]
    assert shaded == [False, True, True]
    # Tuesday to Saturday: a night before and one after on four days, and one day off
    assert [shade["kind"] for shade in shades] == ["night"] * 8 + ["off"]


def test_a_day_of_23_hours_is_told() -> None:
    document = sample_document(1)
    document["calendar"] = [
        document["calendar"][0] | {"start": "2027-03-27T09:00:00+01:00", "end": "2027-03-28T12:00:00+02:00"}
    ]
    chart = chart_of(Charted(PlanDocument.model_validate(document), None), "calendar")
    assert "23 h" in chart.notes[0]


def test_a_quick_plan_says_that_nothing_is_known_of_what_matters() -> None:
    about = Charted(sample_plan(), None)
    assert about.plan.chances is None
    assert "likeliest numbers" in chart_of(about, "matters").words
    with pytest.raises(UserError, match="likeliest numbers"):
        chart_svg(about, "matters")


@pytest.mark.parametrize("name", sorted(CHARTS))
def test_each_chart_is_a_drawing_a_table_and_json(name: str) -> None:
    about = Charted(sure_plan(), None)
    drawing = ET.fromstring(chart_svg(about, name))
    assert drawing.tag.endswith("svg")
    assert about.plan.job.title in drawing.findtext("{http://www.w3.org/2000/svg}title")
    chart = chart_of(about, name)
    assert json.loads(json.dumps(chart.to_json(), allow_nan=False))["title"] == chart.title
    assert {len(row) for row in chart.table.rows} == {len(chart.table.header)}
    for series in chart.series:
        assert len(series.values) == len(series.texts) == len(chart.x.values)


def test_lines_of_the_csv_end_and_name_their_plan() -> None:
    text = chart_csv(Charted(sample_plan(), None), "level")
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert all(
        row["source"].startswith("pourwright ") for row in rows_of(Charted(sample_plan(), None), "level")
    )


def test_a_name_that_is_no_chart_is_refused() -> None:
    with pytest.raises(UserError, match="heat, level, calendar, matters"):
        chart_of(Charted(sample_plan(), None), "../plan")


def test_a_folder_without_a_plan_is_told(tmp_path: Path) -> None:
    with pytest.raises(UserError, match="plan"):
        charted(tmp_path)
