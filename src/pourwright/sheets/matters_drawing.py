"""What matters most for one answer: a bar within a bar for each doubtful input, the longest first."""

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_chances import Ranking, Share
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, text_width, wrapped
from pourwright.sheets.wording import Wording

WIDE, NARROW = 510.0, 250.0
NAMES = 0.46
"""Share of the width that the names take."""
SMALL, TINY = 7.4, 6.4
LINE, BAR, GAP = 8.4, 8.0, 5.0
HEAD, FOOT = 27.0, 37.0
LEAST = 0.01
"""Shares below this are counted, not drawn."""
TOTAL_TONE = "#d9c4b8"


def draw_matters(plan: PlanDocument, ranking: Ranking, width: float = NARROW) -> str:
    """Draw one ranking.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    ranking : Ranking
        One of its chances.
    width : float
        Paper [pt].

    Returns
    -------
    str
        SVG document.
    """
    return _Ranked(plan, ranking, width).render()


def ranked(ranking: Ranking) -> tuple[list[Share], int]:
    """The inputs worth a bar, and how many are left out.

    Parameters
    ----------
    ranking : Ranking
        In any order.

    Returns
    -------
    list of Share
        By their total, the largest first; at least one where there is any.
    int
        How many more each bring about less than 1 %.
    """
    ordered = sorted(ranking.shares, key=lambda share: -share.total)
    shown = [share for share in ordered if share.total >= LEAST] or ordered[:1]
    return shown, len(ordered) - len(shown)


class _Ranked:
    def __init__(self, plan: PlanDocument, ranking: Ranking, width: float) -> None:
        self.words, self.ranking = Wording(plan.job), ranking
        self.shares, self.left_out = ranked(ranking)
        self.left, self.right = NAMES * width, width - text_width("100 %", SMALL) - 4.0
        self.names = [wrapped(share.words, self.left - 6.0, SMALL, 2) for share in self.shares]
        rows = sum(LINE * len(lines) + GAP for lines in self.names)
        height = HEAD + rows + (LINE + GAP if self.left_out else 0.0) + FOOT
        self.canvas = Canvas(width, height, f"{plan.job.title}: what matters most, {ranking.words}")

    def render(self) -> str:
        self._head()
        bottom = self.canvas.height - FOOT + 2.0
        self._scale(bottom)
        top = HEAD
        for share, lines in zip(self.shares, self.names, strict=True):
            self._row(share, lines, top)
            top += LINE * len(lines) + GAP
        if self.left_out:
            self.canvas.text(0.0, top + LINE - 1.0, f"{self.left_out} more below 1 % each", SMALL, fill=GREY)
        self.canvas.line(self.left, HEAD - 3.0, self.left, bottom, stroke=INK, stroke_width=0.8)
        self._foot(bottom)
        return self.canvas.render()

    def _head(self) -> None:
        told, width = self.ranking, self.canvas.width
        band = self.words.banded(told.value, told.value_p10, told.value_p90, told.unit)
        self.canvas.text(0.0, 8.5, fitted(told.words, width, SMALL), SMALL, font_weight="bold")
        self.canvas.text(0.0, 18.5, fitted(band, width, SMALL), SMALL)

    def _x(self, share: float) -> float:
        # estimates of a share may stray a little below nothing and above all
        return self.left + min(max(share, 0.0), 1.0) * (self.right - self.left)

    def _scale(self, bottom: float) -> None:
        for share in (0.25, 0.5, 0.75, 1.0):
            x = self._x(share)
            self.canvas.line(x, HEAD - 3.0, x, bottom, stroke=PALE, stroke_width=0.4)
            self.canvas.text(x, bottom + 8.0, f"{100 * share:.0f}", TINY, text_anchor="middle", fill=GREY)
        self.canvas.text(self.left, bottom + 8.0, "0 %", TINY, text_anchor="middle", fill=GREY)

    def _row(self, share: Share, lines: list[str], top: float) -> None:
        for i, line in enumerate(lines):
            self.canvas.text(0.0, top + LINE * (i + 1) - 1.5, line, SMALL)
        upper = top + (LINE * len(lines) - BAR) / 2
        total, first = self._x(share.total), self._x(share.first)
        self.canvas.rect(
            self.left, upper, total - self.left, BAR, fill=TOTAL_TONE, stroke=INK, stroke_width=0.6
        )
        self.canvas.rect(self.left, upper + 2.2, first - self.left, BAR - 4.4, fill=ACCENT)
        words = self.words.share(max(share.total, 0.0))
        self.canvas.text(max(total, first) + 3.0, upper + BAR - 1.2, words, SMALL, font_weight="bold")

    def _foot(self, bottom: float) -> None:
        y, x = bottom + 19.0, 0.0
        for words, tone, high in (
            ("alone", ACCENT, BAR - 4.4),
            ("with its interplay, of the spread", TOTAL_TONE, BAR),
        ):
            self.canvas.rect(x, y - 2.6 - high / 2, 12.0, high, fill=tone, stroke=INK, stroke_width=0.4)
            self.canvas.text(x + 15.0, y, words, TINY)
            x += 23.0 + text_width(words, TINY)
        error = self.words.told_difference(self.ranking.held_out_error, self.ranking.unit)
        words = f"nine of ten heat runs kept apart agree within {error}"
        self.canvas.text(0.0, y + 10.5, fitted(words, self.canvas.width, TINY), TINY, fill=GREY)
