"""The calendar file against RFC 5545, read back by the icalendar package."""

from datetime import UTC, datetime, timedelta

import icalendar

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import calendar_text
from pourwright.sheets.calendar_file import fold
from tests.sheets.sample_plan import sample_document, sample_plan


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
