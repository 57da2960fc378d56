"""The section through the mold, as the rubber is poured or as it is cast: bodies, levels, dimensions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.jobs.plan_part import Polyline
from pourwright.sheets.dimensions import across, fits, upright
from pourwright.sheets.labels import spread
from pourwright.sheets.section_drawing import BOX_TONE, CORE_TONE, RUBBER_TONE, Frame
from pourwright.sheets.svg import ACCENT, GREY, INK, Canvas, fitted, outline, text_width
from pourwright.sheets.wording import Wording

WIDTH, LEFT, RIGHT, HEAD, FOOT = 510.0, 118.0, 126.0, 20.0, 62.0
ROW = 13.0
LINE, SMALL = 9.4, 7.4
TONES = {
    "panel": BOX_TONE, "rubber": RUBBER_TONE, "block": "#f3ead9", "bar": "#f3ead9", "master": "#f6f1e6",
    "casting": "#f1d9cc", "core": CORE_TONE, "rod": "#6f6f6f", "insert": "#8fa3b5",
}  # fmt: skip
"""Fill of each kind of body; all differ in grey."""
NAMES = {
    "panel": "box", "rubber": "rubber", "block": "space block (dashed: beside the cut)", "bar": "bar",
    "master": "master", "casting": "casting", "core": "core", "rod": "rod",
    "insert": "set in (dashed: beside it)",
}  # fmt: skip
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Cut:
    """One body in the section: its kind, and its closed lines across and up [m]."""

    kind: str
    lines: tuple[Polyline, ...]
    beside: bool = False


@dataclass(frozen=True, slots=True)
class Level:
    """A height in the drawing [m], from where to where it is drawn [m], what is said of it."""

    height: float
    span: Span
    lines: tuple[str, ...]
    accent: bool = False


@dataclass(frozen=True, slots=True)
class MoldSection:
    """All that a section shows.

    Parameters
    ----------
    title : str
        What is being done.
    cuts : sequence of Cut
        Bodies, from behind to before.
    levels : sequence of Level
        Of rubber, mouth and floor.
    widths : sequence of (from, to)
        Level dimensions, the innermost row first [m].
    heights : sequence of (from, to)
        Upright dimensions, the innermost column first [m].
    """

    title: str
    cuts: Sequence[Cut]
    levels: Sequence[Level]
    widths: Sequence[Sequence[Span]]
    heights: Sequence[Sequence[Span]]


def draw_mold_section(section: MoldSection, words: Wording, tallest: float = 205.0) -> str:
    """Draw one section.

    Parameters
    ----------
    section : MoldSection
        What it shows.
    words : Wording
        The maker's units.
    tallest : float
        Most room for its height on paper [pt].

    Returns
    -------
    str
        SVG document.
    """
    frame, floor = _frame(section, tallest)
    # few notes beside a tall shape, or many beside a flat one: the rows below are clear of both
    below = max(floor, HEAD + sum(_rooms(section.levels)))
    rows = _rows(section, below, frame, words)
    canvas = Canvas(WIDTH, rows[-1][0] + FOOT - 2 * ROW - 12.0, section.title)
    canvas.text(0.0, 9.0, section.title, 8.6, font_weight="bold")
    for cut in section.cuts:
        _draw(canvas, cut, frame)
    _draw_levels(canvas, section.levels, frame, below)
    for column, spans in enumerate(section.heights):
        order = sorted(spans, reverse=True)
        lengths = [words.length(high - low) for low, high in order]
        x = _edge(section, frame) - 12.0 - 44.0 * column
        upright(canvas, [(frame.y(high), frame.y(low)) for low, high in order], x, lengths)
    for y, spans in rows:
        _draw_row(canvas, spans, y, frame, words)
    _legend(canvas, section, canvas.height - 4.0)
    return canvas.render()


def _rooms(levels: Sequence[Level]) -> list[float]:
    return [LINE * len(level.lines) + 4.0 for level in levels]


def _rows(
    section: MoldSection, below: float, frame: Frame, words: Wording
) -> list[tuple[float, Sequence[Span]]]:
    """Place of each row of level dimensions; one whose words stand below its line takes more room."""
    rows, y = [], below + 12.0
    for spans in section.widths:
        rows.append((y, spans))
        middle = spans[len(spans) // 2]
        low = len(spans) > 1 and not fits(
            (frame.x(middle[0]), frame.x(middle[1])), words.length(middle[1] - middle[0])
        )
        y += 1.8 * ROW if low else ROW
    return rows


def _points(section: MoldSection) -> list[tuple[float, float]]:
    return [point for cut in section.cuts for line in cut.lines for point in line]


def _frame(section: MoldSection, tallest: float) -> tuple[Frame, float]:
    xs, zs = zip(*_points(section), strict=True)
    wide, high = max(xs) - min(xs), max(zs) - min(zs)
    scale = min((WIDTH - LEFT - RIGHT) / wide, tallest / high)
    floor = HEAD + high * scale
    middle = LEFT + (WIDTH - LEFT - RIGHT) / 2
    return Frame(scale, middle, floor, (max(xs) + min(xs)) / 2, min(zs)), floor


def _edge(section: MoldSection, frame: Frame) -> float:
    return frame.x(min(x for x, _ in _points(section)))


def _draw(canvas: Canvas, cut: Cut, frame: Frame) -> None:
    path = frame.path(cut.lines)
    if cut.beside:
        canvas.path(path, fill="none", stroke=INK, stroke_width=0.6, stroke_dasharray="3 2")
        return
    canvas.path(path, fill=TONES[cut.kind], stroke=INK, stroke_width=0.8, fill_rule="evenodd")
    if cut.kind == "block":
        _hatch(canvas, cut, frame, path)


def _hatch(canvas: Canvas, cut: Cut, frame: Frame, path: str) -> None:
    """Slanting lines: wood that is cut through."""
    xs, ys = zip(*((frame.x(x), frame.y(z)) for line in cut.lines for x, z in line), strict=True)
    low, high, top, floor = min(xs), max(xs), min(ys), max(ys)
    deep = floor - top
    steps = int((high - low + deep) / 4.0) + 1
    lines = "".join(
        outline([(low - deep + 4.0 * i, floor), (low + 4.0 * i, top)], closed=False) for i in range(steps + 1)
    )
    canvas.path(lines, fill="none", stroke="#7a6a4d", stroke_width=0.5, clip_path=canvas.clip(path))


def _draw_levels(canvas: Canvas, levels: Sequence[Level], frame: Frame, below: float) -> None:
    order = sorted(levels, key=lambda level: -level.height)
    wanted = [frame.y(level.height) for level in order]
    x = WIDTH - RIGHT + 16.0
    places = spread(wanted, _rooms(order), HEAD - 4.0, below + 4.0)
    for level, center in zip(order, places, strict=True):
        y, ink = frame.y(level.height), ACCENT if level.accent else INK
        low, high = (frame.x(end) for end in level.span)
        if level.accent:
            canvas.line(low, y, high, y, stroke=ACCENT, stroke_width=1.5)
        lead = [(high, y), (x - 14.0, y), (x - 6.0, center), (x - 2.0, center)]
        canvas.curve(lead, stroke=ink, stroke_width=0.5)
        top = center - LINE * len(level.lines) / 2 + LINE * 0.78
        for i, text in enumerate(level.lines):
            canvas.text(
                x, top + i * LINE, fitted(text, WIDTH - x, SMALL), SMALL, fill=ink,
                font_weight="normal" if i else "bold",
            )  # fmt: skip


def _draw_row(canvas: Canvas, spans: Sequence[Span], y: float, frame: Frame, words: Wording) -> None:
    for number, (low, high) in enumerate(spans):
        last = number == len(spans) - 1
        aside = 1 if last else -1 if number == 0 else 0
        across(canvas, (frame.x(low), frame.x(high)), y, words.length(high - low), aside)


def _legend(canvas: Canvas, section: MoldSection, y: float) -> None:
    there = {cut.kind for cut in section.cuts}
    x = 0.0
    for kind, name in NAMES.items():
        if kind not in there:
            continue
        square = outline([(x, y - 7.0), (x + 11.0, y - 7.0), (x + 11.0, y + 1.0), (x, y + 1.0)])
        canvas.path(square, fill=TONES[kind], stroke=INK, stroke_width=0.5)
        if kind == "block":
            canvas.line(x, y + 1.0, x + 8.0, y - 7.0, stroke="#7a6a4d", stroke_width=0.5)
        canvas.text(x + 15.0, y, name, SMALL)
        x += 28.0 + text_width(name, SMALL)
    canvas.text(WIDTH, y, "section through the middle", SMALL, text_anchor="end", fill=GREY)


def lines_of(outlines: Iterable[Iterable[Sequence[float]]], *, turned: bool = False) -> tuple[Polyline, ...]:
    """Closed lines of a section, turned over where the box stands on its mouth.

    Parameters
    ----------
    outlines : iterable of array (k, 2)
        Across and up, as cast [m].
    turned : bool
        Whether up is down.

    Returns
    -------
    tuple of Polyline
    """
    sign = -1.0 if turned else 1.0
    return tuple([(float(x), sign * float(z)) for x, z in line] for line in outlines)
