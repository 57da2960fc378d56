"""The section through the middle: box, rubber, bands and pours with their heights."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.jobs.plan import Band, PlanDocument, Pour
from pourwright.jobs.plan_part import Polyline
from pourwright.sheets.crossings import reach
from pourwright.sheets.labels import spread
from pourwright.sheets.svg import ACCENT, GREY, INK, PAPER, Canvas, fitted, outline, text_width
from pourwright.sheets.tones import Tone, pattern_path, tones_of
from pourwright.sheets.wording import Wording, lies, readings_differ

WIDTH = 510.0
SIDE = 134.0
HEAD = 34.0
FOOT = 30.0
TALLEST = 330.0
LINE = 9.6
SMALL = 7.4
RUBBER_TONE = "#e9e9e9"
BOX_TONE = "#b9b2a6"
CORE_TONE = "#fbf3d0"


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the shape's metres land on the paper."""

    scale: float
    middle: float
    floor: float
    x_center: float
    z_low: float

    def x(self, metres: float) -> float:
        """Paper place of a horizontal coordinate [m]."""
        return self.middle + (metres - self.x_center) * self.scale

    def y(self, metres: float) -> float:
        """Paper place of a height [m]."""
        return self.floor - (metres - self.z_low) * self.scale

    def path(self, lines: Iterable[Polyline]) -> str:
        """Path data of closed outlines."""
        return "".join(outline((self.x(x), self.y(z)) for x, z in line) for line in lines)


@dataclass(frozen=True, slots=True)
class Note:
    """A few lines of text that belong to one height."""

    height_m: float
    lines: tuple[str, ...]
    accent: bool = False

    @property
    def room(self) -> float:
        """Height on paper [pt]."""
        return LINE * len(self.lines) + 5.0


def draw_section(plan: PlanDocument) -> str:
    """Draw the section with bands on the left and pours on the right.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    str
        SVG document.
    """
    wording = Wording(plan.job)
    bands = [*_ends(plan, wording), *(_band_note(band, plan, wording) for band in plan.fill.bands)]
    pours = [_pour_note(pour, plan, wording) for pour in plan.pours]
    room = max(sum(note.room for note in notes) for notes in (bands, pours))
    frame, bottom = _frame(plan, room)
    canvas = Canvas(WIDTH, bottom + FOOT, f"{plan.job.title}: section through the middle")
    _draw_mold(canvas, plan, frame)
    _draw_bands(canvas, plan, frame)
    _draw_levels(canvas, plan, frame)
    _write_notes(canvas, plan, bands, frame, _Column(0.0, SIDE - 14.0, on_left=True))
    _write_notes(canvas, plan, pours, frame, _Column(WIDTH - SIDE + 14.0, WIDTH, on_left=False))
    _head(canvas, plan, wording)
    _legend(canvas, bottom + FOOT - 6.0, core=bool(plan.section.core))
    return canvas.render()


def _frame(plan: PlanDocument, room: float) -> tuple[Frame, float]:
    points = [
        p
        for group in (plan.section.piece, plan.section.rubber, plan.section.panels)
        for line in group
        for p in line
    ]
    xs, zs = [x for x, _ in points], [z for _, z in points]
    width, height = max(xs) - min(xs), max(zs) - min(zs)
    # many notes need more paper than the shape: then the shape grows with them, within reason
    tall = max(TALLEST, min(room, 560.0))
    scale = min((WIDTH - 2 * SIDE - 20.0) / width, tall / height)
    bottom = HEAD + max(height * scale, room)
    floor = HEAD + height * scale + (bottom - HEAD - height * scale) / 2
    return Frame(scale, WIDTH / 2, floor, (max(xs) + min(xs)) / 2, min(zs)), bottom


def _draw_mold(canvas: Canvas, plan: PlanDocument, frame: Frame) -> None:
    canvas.path(
        frame.path(plan.section.rubber), fill=RUBBER_TONE, stroke=INK, stroke_width=0.5, fill_rule="evenodd"
    )
    canvas.path(
        frame.path(plan.section.panels), fill=BOX_TONE, stroke=INK, stroke_width=0.7, fill_rule="evenodd"
    )
    if plan.section.core:
        canvas.path(frame.path(plan.section.core), fill=CORE_TONE, stroke=INK, stroke_width=0.5)
    canvas.path(frame.path(plan.section.piece), fill=PAPER, stroke="none", fill_rule="evenodd")


def _draw_bands(canvas: Canvas, plan: PlanDocument, frame: Frame) -> None:
    shape = frame.path(plan.section.piece)
    clip = canvas.clip(shape)
    tones = tones_of(plan.fill.bands)
    for band in plan.fill.bands:
        _fill_band(canvas, band, tones[band.grade, band.colour], frame, clip)
    for band in plan.fill.bands[1:]:
        y = frame.y(band.from_m)
        canvas.path(f"M0 {y:.2f}H{WIDTH}", stroke=INK, stroke_width=0.5, clip_path=clip)
    canvas.path(shape, fill="none", stroke=INK, stroke_width=1.3, fill_rule="evenodd")


def _fill_band(canvas: Canvas, band: Band, tone: Tone, frame: Frame, clip: str) -> None:
    left, right = SIDE, WIDTH - SIDE
    top, bottom = frame.y(band.to_m), frame.y(band.from_m)
    canvas.rect(left, top, right - left, bottom - top, fill=tone.ground, clip_path=clip)
    if not tone.pattern:
        return
    # the pattern must stop at the band's own edges, so the band is cut out of the piece twice
    strip = canvas.clip(outline([(left, top), (right, top), (right, bottom), (left, bottom)]))
    path = pattern_path(tone.pattern, (left, top, right, bottom))
    canvas.within(clip, strip, path, fill="none", stroke="#3c3c3c", stroke_width=0.6)


def _draw_levels(canvas: Canvas, plan: PlanDocument, frame: Frame) -> None:
    for pour in plan.pours:
        left, right = _reach(plan, frame, pour.to_m)
        y = frame.y(pour.to_m)
        canvas.line(left - 7.0, y, right + 7.0, y, stroke=ACCENT, stroke_width=1.7)


def _reach(plan: PlanDocument, frame: Frame, height: float) -> tuple[float, float]:
    """Left and right end of the piece on paper at a height [m]."""
    left, right = reach(plan.section.piece, height)
    return frame.x(left), frame.x(right)


@dataclass(frozen=True, slots=True)
class _Column:
    left: float
    right: float
    on_left: bool


def _write_notes(
    canvas: Canvas, plan: PlanDocument, notes: Sequence[Note], frame: Frame, column: _Column
) -> None:
    order = sorted(notes, key=lambda note: -note.height_m)
    wanted = [frame.y(note.height_m) for note in order]
    low, high = HEAD - 14.0, canvas.height - FOOT + 8.0
    # moved apart as little as can be; the leads show what each belongs to
    for note, center in zip(order, spread(wanted, [n.room for n in order], low, high), strict=True):
        _lead(canvas, note, center, _reach(plan, frame, note.height_m), column, frame)
        _write_note(canvas, note, center, column)


def _lead(
    canvas: Canvas, note: Note, center: float, reach: tuple[float, float], column: _Column, frame: Frame
) -> None:
    y = frame.y(note.height_m)
    ink = ACCENT if note.accent else INK
    if column.on_left:
        start = column.left + max(text_width(line, SMALL) for line in note.lines) + 4.0
        points = [
            (min(start, SIDE - 10.0), center),
            (SIDE - 6.0, center),
            (SIDE + 4.0, y),
            (reach[0] + 3.0, y),
        ]
        canvas.rect(reach[0] + 1.5, y - 1.5, 3.0, 3.0, fill=ink)
    else:
        points = [
            (column.left - 3.0, center),
            (column.left - 8.0, center),
            (column.left - 18.0, y),
            (reach[1] + 7.0, y),
        ]
    canvas.curve(points, stroke=ink, stroke_width=0.5)


def _write_note(canvas: Canvas, note: Note, center: float, column: _Column) -> None:
    baseline = center - LINE * len(note.lines) / 2 + LINE * 0.78
    for i, words in enumerate(note.lines):
        weight, ink = ("bold", ACCENT if note.accent else INK) if i == 0 else ("normal", INK)
        short = fitted(words, column.right - column.left, SMALL)
        canvas.text(column.left, baseline + i * LINE, short, SMALL, font_weight=weight, fill=ink)


def _band_note(band: Band, plan: PlanDocument, wording: Wording) -> Note:
    lines = [band.name, wording.span(band.from_m, band.to_m)]
    if readings_differ(plan):
        lines.append(f"({wording.span(band.to_standing_m, band.from_standing_m)})")
    return Note((band.from_m + band.to_m) / 2, tuple(lines))


def _pour_note(pour: Pour, plan: PlanDocument, wording: Wording) -> Note:
    level = f"up {wording.length(pour.to_m)}"
    if readings_differ(plan):
        level += f" ({wording.length(pour.to_standing_m)})"
    lines = (
        f"Pour {pour.number} to here",
        level,
        f"dip {wording.length(pour.dip_to_m)}",
        wording.moment(pour.start),
    )
    return Note(pour.to_m, lines, accent=True)


def _head(canvas: Canvas, plan: PlanDocument, wording: Wording) -> None:
    canvas.text(0.0, 9.0, "BANDS", SMALL, font_weight="bold")
    canvas.text(WIDTH - SIDE + 14.0, 9.0, "POURS", SMALL, font_weight="bold", fill=ACCENT)
    words = f"{wording.length(plan.piece.height_m)} high, {lies(plan.piece)}"
    canvas.text(WIDTH / 2, 9.0, words, SMALL, text_anchor="middle", fill=GREY)


def _ends(plan: PlanDocument, wording: Wording) -> list[Note]:
    rim = (f"rim, up {wording.length(plan.section.rim_m)}",)
    floor = ("mold's floor, 0",)
    if readings_differ(plan):
        floor = (f"mold's floor ({wording.length(plan.piece.height_m)})",)
    return [Note(plan.section.rim_m, rim), Note(0.0, floor)]


def _legend(canvas: Canvas, y: float, *, core: bool) -> None:
    x = 0.0
    tones = [(BOX_TONE, "box"), (RUBBER_TONE, "rubber"), *([(CORE_TONE, "core")] if core else [])]
    for tone, words in tones:
        canvas.rect(x, y - 7.0, 11.0, 8.0, fill=tone, stroke=INK, stroke_width=0.5)
        canvas.text(x + 15.0, y, words, SMALL)
        x += 22.0 + len(words) * 5.0
    canvas.line(x, y - 3.0, x + 14.0, y - 3.0, stroke=ACCENT, stroke_width=1.6)
    canvas.text(
        x + 18.0, y, "level after a pour; (in brackets: as the piece stands); dip from the rim", SMALL
    )
