"""The calendar as a timeline: work as blocks, waiting as thin bars, bonds as bands, over the shop's hours."""

import math
from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from itertools import pairwise

from pourwright.jobs.plan import Event, PlanDocument, Pour
from pourwright.sheets.calendar_ground import NIGHT_TONE, OFF_TONE, Ground
from pourwright.sheets.pages.soft import wash_first
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, PAPER, Canvas, fitted, text_width
from pourwright.sheets.timeline import HOUR, Slot, Timeline, time_line
from pourwright.sheets.wording import Wording, utc

WIDTH = 740.0
NAMES, TIMES = 146.0, 92.0
HEAD, FOOT = 42.0, 20.0
MOST_HEIGHT = 400.0
"""Paper of all rows where they would not become too thin [pt]."""
SMALL, TINY = 7.4, 6.4
ROWS_PER_DRAWING = 40
BLOCKS = {"pour": ACCENT, "mold": INK, "prepare": GREY, "check": PAPER, "demold": ACCENT}
BOND_TONE = "#e3b79f"
SOFT_STEPS = 4
LEAST_BLOCK = 2.5


def draw_calendar(plan: PlanDocument) -> list[str]:
    """Draw the timeline; a calendar of very many lines is cut into several drawings of the same scale.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    list of str
        SVG documents, at least one when there is any event.
    """
    windows = _windows(plan)
    events = sorted(plan.calendar, key=lambda event: (utc(event.start), event.title))
    # a window is a band in the row of the pour that goes on within it
    rows = [event for event in events if event.kind != "wait" or _slot(event) not in windows.values()]
    if not rows:
        return []
    slots = [*map(_slot, rows), *windows.values()]
    pieces = math.ceil(len(rows) / ROWS_PER_DRAWING)
    size = math.ceil(len(rows) / pieces)
    return [_Drawing(plan, rows[i * size : (i + 1) * size], slots).render() for i in range(pieces)]


def _slot(event: Event) -> Slot:
    return utc(event.start), utc(event.end)


def _windows(plan: PlanDocument) -> dict[int, Slot]:
    """When each later pour bonds to the one below it, by its number."""
    return {
        upper.number: (utc(below.next_from), utc(below.next_until))
        for below, upper in pairwise(plan.pours)
        if below.next_from is not None and below.next_until is not None
    }


class _Drawing:
    def __init__(self, plan: PlanDocument, rows: Sequence[Event], slots: Sequence[Slot]) -> None:
        self.plan, self.rows, self.words = plan, rows, Wording(plan.job)
        self.line: Timeline = time_line(self.words.zone, slots, NAMES + TIMES, WIDTH - 2.0)
        self.row = min(max(MOST_HEIGHT / len(rows), 11.0), 24.0)
        self.bottom = HEAD + self.row * len(rows)
        self.canvas = Canvas(WIDTH, self.bottom + FOOT, f"{plan.job.title}: calendar")
        pours = sorted((utc(pour.start), pour.number) for pour in plan.pours)
        self.numbers = dict(pours)

    def render(self) -> str:
        ground = Ground(self.canvas, self.line, self.words, HEAD, self.bottom)
        ground.shades()
        ground.marks()
        for index, event in enumerate(self.rows):
            self._row(event, HEAD + self.row * index)
        ground.breaks()
        for y in (HEAD, self.bottom):
            self.canvas.line(0.0, y, WIDTH, y, stroke=INK, stroke_width=0.8)
        self._legend(ground.clock_changes())
        return self.canvas.render()

    def _row(self, event: Event, top: float) -> None:
        base = top + self.row / 2 + 2.7
        weight = "bold" if event.kind in {"pour", "demold"} else "normal"
        self.canvas.text(0.0, base, fitted(event.title, NAMES - 5.0, SMALL), SMALL, font_weight=weight)
        self.canvas.text(NAMES, base, self.words.moment(event.start), SMALL)
        pour = self._pour(event)
        if pour is not None:
            self._bond(pour, top)
            self._cure(pour, event, top)
        if event.kind == "wait":
            self._thin(*_slot(event), top)
        else:
            self._block(event, top)
        self.canvas.line(0.0, top + self.row, WIDTH, top + self.row, stroke=PALE, stroke_width=0.4)

    def _pour(self, event: Event) -> Pour | None:
        number = self.numbers.get(utc(event.start)) if event.kind == "pour" else None
        return next((pour for pour in self.plan.pours if pour.number == number), None)

    def _block(self, event: Event, top: float) -> None:
        left, right = self.line.x(utc(event.start)), self.line.x(utc(event.end))
        width = max(right - left, LEAST_BLOCK)
        left = min(left, self.line.right - width)
        self.canvas.rect(
            left, top + 2.5, width, self.row - 5.0, fill=BLOCKS[event.kind], stroke=INK, stroke_width=0.6
        )

    def _thin(self, start: datetime, end: datetime, top: float) -> None:
        left, right = self.line.x(start), self.line.x(end)
        self.canvas.rect(left, top + self.row / 2 - 1.1, max(right - left, 1.0), 2.2, fill=GREY)

    def _cure(self, pour: Pour, event: Event, top: float) -> None:
        """A thin bar from the pour to the next one, or to demolding."""
        later = [each.start for each in self.plan.pours if utc(each.start) > utc(pour.start)]
        end = min(later, key=utc) if later else self.plan.demold.at
        if end is not None and utc(end) > utc(event.end):
            self._thin(utc(event.end), utc(end), top)

    def _bond(self, pour: Pour, top: float) -> None:
        below = next((each for each in self.plan.pours if each.number == pour.number - 1), None)
        if below is None:
            return
        # where the top blushes the bond is void: no band promises one
        slices = bond_slices(below) if wash_first(below.number, self.plan) is None else []
        for start, end, share in slices:
            left, right = self.line.x(start), self.line.x(end)
            self.canvas.rect(
                left, top + 0.8, right - left, self.row - 1.6, fill=BOND_TONE, fill_opacity=share
            )
        # the told ends, also where colour is lost
        for told in filter(None, (below.next_from, below.next_until)):
            x = self.line.x(utc(told))
            self.canvas.line(
                x, top + 0.8, x, top + self.row - 0.8, stroke_width=0.7, stroke_dasharray="1.5 1.5"
            )

    def _legend(self, changes: list[str]) -> None:
        y, x = self.bottom + 12.0, 0.0
        soft = any(pour.bonds_until_h_p10 is not None for pour in self.plan.pours)
        for words, tone, high in self._entries(soft=soft):
            self.canvas.rect(x, y - 2.3 - high / 2, 12.0, high, fill=tone, stroke=INK, stroke_width=0.4)
            self.canvas.text(x + 15.0, y, words, TINY)
            x += 25.0 + text_width(words, TINY)
        room = WIDTH - x
        note = "; ".join(changes)
        if note and room > 60.0:
            self.canvas.text(WIDTH, y, fitted(note, room, TINY), TINY, text_anchor="end", font_weight="bold")

    def _entries(self, *, soft: bool) -> Iterator[tuple[str, str, float]]:
        yield "pour, demold", ACCENT, 7.0
        yield "mold", INK, 7.0
        yield "prepare", GREY, 7.0
        yield "check", PAPER, 7.0
        yield "cures, waits", GREY, 2.2
        if any(wash_first(number - 1, self.plan) is None for number in _windows(self.plan)):
            yield f"the pour bonds{', paler: perhaps' if soft else ''}", BOND_TONE, 7.0
        if self.plan.job.opens is not None:
            yield "closed", NIGHT_TONE, 7.0
        yield "day off", OFF_TONE, 7.0


def bond_slices(below: Pour) -> list[tuple[datetime, datetime, float]]:
    """When the next pour bonds, in slices that are as dark as it is likely.

    Parameters
    ----------
    below : Pour
        The pour that it goes on.

    Returns
    -------
    list of (start, end, share)
        In UTC and in order; one slice of share 1 where the ends have no bands, none for the last pour.
    """
    if below.next_from is None or below.next_until is None:
        return []
    opens = _edge(below, below.next_from, below.bonds_from_h_p10, below.bonds_from_h_p90)
    closes = _edge(below, below.next_until, below.bonds_until_h_p10, below.bonds_until_h_p90)
    knots = sorted({*_steps(*opens), *_steps(*closes)})
    slices = []
    for start, end in pairwise(knots):
        middle = start + (end - start) / 2
        share = min(_passed(middle, *opens), 1.0 - _passed(middle, *closes))
        if share > 0.0:
            slices.append((start, end, round(share, 3)))
    return slices


def _edge(below: Pour, told: str, low: float | None, high: float | None) -> Slot:
    if low is None or high is None:
        return utc(told), utc(told)
    start = utc(below.start)
    return start + low * HOUR, start + high * HOUR


def _steps(start: datetime, end: datetime) -> Iterator[datetime]:
    step: timedelta = (end - start) / SOFT_STEPS
    return (start + i * step for i in range(SOFT_STEPS + 1))


def _passed(moment: datetime, start: datetime, end: datetime) -> float:
    """Share of an edge's band that lies before a moment."""
    if moment <= start:
        return 0.0
    return 1.0 if moment >= end else (moment - start) / (end - start)
