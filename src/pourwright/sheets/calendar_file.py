"""The calendar as an iCalendar file (RFC 5545)."""

import uuid
from collections import Counter
from datetime import UTC, datetime, timedelta

from pourwright.jobs.plan import Event, PlanDocument
from pourwright.sheets.wording import utc

NAMESPACE = uuid.uuid5(uuid.NAMESPACE_URL, "urn:pourwright:calendar")
ALARMS = {
    "pour": (("-P1D", "tomorrow"), ("-PT1H", "in an hour")),
    "check": (("-PT15M", "in a quarter of an hour"),),
    "demold": (("-P1D", "tomorrow"),),
}
FIRST_PLAN = datetime(2020, 1, 1, tzinfo=UTC)
"""Before any plan was made: revisions are counted from it."""
MINUTE = timedelta(minutes=1)
LONGEST_LINE = 75


def calendar_text(plan: PlanDocument) -> str:
    """Write the calendar; times are UTC, so that every program shows them in its own zone.

    The identity of an entry is made from the job, its variant and its place among entries of its
    kind: a plan made again moves the same entries instead of doubling them. The revision counts the
    minutes from 2020 to the moment the plan was computed for, so that a later plan wins.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    str
        Lines of RFC 5545, ended by CR LF and folded at 75 octets. Source: RFC 5545, sections 3.1,
        3.3.5, 3.3.11, 3.6.1, 3.6.6,
        3.8.7.
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        f"PRODID:-//pourwright//plan {escape(plan.version)}//EN",
        "CALSCALE:GREGORIAN",
        # no METHOD: a file to be imported is no invitation, which would need an organizer
        f"X-WR-CALNAME:{escape(plan.job.title)}",
    ]
    seen: Counter[str] = Counter()
    for event in plan.calendar:
        seen[event.kind] += 1
        lines += _event_lines(plan, event, seen[event.kind])
    return "".join(fold(line) for line in [*lines, "END:VCALENDAR"])


def _event_lines(plan: PlanDocument, event: Event, ordinal: int) -> list[str]:
    identity = "\n".join([plan.job.title, plan.job.variant, event.kind, str(ordinal)])
    title = f"{plan.job.title}: {event.title}"
    made, start, end = utc(plan.computed_for), utc(event.start), utc(event.end)
    lines = [
        "BEGIN:VEVENT",
        f"UID:{uuid.uuid5(NAMESPACE, identity)}",
        f"DTSTAMP:{stamp(made)}",
        f"LAST-MODIFIED:{stamp(made)}",
        f"SEQUENCE:{max((made - FIRST_PLAN) // MINUTE, 0)}",
        f"DTSTART:{stamp(start)}",
        # an end must lie after its start; without one the entry is a moment
        *([f"DTEND:{stamp(end)}"] if end > start else []),
        f"SUMMARY:{escape(title)}",
        f"DESCRIPTION:{escape(event.detail)}",
        f"CATEGORIES:{event.kind.upper()}",
        f"TRANSP:{'TRANSPARENT' if event.kind == 'wait' else 'OPAQUE'}",
    ]
    for trigger, when in ALARMS.get(event.kind, ()):
        lines += _alarm_lines(trigger, f"{title}, {when}")
    return [*lines, "END:VEVENT"]


def _alarm_lines(trigger: str, words: str) -> list[str]:
    return [
        "BEGIN:VALARM",
        "ACTION:DISPLAY",
        f"TRIGGER:{trigger}",
        f"DESCRIPTION:{escape(words)}",
        "END:VALARM",
    ]


def stamp(moment: datetime) -> str:
    """Write a moment as a UTC date-time of RFC 5545, section 3.3.5, form 2.

    Parameters
    ----------
    moment : datetime
        With its zone.

    Returns
    -------
    str
        As ``20261201T080000Z``.

    Examples
    --------
    >>> stamp(datetime(2026, 12, 1, 8, tzinfo=UTC))
    '20261201T080000Z'
    """
    return moment.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")


def escape(text: str) -> str:
    r"""Write a text value by RFC 5545, section 3.3.11; control characters are dropped.

    Parameters
    ----------
    text : str
        Whatever the maker wrote.

    Returns
    -------
    str
        With backslash, semicolon, comma and line breaks escaped.

    Examples
    --------
    >>> escape("a, b; c")
    'a\\, b\\; c'
    """
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    for mark in ("\\", ";", ","):
        plain = plain.replace(mark, f"\\{mark}")
    return "".join(c for c in plain.replace("\n", "\\n") if c.isprintable())


def fold(line: str) -> str:
    """Fold one content line so that no piece is longer than 75 octets, never inside a character.

    Parameters
    ----------
    line : str
        Without its end.

    Returns
    -------
    str
        With CR LF at the end of each piece and a space at the start of each that follows. Source:
        RFC 5545, section 3.1.
    """
    pieces, room = [""], LONGEST_LINE
    for character in line:
        octets = len(character.encode())
        if octets > room:
            pieces.append(" ")
            room = LONGEST_LINE - 1
        pieces[-1] += character
        room -= octets
    return "".join(f"{piece}\r\n" for piece in pieces)
