"""The calendar as a timeline: true to time, to the shop's hours, and to both changes of the clocks."""

import math
import re
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree as ET
from zoneinfo import ZoneInfo

import pytest
from hypothesis import example, given, settings, strategies as st

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets.calendar_drawing import BOND_TONE, NAMES, TIMES, WIDTH, bond_slices, draw_calendar
from pourwright.sheets.calendar_ground import NIGHT_TONE, OFF_TONE
from pourwright.sheets.timeline import HOUR, time_line
from tests.sheets.sample_chances import with_bands
from tests.sheets.sample_plan import sample_document
from tests.sheets.sample_soft import soft_document
from tests.sheets.test_chances import assert_readable
from tests.sheets.test_drawings import SVG, frames

BERLIN = ZoneInfo("Europe/Berlin")
WEEK = {"opens": "08:00", "closes": "18:00", "working_days": ["mon", "tue", "wed", "thu", "fri"]}
STARTS = st.integers(0, 24 * 200)


def at(*words: int) -> datetime:
    return datetime(*words, tzinfo=BERLIN)


def entry(start: datetime, hours: float, title: str, kind: str = "mold") -> dict[str, str]:
    end = (start.astimezone(UTC) + hours * HOUR).astimezone(BERLIN)
    return {"start": start.isoformat(), "end": end.isoformat(), "title": title, "detail": "", "kind": kind}


def calendar(entries: list[dict[str, str]], **job: Any) -> str:
    """The one drawing of a plan of one pour, which lies within the first entry."""
    document = sample_document(1, **(WEEK | job))
    document["pours"][0]["start"] = entries[0]["start"]
    document["demold"] |= {"at": None, "after_h": None}
    document["calendar"] = entries
    return draw_calendar(PlanDocument.model_validate(document))[0]


def rects(svg: str, tone: str) -> list[tuple[float, float]]:
    """Left and width of what has one tone, without the legend, which lies lowest."""
    found = [node.attrib for node in ET.fromstring(svg).iter(f"{SVG}rect") if node.attrib.get("fill") == tone]
    lowest = max((float(each["y"]) for each in found), default=0.0)
    return [(float(e["x"]), float(e["width"])) for e in found if float(e["y"]) < lowest]


def told(svg: str) -> list[str]:
    return [words for words, _ in frames(svg)]


@pytest.mark.parametrize(
    ("noon", "hours", "words"),
    [
        (at(2027, 3, 27, 12), 23.0, "Sun 28 Mar: clocks go forward, the day has 23 h"),
        (at(2027, 10, 30, 12), 25.0, "Sun 31 Oct: clocks go back, the day has 25 h"),
    ],
)
def test_the_day_on_which_the_clocks_change_has_its_own_width(
    noon: datetime, hours: float, words: str
) -> None:
    line = time_line(BERLIN, [(noon, noon + timedelta(days=2))], 0.0, 480.0)
    widths = [day.right - day.left for day in line.stretches]
    assert math.isclose(widths[1] / widths[0], hours / 24.0)
    assert math.isclose(widths[2], widths[0])
    svg = calendar([entry(noon, 2.0, "before"), entry(noon + timedelta(days=2), 2.0, "after")])
    assert words in told(svg)


@pytest.mark.parametrize(("sunday", "before"), [((2027, 3, 28), 7.0), ((2027, 10, 31), 9.0)])
def test_the_shop_opens_and_closes_by_the_wall_clock(sunday: tuple[int, int, int], before: float) -> None:
    day = at(*sunday)
    slots = [(day - timedelta(days=1), day + timedelta(days=1, hours=12))]
    line = time_line(BERLIN, slots, NAMES + TIMES, WIDTH - 2.0)
    every = {"working_days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}
    svg = calendar([entry(slots[0][0], 1.0, "first"), entry(slots[0][1], 0.0, "last")], **every)
    nights = rects(svg, NIGHT_TONE)
    opens, closes = (line.x(datetime(*sunday, hour, tzinfo=BERLIN)) for hour in (8, 18))
    ends = [left + width for left, width in nights]
    assert any(math.isclose(end, opens, abs_tol=0.02) for end in ends)
    assert any(math.isclose(left, closes, abs_tol=0.02) for left, _ in nights)
    # eight hours of wall clock from midnight are seven elapsed in spring and nine in autumn
    assert math.isclose(opens - line.x(day), line.day_width * before / 24.0, rel_tol=1e-9)
    assert math.isclose(closes - opens, line.day_width * 10.0 / 24.0, rel_tol=1e-9)


def test_days_off_and_weekends_are_darker_and_whole_days() -> None:
    friday = at(2027, 1, 8, 9)
    svg = calendar(
        [entry(friday, 2.0, "first"), entry(friday + timedelta(days=4), 2.0, "last")], days_off=["2027-01-11"]
    )
    widths = [width for _, width in rects(svg, OFF_TONE)]
    assert len(widths) == 3
    assert max(widths) - min(widths) < 0.05
    # Friday and Tuesday have a night on either side
    assert len(rects(svg, NIGHT_TONE)) == 4


def test_without_the_shop_s_hours_only_weekends_are_shaded() -> None:
    friday = at(2027, 1, 8, 9)
    entries = [entry(friday, 2.0, "first"), entry(friday + timedelta(days=3), 2.0, "last")]
    svg = calendar(entries, opens=None, closes=None, working_days=[])
    assert len(rects(svg, OFF_TONE)) == 2
    assert NIGHT_TONE not in svg


def test_a_long_idle_time_is_a_break_that_says_how_long() -> None:
    monday = at(2027, 1, 11, 9)
    svg = calendar([entry(monday, 2.0, "first"), entry(monday + timedelta(days=60), 2.0, "last")])
    assert "59 days" in told(svg)
    assert_readable(svg)
    short = calendar([entry(monday, 2.0, "first"), entry(monday + timedelta(days=8), 2.0, "last")])
    assert not any(words.endswith(" days") for words in told(short))


def test_hours_are_named_on_a_short_calendar_and_not_on_a_long_one() -> None:
    monday = at(2027, 1, 11, 9)
    short = calendar([entry(monday, 2.0, "first"), entry(monday + timedelta(days=2), 2.0, "last")])
    assert {"06", "12", "18"} <= set(told(short))
    entries = [entry(monday + timedelta(days=i), 2.0, f"step {i}") for i in range(0, 40, 2)]
    assert "06" not in told(calendar(entries))
    assert {"11", "18", "25"} <= set(told(calendar(entries)))


def test_a_us_shop_reads_am_and_pm() -> None:
    monday = at(2027, 1, 11, 9)
    svg = calendar(
        [entry(monday, 2.0, "first"), entry(monday + timedelta(days=2), 2.0, "last")],
        units="us",
        paper="letter",
    )
    assert {"6a", "12p", "6p", "Mon 11 Jan, 9:00 am"} <= set(told(svg))


def test_each_later_pour_has_the_band_in_which_it_bonds() -> None:
    document = sample_document(4)
    plan = PlanDocument.model_validate(document)
    assert len(rects(draw_calendar(plan)[0], BOND_TONE)) == 3
    # an entry that tells the window is the band, not a row of its own
    first = document["pours"][0]
    window = {
        "start": first["next_from"],
        "end": first["next_until"],
        "title": "Pour 2 bonds",
        "kind": "wait",
    }
    document["calendar"].append(window | {"detail": ""})
    assert "Pour 2 bonds" not in told(draw_calendar(PlanDocument.model_validate(document))[0])


def test_a_top_that_blushes_has_no_band_in_which_it_bonds() -> None:
    document = soft_document(4)
    assert document["soft"]["damp"]["pours"][0]["blushes"]
    assert len(rects(draw_calendar(PlanDocument.model_validate(document))[0], BOND_TONE)) == 2


def test_a_band_of_the_bond_is_softer_at_its_ends() -> None:
    sharp = PlanDocument.model_validate(sample_document(2)).pours[0]
    assert sharp.next_from is not None
    assert [share for _, _, share in bond_slices(sharp)] == [1.0]
    soft = PlanDocument.model_validate(with_bands(sample_document(2))).pours[0]
    slices = bond_slices(soft)
    shares = [share for _, _, share in slices]
    peak = shares.index(1.0)
    assert shares[: peak + 1] == sorted(shares[: peak + 1])
    assert shares[peak:] == sorted(shares[peak:], reverse=True)
    assert 0.0 < shares[0] < 0.5
    start = datetime.fromisoformat(soft.start)
    # 17 h and 31 h, each from 0.9 to 1.14 of it
    assert math.isclose((slices[0][0] - start) / HOUR, 15.3, abs_tol=1e-3)
    assert math.isclose((slices[-1][1] - start) / HOUR, 35.34, abs_tol=1e-3)
    assert all(one[1] == other[0] for one, other in pairwise(slices))
    assert bond_slices(PlanDocument.model_validate(sample_document(1)).pours[0]) == []


def test_a_pour_cures_until_the_next_one_and_the_last_until_demolding() -> None:
    svg = draw_calendar(PlanDocument.model_validate(sample_document(2)))[0]
    thin = [float(width) for width in re.findall(r'width="([\d.]+)" height="2.2" fill="#6a6a6a"', svg)][:-1]
    # pour 1: 23 h; the cure of the sample's calendar: 143 h; pour 2: 143 h, both with a break of 4 days
    assert len(thin) == 3
    assert math.isclose(thin[1], thin[2], abs_tol=0.02)
    assert thin[0] < thin[1]


def test_nothing_to_do_needs_no_drawing() -> None:
    document = sample_document(1)
    document["calendar"] = []
    assert draw_calendar(PlanDocument.model_validate(document)) == []


@settings(max_examples=50, deadline=None)
@given(
    st.lists(st.tuples(STARTS, st.floats(0.0, 30.0)), min_size=1, max_size=45),
    st.sampled_from(["metric", "us"]),
)
@example(
    [(hour, 30.0) for hour in (0, 84, 209, 220, 276, 347, 459, 563, 707, 882, 971, 1433, 2514, 2603)], "us"
)
def test_any_calendar_is_readable(slots: list[tuple[int, float]], units: str) -> None:
    first = at(2027, 2, 1, 6)
    document = sample_document(1, units=units, **WEEK)
    document["calendar"] = [
        entry(first + timedelta(hours=start), hours, f"a step of the work, number {i}")
        for i, (start, hours) in enumerate(slots)
    ]
    for svg in draw_calendar(PlanDocument.model_validate(document)):
        assert_readable(svg)


@settings(max_examples=50, deadline=None)
@given(
    st.lists(STARTS, min_size=1, max_size=20), st.sampled_from(["Europe/Berlin", "America/Chicago", "UTC"])
)
def test_later_never_lies_further_left(starts: list[int], zone: str) -> None:
    first = datetime(2027, 2, 1, 6, tzinfo=ZoneInfo(zone))
    moments = sorted(first.astimezone(UTC) + start * HOUR for start in starts)
    line = time_line(ZoneInfo(zone), [(moment, moment) for moment in moments], 100.0, 600.0)
    places = [line.x(moment) for moment in moments]
    assert places == sorted(places)
    assert math.isclose(line.left, 100.0)
    assert math.isclose(line.right, 600.0)
    assert all(math.isclose(one.right, other.left) for one, other in pairwise(line.stretches))
    # wherever nothing is left out, an hour is an hour
    widths = {round((day.right - day.left) / day.hours, 6) for day in line.shown}
    assert max(widths) - min(widths) < 1e-5
