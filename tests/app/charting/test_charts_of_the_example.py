"""Charts of the example's plan: numbers, places, levels and calendar are those of its files."""

import csv
import io
import json
from datetime import UTC, datetime

import numpy as np
import pytest
from icalendar import Calendar

from pourwright.app.charting.charts import Charted, chart_csv, chart_of, charted
from pourwright.app.planning import PlanDocuments
from pourwright.sheets import calendar_text

pytestmark = pytest.mark.xdist_group("example")
INCH, GALLON = 0.0254, 3.785411784e-3


def rows_of(about: Charted, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(chart_csv(about, name), newline="")))


@pytest.fixture
def real(stool: PlanDocuments) -> Charted:
    folder = next(path.parent for path in stool.files if path.name == "plan.json")
    return charted(folder)


@pytest.fixture
def sure(lamp: PlanDocuments) -> Charted:
    """One with its chances."""
    return charted(next(path.parent for path in lamp.files if path.name == "plan.json"))


def raw_plan(made: PlanDocuments) -> dict:
    path = next(path for path in made.files if path.name == "plan.json")
    return json.loads(path.read_text("utf8"))


def test_the_heat_csv_reads_back_to_the_histories_of_the_plan(real: Charted, stool: PlanDocuments) -> None:
    rows = rows_of(real, "heat")
    told = [
        row
        for pour in raw_plan(stool)["pours"]
        for row in zip(
            *(pour["history"][key] for key in ("time_h", "hottest_degC", "least_cured")), strict=True
        )
    ]
    assert len(rows) == len(told)
    for row, (time, hottest, cured) in zip(rows, told, strict=True):
        assert float(row["after the first pour [h]"]) == pytest.approx(time, abs=5.1e-4)
        assert float(row["hottest place [°C]"]) == pytest.approx(hottest, abs=5.1e-3)
        assert float(row["least-cured place [%]"]) == pytest.approx(100.0 * cured, abs=5.1e-3)


def test_no_place_is_hotter_than_the_hottest_or_colder_than_the_coolest(real: Charted) -> None:
    chart = chart_of(real, "heat")
    values = {series.key: np.array(series.values, dtype=float) for series in chart.series}
    # as a pour goes in, its own place is as it comes from the pail, the ends are those of what lies below
    begins = np.isin(chart.x.values, [mark.at for mark in chart.marks if mark.kind == "pour"])
    # a cell's mean and half precision stand between
    slack = 0.3
    for key in ("middle", "top", "face"):
        there = np.isfinite(values[key]) & ~begins
        assert there.any(), key
        assert np.all(values[key][there] <= values["hottest"][there] + slack), key
        assert np.all(values[key][there] >= values["coolest"][there] - slack), key


def test_shop_air_is_the_one_of_the_plan(real: Charted) -> None:
    (air,) = [series for series in chart_of(real, "heat").series if series.key == "air"]
    assert min(real.plan.heat.air_degC) <= min(air.values) <= max(air.values) <= max(real.plan.heat.air_degC)


def test_limits_and_pours_stand_where_the_plan_says(real: Charted) -> None:
    chart, plan = chart_of(real, "heat"), real.plan
    start = datetime.fromisoformat(plan.pours[0].start)
    starts = [(datetime.fromisoformat(pour.start) - start).total_seconds() / 3600 for pour in plan.pours]
    assert [mark.at for mark in chart.marks if mark.kind == "pour"] == pytest.approx(starts)
    assert plan.pours[0].peak_limit_degC in [limit.at for limit in chart.limits]


def test_bands_are_those_of_the_plan(sure: Charted) -> None:
    peaks = [(band.low, band.high) for band in chart_of(sure, "heat").bands if band.kind == "peak"]
    (pour,) = sure.plan.pours
    assert peaks == [(pour.peak_temperature_degC_p10, pour.peak_temperature_degC_p90)]


def test_the_level_ends_at_the_volume_of_the_piece(real: Charted) -> None:
    chart, piece = chart_of(real, "level"), real.plan.piece
    assert chart.x.values[-1] == pytest.approx(piece.volume_m3, rel=2e-3)
    (cavity,) = [series for series in chart.series if series.key == "cavity"]
    assert cavity.values[-1] == pytest.approx(piece.height_m, rel=1e-6)
    last = rows_of(real, "level")[-1]
    assert float(last["mold holds [l]"]) == pytest.approx(1000 * piece.volume_m3, rel=2e-3)
    # what fits in besides the glass is what its bands leave open
    open_space = sum(band.volume_m3 * band.void_fraction for band in real.plan.fill.bands)
    assert float(last["liquid with the glass in [l]"]) == pytest.approx(1000 * open_space, rel=5e-3)


def test_the_table_names_the_pours_that_end_at_a_level(real: Charted) -> None:
    ends = "; ".join(row["what ends here"] for row in rows_of(real, "level"))
    assert all(f"pour {pour.number}" in ends for pour in real.plan.pours)


def test_calendar_rows_are_the_entries_of_the_calendar_file(real: Charted) -> None:
    events = list(Calendar.from_ical(calendar_text(real.plan)).walk("VEVENT"))
    rows = chart_of(real, "calendar").more["rows"]
    table = rows_of(real, "calendar")
    assert len(events) == len(rows) == len(table)
    for event, row, line in zip(events, rows, table, strict=True):
        assert str(event["SUMMARY"]).endswith(row["title"])
        assert str(event["DESCRIPTION"]) == line["detail"]
        for start in (row["start"], line["start"]):
            assert datetime.fromisoformat(start).astimezone(UTC) == event.decoded("DTSTART")


def test_rows_keep_the_order_of_time_along_the_line(real: Charted) -> None:
    rows = chart_of(real, "calendar").more["rows"]
    places = [row["from"] for row in rows]
    assert places == sorted(places)
    assert all(0.0 <= row["from"] <= row["to"] <= 1.0 for row in rows)


def test_what_matters_is_ranked_and_written_out(sure: Charted, lamp: PlanDocuments) -> None:
    chart, rows = chart_of(sure, "matters"), rows_of(sure, "matters")
    for told, raw in zip(chart.more["rankings"], raw_plan(lamp)["chances"]["rankings"], strict=True):
        totals = [share["total"] for share in told["shares"]]
        assert totals == sorted(totals, reverse=True)
        assert max(share["total"] for share in raw["shares"]) == totals[0]
        written = {row["what"]: row["alone [%]"] for row in rows if row["of what"] == raw["words"]}
        for share in raw["shares"]:
            assert float(written[share["words"]]) == pytest.approx(100 * share["first"], abs=5.1e-3)
