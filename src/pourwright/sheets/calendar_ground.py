"""What lies under the bars of the calendar: days, hours, the shop's closed hours, breaks."""

from datetime import date, datetime, time

from pourwright.foundation.notation import DAYS, MONTHS, UnitSystem, format_clock, format_day
from pourwright.jobs.plan import JobInfo
from pourwright.sheets.svg import GREY, PAPER, Canvas, text_width
from pourwright.sheets.timeline import Stretch, Timeline, midnight
from pourwright.sheets.wording import Wording

SMALL, TINY = 7.4, 6.2
NIGHT_TONE, OFF_TONE = "#ececec", "#d3d3d3"
LINE_TONE = "#bdbdbd"
WEEKEND = 5
MONTH_LINE, DAY_LINE, DATE_LINE, HOUR_LINE = 9.0, 20.5, 29.5, 38.0


class Ground:
    """Shades and marks of one drawing.

    Parameters
    ----------
    canvas : Canvas
        To draw on.
    line : Timeline
        The axis.
    words : Wording
        The shop's clock and hours.
    head, bottom : float
        Where the rows begin and end [pt].
    """

    def __init__(self, canvas: Canvas, line: Timeline, words: Wording, head: float, bottom: float) -> None:
        self.canvas, self.line, self.words = canvas, line, words
        self.head, self.bottom = head, bottom

    def shades(self) -> None:
        """Shade nights and days off; lines at midnight."""
        for day in self.line.shown:
            for left, right, tone in self._closed(day):
                self.canvas.rect(left, self.head, right - left, self.bottom - self.head, fill=tone)
            self._upright(day.left)
        self._upright(self.line.right)

    def _upright(self, x: float) -> None:
        self.canvas.line(x, self.head, x, self.bottom, stroke=LINE_TONE, stroke_width=0.5)

    def _closed(self, day: Stretch) -> list[tuple[float, float, str]]:
        job = self.words.job
        if not works(job, day.day):
            return [(day.left, day.right, OFF_TONE)]
        if job.opens is None or job.closes is None:
            return []
        opens, closes = (self._wall(day.day, clock) for clock in (job.opens, job.closes))
        return [(day.left, opens, NIGHT_TONE), (closes, day.right, NIGHT_TONE)]

    def _wall(self, day: date, clock: str) -> float:
        moment = datetime.combine(day, time.fromisoformat(clock), self.words.zone)
        return self.line.x(moment)

    def marks(self) -> None:
        """Name months, days and, where there is room, hours."""
        width = self.line.day_width
        every = next((step for step in (1, 2) if width * step >= 19.0), 7)
        days = list(self.line.shown)
        free = 0.0
        for index, day in enumerate(days):
            after_break = index > 0 and days[index - 1].right < day.left - 0.01
            monday = day.day.weekday() == 0
            if monday or after_break or index == 0 if every == 7 else index % every == 0:
                free = self._day(day, free)
            self._hours(day, width)
        self._months(days)

    def _day(self, day: Stretch, free: float) -> float:
        """Name a day where the place is free; gives where the next one may begin."""
        name, number = DAYS[day.day.weekday()], str(day.day.day)
        width = text_width(name, TINY)
        # the last days may be narrower than their names
        x = min(day.left + 1.5, self.canvas.width - width)
        if x < free:
            return free
        self.canvas.text(x, DAY_LINE, name, TINY, fill=GREY)
        self.canvas.text(x, DATE_LINE, number, SMALL, font_weight="bold")
        return x + width + 2.0

    def _hours(self, day: Stretch, width: float) -> None:
        step = next((hours for hours in (3, 6, 12) if width * hours / 24.0 >= 13.0), None)
        for hour in range(step or 24, 24, step or 24):
            moment = datetime.combine(day.day, time(hour), self.words.zone)
            x = self.line.x(moment)
            self.canvas.line(x, self.head - 3.0, x, self.head, stroke=GREY, stroke_width=0.5)
            words = hour_words(moment, self.words.system)
            if text_width(words, TINY) + 3.0 < width * (step or 24) / 24.0:
                self.canvas.text(x, HOUR_LINE, words, TINY, text_anchor="middle", fill=GREY)

    def _months(self, days: list[Stretch]) -> None:
        begins = [day for i, day in enumerate(days) if i == 0 or day.day.month != days[i - 1].day.month]
        ends = [day.left for day in begins[1:]] + [self.line.right]
        for day, end in zip(begins, ends, strict=True):
            name = MONTHS[day.day.month - 1]
            for words in (f"{name} {day.day.year}", name):
                if text_width(words, SMALL) + 3.0 < end - day.left:
                    self.canvas.text(day.left + 1.5, MONTH_LINE, words, SMALL, font_weight="bold")
                    break

    def breaks(self) -> None:
        """Draw what is left out over everything else, as a torn strip of paper."""
        for each in self.line.breaks:
            self.canvas.rect(
                each.left, self.head - 1.0, each.right - each.left, self.bottom - self.head + 2.0, fill=PAPER
            )
            for x in (each.left + 2.0, each.right - 2.0):
                self.canvas.path(_torn(x, self.head, self.bottom), fill="none", stroke=GREY, stroke_width=0.7)
            words = f"{each.days} days"
            if text_width(words, TINY) < each.right - each.left:
                middle = (each.left + each.right) / 2
                self.canvas.text(middle, HOUR_LINE, words, TINY, text_anchor="middle", fill=GREY)

    def clock_changes(self) -> list[str]:
        """Say on which days the clocks change.

        Returns
        -------
        list of str
            As ``Sun 28 Mar: clocks go forward, the day has 23 h``.
        """
        told = []
        for day in self.line.shown:
            if day.hours != 24.0:
                way = "forward" if day.hours < 24.0 else "back"
                noon = midnight(day.day, self.words.zone).astimezone(self.words.zone)
                told.append(f"{format_day(noon)}: clocks go {way}, the day has {day.hours:g} h")
        return told


def works(job: JobInfo, day: date) -> bool:
    """Whether somebody is in the shop on a day.

    Parameters
    ----------
    job : JobInfo
        With its working days; Monday to Friday where it does not tell them.
    day : date
        On the shop's calendar.

    Returns
    -------
    bool
        False on days off.
    """
    named = DAYS[day.weekday()].lower()
    open_day = named in job.working_days if job.working_days else day.weekday() < WEEKEND
    return open_day and day.isoformat() not in job.days_off


def hour_words(moment: datetime, system: UnitSystem) -> str:
    """A full hour in few letters.

    Parameters
    ----------
    moment : datetime
        On the shop's clock.
    system : UnitSystem
        A US shop reads am and pm.

    Returns
    -------
    str
        As ``06`` or ``6a``.

    Examples
    --------
    >>> hour_words(datetime(2027, 1, 11, 18), UnitSystem.US)
    '6p'
    """
    hour = format_clock(moment, system).replace(":00", "")
    return hour.replace(" am", "a").replace(" pm", "p")


def _torn(x: float, top: float, bottom: float) -> str:
    count = max(int((bottom - top) / 8.0), 1)
    step = (bottom - top) / count
    turns = "".join(f"l{2.5 if i % 2 == 0 else -2.5} {step:.3f}" for i in range(count))
    return f"M{x - 1.25:.2f} {top:.2f}{turns}"
