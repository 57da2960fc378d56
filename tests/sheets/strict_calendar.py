"""A reader of iCalendar files that forgives nothing: RFC 5545, sections 3.1, 3.4, 3.6.1, 3.6.6, 3.8."""

import re
from collections import Counter
from dataclasses import dataclass, field

LINE = re.compile(r"([A-Z][A-Z0-9-]*)((?:;[A-Z0-9-]+=[^;:,\"\x00-\x1f]+)*):([^\x00-\x08\x0a-\x1f\x7f]*)")
MOMENT = re.compile(r"\d{4}(0[1-9]|1[0-2])(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3])[0-5]\d[0-5]\dZ")
TRIGGER = re.compile(r"[+-]?P(\d+W|\d+D(T\d+[HMS])?|T\d+[HMS])")
TEXT = re.compile(r"(?:[^\\;,]|\\[\\;,nN])*")
INSIDE = {"VCALENDAR": {"VEVENT"}, "VEVENT": {"VALARM"}, "VALARM": set()}
ONCE = {
    "VCALENDAR": {"PRODID", "VERSION"},
    "VEVENT": {"UID", "DTSTAMP", "DTSTART"},
    "VALARM": {"ACTION", "TRIGGER", "DESCRIPTION"},
}
AT_MOST_ONCE = {
    "DTEND",
    "SUMMARY",
    "DESCRIPTION",
    "SEQUENCE",
    "TRANSP",
    "LAST-MODIFIED",
    "CALSCALE",
    "METHOD",
}
VALUES = {
    "DTSTART": MOMENT,
    "DTEND": MOMENT,
    "DTSTAMP": MOMENT,
    "LAST-MODIFIED": MOMENT,
    "TRIGGER": TRIGGER,
    "SUMMARY": TEXT,
    "DESCRIPTION": TEXT,
    "SEQUENCE": re.compile(r"\d{1,10}"),
    "TRANSP": re.compile("OPAQUE|TRANSPARENT"),
    "ACTION": re.compile("DISPLAY"),
    "VERSION": re.compile(r"2\.0"),
}


@dataclass
class Component:
    name: str
    lines: list[tuple[str, str]] = field(default_factory=list)
    parts: list["Component"] = field(default_factory=list)

    def __getitem__(self, name: str) -> str:
        (found,) = [value for key, value in self.lines if key == name]
        return found

    def check(self) -> None:
        counts = Counter(key for key, _ in self.lines)
        assert all(counts[key] == 1 for key in ONCE[self.name]), (self.name, counts)
        assert all(counts[key] <= 1 for key in AT_MOST_ONCE), (self.name, counts)
        for key, value in self.lines:
            if key in VALUES:
                assert VALUES[key].fullmatch(value), (key, value)
        # both are fixed-width UTC stamps, so that their order is that of their letters
        if "DTEND" in counts:
            assert self["DTEND"] > self["DTSTART"]


def read_strictly(text: str) -> Component:
    assert text.endswith("\r\n")
    physical = text.removesuffix("\r\n").split("\r\n")
    assert not any("\n" in line or "\r" in line for line in physical)
    assert all(len(line.encode()) <= 75 for line in physical)
    open_parts: list[Component] = []
    for line in text.replace("\r\n ", "").removesuffix("\r\n").split("\r\n"):
        matched = LINE.fullmatch(line)
        assert matched, line
        name, value = matched[1], matched[3]
        if name == "BEGIN":
            assert value in (INSIDE[open_parts[-1].name] if open_parts else {"VCALENDAR"})
            part = Component(value)
            if open_parts:
                open_parts[-1].parts.append(part)
            open_parts.append(part)
        elif name == "END":
            part = open_parts.pop()
            assert part.name == value
            part.check()
        else:
            open_parts[-1].lines.append((name, value))
    assert not open_parts
    assert part.name == "VCALENDAR"
    return part
