"""The calendar file against RFC 5545, read back by the icalendar package."""

from datetime import UTC, datetime, timedelta

import icalendar
import pytest
from hypothesis import given, strategies as st

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import calendar_text
from pourwright.sheets.calendar_file import fold
from tests.sheets.sample_plan import sample_document, sample_plan
from tests.sheets.strict_calendar import read_strictly


def events(plan: PlanDocument) -> list[icalendar.Event]:
    return list(icalendar.Calendar.from_ical(calendar_text(plan)).walk("VEVENT"))


def test_every_entry_is_read_back_with_its_times_and_words() -> None:
    plan = sample_plan()
    found = events(plan)
    assert len(found) == len(plan.calendar)
    for entry, event in zip(found, plan.calendar, strict=True):
        assert entry.decoded("DTSTART") == datetime.fromisoformat(event.start)
        assert entry.decoded("DTEND") == datetime.fromisoformat(event.end)
        assert str(entry["SUMMARY"]) == f"Hourglass stool: {event.title}"
        assert str(entry["DESCRIPTION"]) == event.detail
        assert entry.decoded("DTSTAMP") == datetime(2026, 11, 20, 7, tzinfo=UTC)


def test_pours_ring_a_day_and_an_hour_before() -> None:
    pours = [entry for entry in events(sample_plan()) if "Pour 1 of" in entry["SUMMARY"]]
    triggers = [alarm.decoded("TRIGGER") for alarm in pours[0].walk("VALARM")]
    assert triggers == [timedelta(days=-1), timedelta(hours=-1)]


def test_a_plan_made_again_moves_the_same_entries() -> None:
    later = sample_document()
    for event in later["calendar"]:
        event["start"] = event["start"].replace("T09", "T11")
    moved = [str(entry["UID"]) for entry in events(PlanDocument.model_validate(later))]
    assert moved == [str(entry["UID"]) for entry in events(sample_plan())]
    assert len(set(moved)) == len(moved)


def test_lines_end_in_cr_lf_and_hold_at_most_75_octets() -> None:
    document = sample_document(title="Größe; mit, Komma \\ und " + "ö" * 120)
    document["calendar"][0]["detail"] = "one\ntwo; three, four \\ five"
    plan = PlanDocument.model_validate(document)
    text = calendar_text(plan)
    lines = text.split("\r\n")
    assert lines.pop() == ""
    assert "\n" not in "".join(lines)
    assert max(len(line.encode()) for line in lines) <= 75
    entry = events(plan)[0]
    assert str(entry["DESCRIPTION"]) == "one\ntwo; three, four \\ five"
    assert str(entry["SUMMARY"]).startswith("Größe; mit, Komma \\ und ööö")


def test_folding_joins_back_to_the_same_line() -> None:
    line = "DESCRIPTION:" + "aé€😀" * 40
    folded = fold(line)
    assert folded.replace("\r\n ", "").removesuffix("\r\n") == line
    assert all(len(piece.encode()) <= 75 for piece in folded.split("\r\n"))


@pytest.mark.parametrize("count", [1, 4, 12])
def test_the_file_holds_to_the_grammar_and_the_counts_of_the_standard(count: int) -> None:
    plan = sample_plan(count)
    file = read_strictly(calendar_text(plan))
    assert len(file.parts) == len(plan.calendar)
    assert len({part["UID"] for part in file.parts}) == len(file.parts)
    # a METHOD would make it an invitation, which needs an organizer: RFC 5546, section 3.2.1
    assert "METHOD" not in dict(file.lines)


@given(st.text(max_size=90), st.text(max_size=200))
def test_whatever_the_maker_wrote_holds_to_the_grammar_and_is_read_back(title: str, detail: str) -> None:
    document = sample_document(1, title=title)
    document["calendar"] = document["calendar"][:1]
    document["calendar"][0]["detail"] = detail
    plan = PlanDocument.model_validate(document)
    read_strictly(calendar_text(plan))
    (found,) = events(plan)
    lines = detail.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    kept = "\n".join("".join(c for c in line if c.isprintable()) for line in lines)
    assert str(found["DESCRIPTION"]) == kept


def test_a_later_plan_replaces_the_earlier_one() -> None:
    later = sample_document()
    later["computed_for"] = "2026-11-20T08:01:00+01:00"
    (first, *_), (second, *_) = events(sample_plan()), events(PlanDocument.model_validate(later))
    assert first["UID"] == second["UID"]
    assert second["SEQUENCE"] == first["SEQUENCE"] + 1
    assert second.decoded("LAST-MODIFIED") > first.decoded("LAST-MODIFIED")


def test_checks_ring_a_quarter_of_an_hour_before() -> None:
    document = sample_document(2)
    gelled = dict(document["calendar"][4], title="Is pour 1 gelled?", kind="check")
    document["calendar"].append(gelled)
    found = [entry for entry in events(PlanDocument.model_validate(document)) if "gelled" in entry["SUMMARY"]]
    assert [alarm.decoded("TRIGGER") for alarm in found[0].walk("VALARM")] == [timedelta(minutes=-15)]


def test_bonds_and_waiting_leave_the_day_free_and_work_does_not() -> None:
    for entry, event in zip(events(sample_plan()), sample_plan().calendar, strict=True):
        assert entry["TRANSP"] == ("TRANSPARENT" if event.kind == "wait" else "OPAQUE")


def test_an_entry_without_length_has_no_end() -> None:
    document = sample_document(1)
    document["calendar"][0]["end"] = document["calendar"][0]["start"]
    plan = PlanDocument.model_validate(document)
    read_strictly(calendar_text(plan))
    assert "DTEND" not in events(plan)[0]


@pytest.mark.parametrize(
    ("start", "utc"),
    [
        ("2027-03-27T09:00:00+01:00", datetime(2027, 3, 27, 8, tzinfo=UTC)),
        ("2027-03-28T09:00:00+02:00", datetime(2027, 3, 28, 7, tzinfo=UTC)),
        ("2027-10-30T09:00:00+02:00", datetime(2027, 10, 30, 7, tzinfo=UTC)),
        ("2027-10-31T09:00:00+01:00", datetime(2027, 10, 31, 8, tzinfo=UTC)),
    ],
)
def test_nine_o_clock_is_nine_o_clock_on_both_sides_of_a_clock_change(start: str, utc: datetime) -> None:
    document = sample_document(1)
    document["calendar"][0] |= {"start": start, "end": start}
    assert events(PlanDocument.model_validate(document))[0].decoded("DTSTART") == utc
