"""What a logger saw against what the plan said: numbers by closed forms, words for the maker."""

import csv
import io
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.places import book_place
from pourwright.app.measuring.attaching import take_logger_back
from pourwright.app.measuring.measured import measured_of
from pourwright.app.measuring.of_job import log_logger, measured_job
from pourwright.app.measuring.shown import measured_csv, measured_svg
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.records import open_book, readings_of
from pourwright.sheets.wording import Wording
from tests.app.booking.conftest import write_plan
from tests.app.measuring.conftest import BEGUN, FRESH, MIDDLE_SHARE, PLAN, POUR, hottest

Written = Callable[..., Path]
PEAK, AFTER = POUR.peak_temperature_degC, POUR.peak_after_h


def only(report: dict) -> dict:
    """The one series of the first pour."""
    (one,) = report["pours"][0]["series"]
    return one


def told(report: dict) -> str:
    return " ".join(only(report)["words"])


def test_a_logger_that_sees_what_was_planned_says_so(poured: Path, written: Written) -> None:
    one = only(log_logger(poured, written(hottest), pour=1))
    numbers = one["numbers"]
    assert numbers["peak_degC"] == pytest.approx(PEAK, abs=0.01)
    assert numbers["peak_after_h"] == pytest.approx(AFTER, abs=0.1)
    # straight lines between the half hours of the plan
    assert numbers["rms_K"] == pytest.approx(0.0, abs=0.1)
    assert numbers["side"] == "inside"
    assert (numbers["over_from_h"], numbers["rising"]) == (None, False)
    assert one["words"][0].startswith("Peaked as planned: ")
    assert "within what eight in ten such pours do" in one["words"][1]
    assert "did not go over the limit of 60 °C" in one["words"][2]
    assert one["words"][-1] == "The shop learns from it: pourwright book learn."


def test_lower_and_later_is_a_cooler_shop_and_the_next_pour_waits(poured: Path, written: Written) -> None:
    report = log_logger(poured, written(lambda hour: hottest(hour - 2.0) - 4.0, hours=(0.0, 22.0)), pour=1)
    numbers = only(report)["numbers"]
    assert numbers["warmer_K"] == pytest.approx(-4.0, abs=0.05)
    assert numbers["later_h"] == pytest.approx(2.0, abs=0.1)
    assert numbers["shift_h"] == pytest.approx(2.0, abs=0.1)
    # moved by two hours the curves lie four kelvins apart throughout
    assert numbers["rms_shifted_K"] == pytest.approx(4.0, abs=0.1)
    words = told(report)
    assert "Peaked 4 °C lower and 2 h later than planned" in words
    assert "The resin or the shop was cooler than planned." in words
    # the peak came in the share 2 / AFTER later, and so does all that waits for cure
    quarters = round(4.0 * numbers["later_h"] / AFTER * POUR.bonds_from_h)
    later = Wording(PLAN.job).duration(quarters / 4.0)
    assert f"Cure and the next pour come later by about {later}" in words


def test_hotter_and_earlier_over_the_limit(poured: Path, written: Written) -> None:
    limit = POUR.peak_limit_degC
    share = (limit + 5.0 - FRESH) / (PEAK - FRESH)
    report = log_logger(poured, written(lambda hour: hottest(1.6 * hour, share=share)), pour=1)
    numbers = only(report)["numbers"]
    assert numbers["peak_degC"] == pytest.approx(limit + 5.0, abs=0.01)
    assert numbers["peak_after_h"] == pytest.approx(AFTER / 1.6, abs=0.05)
    assert numbers["side"] == "above"
    assert numbers["over_from_h"] < AFTER / 1.6 < numbers["over_until_h"]
    words = told(report)
    assert "hotter than nine in ten such pours get" in words
    assert "It went over the limit of 60 °C by 5 °C, from" in words
    assert "come earlier by about" in words


def test_pulled_out_too_early_no_peak_is_known(poured: Path, written: Written) -> None:
    report = log_logger(poured, written(hottest, hours=(0.0, AFTER / 2)), pour=1)
    assert only(report)["numbers"]["rising"]
    assert "Still rising at its last reading" in told(report)
    assert "Leave the logger in until it is cool again" in told(report)


STAMPS = {
    "shop's clock": lambda at: at.strftime("%Y-%m-%d %H:%M:%S"),
    "with its zone": lambda at: at.astimezone(UTC).isoformat(),
    "another zone": lambda at: at.astimezone(ZoneInfo("America/New_York")).isoformat(),
    "German": lambda at: at.strftime("%d.%m.%Y %H:%M"),
    "seconds since 1970": lambda at: f"{at.timestamp():.0f}",
}


@pytest.mark.parametrize("name", STAMPS)
def test_usual_times_are_the_same_moments(poured: Path, written: Written, name: str) -> None:
    numbers = only(log_logger(poured, written(hottest, stamp=STAMPS[name]), pour=1))["numbers"]
    assert numbers["peak_after_h"] == pytest.approx(AFTER, abs=0.1)


def test_counted_times_count_from_the_pour_or_from_what_is_told(poured: Path, written: Written) -> None:
    def counted(at: datetime) -> str:
        return f"{(at - BEGUN).total_seconds() / 60:.0f}"

    own = written(hottest, stamp=counted, titles="minutes,core [°C]", hours=(0.0, 20.0))
    numbers = only(log_logger(poured, own, pour=1))["numbers"]
    assert numbers["peak_after_h"] == pytest.approx(AFTER, abs=0.1)
    late = written(
        lambda hour: hottest(hour - 1.0), stamp=counted, titles="minutes,T2 [°C]", hours=(5.0, 20.0)
    )
    with pytest.raises(UserError, match="does not say on which day") as refused:
        log_logger(poured, late, pour=1)
    assert "logger.csv:2" in str(refused.value)
    # its first row was read at 13:00, four hours after the pour: there it says what was five hours after
    report = log_logger(poured, late, pour=1, at="2026-11-20 13:00")
    (_, other) = report["pours"][0]["series"]
    assert other["numbers"]["peak_after_h"] == pytest.approx(AFTER, abs=0.1)


def test_a_night_in_which_the_clocks_are_set_back_is_an_hour_longer(poured: Path, written: Written) -> None:
    begun = datetime(2026, 10, 24, 22, 0, tzinfo=ZoneInfo("Europe/Berlin"))
    enter(poured, book_place(poured), [Said(kind="demolded", at=BEGUN + timedelta(days=4))])
    enter(poured, book_place(poured), [Said(kind="poured", value=2.6, at=begun, casting=2, pour=1)])
    # the logger goes on as it was set; with its zone, or none
    summer = timedelta(hours=2)
    for stamp in (lambda at: at.isoformat(), lambda at: f"{at.astimezone(UTC) + summer:%Y-%m-%d %H:%M}"):
        file = written(hottest, stamp=stamp, begun=begun)
        (one, *_) = log_logger(poured, file, casting=2, pour=1)["pours"][0]["series"]
        assert one["numbers"]["peak_after_h"] == pytest.approx(AFTER, abs=0.1)
        take_logger_back(poured, one["id"])


def test_fahrenheit_is_the_same_warmth(poured: Path, written: Written) -> None:
    file = written(lambda hour: 1.8 * hottest(hour) + 32.0, titles="time,core (°F)")
    assert only(log_logger(poured, file, pour=1))["numbers"]["peak_degC"] == pytest.approx(PEAK, abs=0.01)
    bare = written(lambda hour: 1.8 * hottest(hour) + 32.0, titles="time,core")
    with pytest.raises(UserError, match="whether its temperatures are in °C or °F"):
        log_logger(poured, bare, pour=1)
    with pytest.raises(UserError, match="says degF, you say degC"):
        log_logger(poured, written(hottest, titles="time,core (°F)"), pour=1, unit="degC")


def test_each_place_is_compared_with_its_own_curve(poured: Path, written: Written) -> None:
    x, _, z = (1000 * each for each in PLAN.piece.centroid_m)
    file = written(
        lambda hour: hottest(hour, share=MIDDLE_SHARE),
        lambda _: FRESH,
        lambda _: FRESH - 3.0,
        titles="time,core [°C],edge [°C],room air [°C]",
    )
    probes = [f"core={z:.1f} mm", f"edge={x + 20:.1f} mm, 0 mm, {z:.1f} mm"]
    report = log_logger(poured, file, probes, pour=1)
    core, edge, air = report["pours"][0]["series"]
    # half precision of the heat file
    assert core["numbers"]["planned_degC"] == pytest.approx(hottest(AFTER, share=MIDDLE_SHARE), abs=0.1)
    assert core["numbers"]["rms_K"] == pytest.approx(0.0, abs=0.1)
    assert edge["numbers"]["planned_degC"] == pytest.approx(FRESH)
    assert "So little warming has no peak worth the name" in " ".join(edge["words"])
    assert air["place"] == "air"
    assert air["numbers"]["over_from_h"] is None
    assert "cooler than planned while this pour cured" in air["words"][0]


def test_a_place_of_an_older_plan_is_compared_with_the_hottest_and_told(
    poured: Path, written: Written
) -> None:
    write_plan(poured, title="Second try")
    one = only(log_logger(poured, written(hottest), ["core=middle"], pour=1))
    assert one["compared_with"] == "the hottest place of the casting"
    assert "kept with the latest plan only" in one["words"][-1]


def test_the_same_file_twice_is_there_once_and_taken_back_it_is_kept(poured: Path, written: Written) -> None:
    file = written(hottest)
    first = log_logger(poured, file, pour=1)["attached"]
    again = log_logger(poured, file, pour=1)
    assert again["attached"] == first
    assert len(again["pours"][0]["series"]) == 1
    back = measured_job(poured, take_back=first[0])
    assert only(back)["taken_back"]
    with open_book(book_place(poured)) as book:
        assert len(readings_of(book, first[0])) == 21 * 20 + 1
    assert only(log_logger(poured, file, pour=1))["taken_back"] is None
    with pytest.raises(NotThereError, match="no series 99"):
        take_logger_back(poured, 99)


def test_a_series_of_another_job_is_not_shown_and_not_taken_back(poured: Path, written: Written) -> None:
    (number,) = log_logger(poured, written(hottest), pour=1)["attached"]
    other = poured.parent / "lamp"
    write_plan(other)
    for act in (take_logger_back, measured_svg, measured_csv):
        with pytest.raises(NotThereError, match="this job has no series"):
            act(other, number)


BAD: dict[str, tuple[dict, dict, str]] = {
    "a pour that has not begun": ({}, {"pour": 2}, "pour 2 has not begun"),
    "a piece that was not cast": ({}, {"casting": 7}, "no pour has begun"),
    "before the pour": ({"hours": (-9.0, -1.0)}, {}, "before pour 1 went in"),
    "long after": ({"hours": (200.0, 209.0)}, {}, "long after pour 1 went in"),
    "still to come": ({}, {"at": "2126-11-20 09:00"}, "is still to come"),
    "an unknown sensor": ({}, {"probes": ["deep=middle"]}, "no sensor 'deep'; allowed: core"),
    "an unknown place": ({}, {"probes": ["core=left leg"]}, "'left leg' is no place of a sensor"),
    "no casting there": ({}, {"probes": ["core=9 m"]}, "lies outside the casting's box"),
    "no place": ({}, {"probes": ["core"]}, "'core' says no place"),
    "all left out": ({}, {"probes": ["core=none"]}, "no sensor is left"),
    "an unknown unit": ({}, {"unit": "K"}, "'K' is not known; allowed: degC, degF"),
}


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_is_refused_and_nothing_is_kept(poured: Path, written: Written, name: str) -> None:
    made, given, message = BAD[name]
    with pytest.raises(UserError) as refused:
        log_logger(poured, written(hottest, **made), **given)
    assert message in str(refused.value)
    assert "\n" not in str(refused.value)
    with open_book(book_place(poured)) as book:
        assert book.number("SELECT count(*) FROM series") == book.number("SELECT count(*) FROM readings") == 0


@pytest.mark.parametrize(
    ("row", "message"),
    [
        ("2026-11-21T12:00:00+01:00,hot", ":423: 'hot' is no temperature"),
        ("2026-11-21T12:00:00+01:00", ":423: a row of 1 columns"),
        ("2026-11-21T12:00:00+01:00,999", ":423: 999 °C: the sensor 'core' was broken"),
        ("2026-11-19T12:00:00+01:00,22", ":423: time goes back"),
    ],
)
def test_a_damaged_row_is_told_by_its_line(poured: Path, written: Written, row: str, message: str) -> None:
    file = written(hottest)
    # 21 hours with twenty rows each under the title
    text = file.read_text("utf8") + f"{row}\r\n2026-11-22T12:00:00+01:00,22\r\n"
    file.write_text(text, "utf8")
    with pytest.raises(UserError) as refused:
        log_logger(poured, file, pour=1)
    assert message in str(refused.value)


def test_more_than_a_million_rows_are_refused(
    poured: Path, written: Written, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("pourwright.app.measuring.logger_file.MOST_ROWS", 400)
    with pytest.raises(UserError, match=r"holds 421 rows of readings.*400 or fewer"):
        log_logger(poured, written(hottest), pour=1)


def test_a_pour_is_compared_until_the_next_one_goes_in(poured: Path, written: Written) -> None:
    enter(
        poured, book_place(poured), [Said(kind="poured", value=1.6, at=BEGUN + timedelta(hours=18), pour=2)]
    )
    # the second pour warms it again, hotter than the first
    file = written(lambda hour: hottest(hour) + (90.0 if hour > 18.5 else 0.0))
    numbers = only(log_logger(poured, file, pour=1))["numbers"]
    assert numbers["peak_degC"] == pytest.approx(PEAK, abs=0.01)
    assert numbers["hours"] == pytest.approx(18.0, abs=0.02)


def test_drawing_and_table_show_the_peak_of_a_long_series(poured: Path, written: Written) -> None:
    (number,) = log_logger(poured, written(lambda hour: 200.0 if hour == 3.0 else hottest(hour)), pour=1)[
        "attached"
    ]
    rows = list(csv.reader(io.StringIO(measured_csv(poured, number), newline="")))
    assert rows[0][:4] == ["after the pour went in [h]", "shop's clock", "measured [°C]", "planned [°C]"]
    assert ["3.0000", "2026-11-20T12:00:00+01:00", "200.00"] in [row[:3] for row in rows]
    drawing = measured_svg(poured, number)
    assert "limit 60 °C" in drawing
    assert "measured" in drawing
    made = measured_job(poured, out=poured / "measured")["files"]
    assert [Path(each).name for each in made] == [f"measured-{number}.csv", f"measured-{number}.svg"]


def test_nothing_attached_is_an_answer(poured: Path) -> None:
    report = measured_of(poured)
    assert [(pour["pour"], pour["series"]) for pour in report["pours"]] == [(1, [])]
