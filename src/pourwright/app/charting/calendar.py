"""The calendar as rows on a line of days: what is done when, over the hours when nobody is there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, time
from typing import Any

from pourwright.app.charting.chart import Cell, Chart, Table
from pourwright.app.charting.scales import day_words, hour_words
from pourwright.foundation.notation import DAYS, format_duration
from pourwright.jobs.plan import Event, PlanDocument
from pourwright.sheets.calendar_ground import works
from pourwright.sheets.timeline import HOUR, Stretch, Timeline, time_line
from pourwright.sheets.wording import Wording, utc

KINDS = {
    "mold": "work on the mold",
    "prepare": "preparing",
    "pour": "a pour",
    "check": "a check",
    "wait": "it cures, dries or bonds by itself",
    "demold": "demolding",
}
LEAST = 1e-9
LENGTH = 1000.0
"""Of the line of days; where many days are left out a strip of it stands for them."""


def calendar_chart(plan: PlanDocument) -> Chart:
    """Chart what is done when.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    Chart
        Its rows are the entries of the plan's calendar, in the same order; places along the line of days are
        shares of its length.
    """
    words = Wording(plan.job)
    line = _line(plan, words)
    return Chart(
        name="calendar",
        title="Calendar",
        words=_sentence(plan, words),
        table=_table(plan, words),
        kind="calendar",
        more={
            "kinds": KINDS,
            "rows": [_row(event, line, words) for event in plan.calendar],
            "shades": [] if line is None else list(_shades(line, words)),
            "breaks": [] if line is None else [_break(each) for each in line.breaks],
            "days": [] if line is None else list(_days(line, words)),
        },
        notes=_notes(line, words),
    )


def _line(plan: PlanDocument, words: Wording) -> Timeline | None:
    slots = [(utc(event.start), utc(event.end)) for event in plan.calendar]
    return time_line(words.zone, slots, 0.0, LENGTH) if slots else None


def _share(line: Timeline, moment: datetime) -> float:
    return round((line.x(moment) - line.left) / (line.right - line.left), 6)


def _span(line: Timeline, start: datetime, end: datetime) -> dict[str, float]:
    return {"from": _share(line, start), "to": _share(line, end)}


def _row(event: Event, line: Timeline | None, words: Wording) -> dict[str, Any]:
    start, end = utc(event.start), utc(event.end)
    told = {
        "title": event.title,
        "detail": event.detail,
        "kind": event.kind,
        "start": event.start,
        "end": event.end,
        "when": words.moment(event.start),
        "takes": format_duration((end - start).total_seconds()),
    }
    return told if line is None else {**told, **_span(line, start, end)}


def _shades(line: Timeline, words: Wording) -> Iterator[dict[str, Any]]:
    """Nights and days off: nobody is there."""
    for day in line.shown:
        for start, end, kind in _closed(day, words):
            if end > start:
                yield {"kind": kind, **_span(line, start, end)}


def _closed(day: Stretch, words: Wording) -> list[tuple[datetime, datetime, str]]:
    job = words.job
    if not works(job, day.day):
        return [(day.start, day.end, "off")]
    if job.opens is None or job.closes is None:
        return []
    opens, closes = (_wall(day.day, clock, words) for clock in (job.opens, job.closes))
    return [(day.start, opens, "night"), (closes, day.end, "night")]


def _wall(day: date, clock: str, words: Wording) -> datetime:
    return datetime.combine(day, time.fromisoformat(clock), words.zone).astimezone(UTC)


def _break(each: Stretch) -> dict[str, Any]:
    return {
        "days": each.days,
        "words": f"{each.days} days left out",
        "from": each.left / LENGTH,
        "to": each.right / LENGTH,
    }


def _days(line: Timeline, words: Wording) -> Iterator[dict[str, Any]]:
    for day in line.shown:
        noon = datetime.combine(day.day, time(12), words.zone)
        hours = [datetime.combine(day.day, time(hour), words.zone) for hour in (6, 12, 18)]
        yield {
            **_span(line, day.start, day.end),
            "words": day_words(noon),
            "short": f"{DAYS[noon.weekday()]} {noon.day}",
            "hours": [{"at": _share(line, hour), "words": hour_words(hour, words.system)} for hour in hours],
        }


def _sentence(plan: PlanDocument, words: Wording) -> str:
    if not plan.calendar:
        return "Nothing is to be done."
    work = [event for event in plan.calendar if event.kind != "wait"] or plan.calendar
    first, last = work[0], max(work, key=lambda event: utc(event.end))
    nights = sum(outside(event, words) for event in work)
    count = f"{len(work)} things to do, from {words.moment(first.start)} to {words.moment(last.end)}"
    if not nights:
        return f"{count}; all of them while somebody is there."
    return f"{count}; {nights} of them when nobody is there by the shop's hours."


def outside(event: Event, words: Wording) -> bool:
    """Whether an entry begins when nobody is there.

    Parameters
    ----------
    event : Event
        Of the calendar.
    words : Wording
        The shop's clock and hours.

    Returns
    -------
    bool
        By its start; a shop that tells no hours is always open on its working days.
    """
    job, start = words.job, words.local(event.start)
    if not works(job, start.date()):
        return True
    if job.opens is None or job.closes is None:
        return False
    return (
        not time.fromisoformat(job.opens)
        <= start.time().replace(tzinfo=None)
        < time.fromisoformat(job.closes)
    )


def _notes(line: Timeline | None, words: Wording) -> list[str]:
    if line is None:
        return []
    changed = [day for day in line.shown if abs(day.hours - 24.0) > LEAST]
    return [
        f"{day_words(datetime.combine(day.day, time(12), words.zone))}: the clocks change, the day has "
        f"{day.hours:g} h."
        for day in changed
    ]


def _table(plan: PlanDocument, words: Wording) -> Table:
    header = ["start", "end", "takes [h]", "kind", "what", "detail", "somebody is there at its start"]
    return Table(header, [_cells(event, words) for event in plan.calendar])


def _cells(event: Event, words: Wording) -> Sequence[Cell]:
    hours = (utc(event.end) - utc(event.start)) / HOUR
    return [
        words.local(event.start).isoformat(),
        words.local(event.end).isoformat(),
        f"{hours:.2f}",
        event.kind,
        event.title,
        event.detail,
        "no" if outside(event, words) else "yes",
    ]
