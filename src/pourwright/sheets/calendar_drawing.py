"""The calendar as bars over days."""

import math
from collections.abc import Sequence
from datetime import datetime, timedelta

from pourwright.foundation.notation import DAYS, MONTHS
from pourwright.jobs.plan import Event, PlanDocument
from pourwright.sheets.axes import hours_between
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, text_width
from pourwright.sheets.wording import Wording

WIDTH = 510.0
NAMES = 168.0
ROW = 15.0
HEAD = 34.0
SMALL = 7.4
ROWS_PER_DRAWING = 40
WEEKEND_TONE = "#efefef"
BARS = {"pour": ACCENT, "wait": PALE, "mold": INK, "prepare": GREY, "check": GREY, "demold": ACCENT}


def draw_calendar(plan: PlanDocument) -> list[str]:
    """Draw the timeline; a long calendar is cut into several drawings of the same scale.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    list of str
        SVG documents, at least one when there is any event.
    """
    events = sorted(
        plan.calendar, key=lambda event: (hours_between(plan.computed_for, event.start), event.title)
    )
    pieces = math.ceil(len(events) / ROWS_PER_DRAWING)
    return [
        _Timeline(plan, events, events[i * ROWS_PER_DRAWING : (i + 1) * ROWS_PER_DRAWING]).render()
        for i in range(pieces)
    ]


class _Timeline:
    def __init__(self, plan: PlanDocument, events: Sequence[Event], rows: Sequence[Event]) -> None:
        self.words, self.rows = Wording(plan.job), rows
        self.days = _days(self.words, events)
        self.start, self.end = self.days[0], self.days[-1]
        self.bottom = HEAD + ROW * len(rows)
        self.canvas = Canvas(WIDTH, self.bottom + 8.0, f"{plan.job.title}: calendar")

    def render(self) -> str:
        self._columns()
        for index, event in enumerate(self.rows):
            self._row(event, HEAD + ROW * index)
        self.canvas.line(0.0, HEAD, WIDTH, HEAD, stroke=INK, stroke_width=0.8)
        self.canvas.line(0.0, self.bottom, WIDTH, self.bottom, stroke=INK, stroke_width=0.8)
        return self.canvas.render()

    def _x(self, moment: datetime) -> float:
        # wall clock against wall clock: every day is as wide as the next, also when the clock changes
        share = (moment - self.start).total_seconds() / (self.end - self.start).total_seconds()
        return NAMES + share * (WIDTH - NAMES)

    def _columns(self) -> None:
        width = (WIDTH - NAMES) / (len(self.days) - 1)
        every = _label_step(width)
        for i, (day, following) in enumerate(zip(self.days, self.days[1:], strict=False)):
            left, right = self._x(day), self._x(following)
            if day.weekday() >= 5:
                self.canvas.rect(left, HEAD, right - left, self.bottom - HEAD, fill=WEEKEND_TONE)
            if width > 4.0 or day.weekday() == 0:
                self.canvas.line(left, HEAD, left, self.bottom, stroke=PALE, stroke_width=0.4)
            if day.weekday() == 0 if every == 7 else i % every == 0:
                self._day_label(day, left)
            if day.day == 1 or i == 0:
                self._month_label(day, left, i)

    def _day_label(self, day: datetime, left: float) -> None:
        words = DAYS[day.weekday()]
        self.canvas.text(left + 1.5, HEAD - 12.5, words, 6.2, fill=GREY)
        self.canvas.text(left + 1.5, HEAD - 4.0, str(day.day), SMALL, font_weight="bold")

    def _month_label(self, day: datetime, left: float, index: int) -> None:
        words = f"{MONTHS[day.month - 1]} {day.year}"
        following = next((d for d in self.days[index + 1 :] if d.day == 1), None)
        room = (self._x(following) if following else WIDTH) - left
        if text_width(words, SMALL) < room:
            self.canvas.text(left + 1.5, 9.0, words, SMALL, font_weight="bold")

    def _row(self, event: Event, top: float) -> None:
        base = top + ROW - 4.4
        weight = "bold" if event.kind in {"pour", "demold"} else "normal"
        self.canvas.text(0.0, base, fitted(event.title, NAMES - 6.0, SMALL), SMALL, font_weight=weight)
        left, right = self._x(self.words.local(event.start)), self._x(self.words.local(event.end))
        width = max(right - left, 3.0)
        self.canvas.rect(
            left, top + 3.5, width, ROW - 7.0, fill=BARS[event.kind], stroke=INK, stroke_width=0.5
        )
        self.canvas.line(0.0, top + ROW, WIDTH, top + ROW, stroke=PALE, stroke_width=0.4)
        self._time(event, left, left + width, base)

    def _time(self, event: Event, left: float, right: float, base: float) -> None:
        words = self.words.clock(event.start)
        room = text_width(words, SMALL) + 4.0
        if right + room <= WIDTH:
            self.canvas.text(right + 4.0, base, words, SMALL)
        elif left - room >= NAMES:
            self.canvas.text(left - 4.0, base, words, SMALL, text_anchor="end")


def _days(words: Wording, events: Sequence[Event]) -> list[datetime]:
    starts = [words.local(event.start) for event in events]
    ends = [words.local(event.end) for event in events]
    first = min(starts).replace(hour=0, minute=0, second=0, microsecond=0)
    days = [first]
    while days[-1] < max(ends) or len(days) < 3:
        days.append(first + timedelta(days=len(days)))
    return days


def _label_step(width: float) -> int:
    return next((step for step in (1, 2) if width * step >= 19.0), 7)
