"""The section of a piece with its bands, and a tape beside it with both readings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pourwright.jobs.fill_bands import BandsTold, ShellPart
from pourwright.jobs.plan import Band, Fill, Piece
from pourwright.jobs.plan_part import Polyline
from pourwright.sheets.axes import nice_step
from pourwright.sheets.labels import spread
from pourwright.sheets.section_drawing import Frame
from pourwright.sheets.svg import ACCENT, GREY, INK, PAPER, Canvas, fitted, outline
from pourwright.sheets.tones import Tone, colour_tone, pattern_path, tones_of
from pourwright.sheets.wording import Wording

WIDTH, HEAD, FOOT = 510.0, 26.0, 20.0
LEFT, RIGHT = 128.0, 330.0
TAPE, BROAD = 412.0, 16.0
TALLEST = 300.0
SMALL, LINE = 7.2, 9.4
OPEN = 1e-4
"""The open face lies no farther than this under the top [m]."""


def draw_bands(title: str, laid: Fill, part: BandsTold, piece: Piece, words: Wording) -> str:
    """Draw bands and tape.

    Parameters
    ----------
    title : str
        Of the job.
    laid : Fill
        The bands.
    part : BandsTold
        Section, soft borders, shells, what is missing.
    piece : Piece
        How it lies.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    frame, floor = _frame(part, laid)
    canvas = Canvas(WIDTH, floor + FOOT, f"{title}: the bands, with both readings of their heights")
    _draw_piece(canvas, laid, part, frame)
    _draw_soft(canvas, part, frame)
    _draw_tape(canvas, laid, part, piece, frame, words)
    _draw_names(canvas, laid, part, frame)
    _draw_missing(canvas, part, frame)
    way = "poured upside down" if piece.flipped else "as poured"
    canvas.text((LEFT + RIGHT) / 2, 9.0, way, SMALL, text_anchor="middle", fill=GREY)
    return canvas.render()


def _frame(part: BandsTold, laid: Fill) -> tuple[Frame, float]:
    xs = [x for line in part.section for x, _ in line] or [0.0, laid.bands[-1].to_m]
    top = laid.bands[-1].to_m
    room = LINE * 3.2 * len(laid.bands)
    scale = min((RIGHT - LEFT - 20.0) / (max(xs) - min(xs)), max(TALLEST, room) / top)
    floor = HEAD + max(top * scale, room)
    return Frame(scale, (LEFT + RIGHT) / 2, floor, (max(xs) + min(xs)) / 2, 0.0), floor


def _draw_piece(canvas: Canvas, laid: Fill, part: BandsTold, frame: Frame) -> None:
    shape = frame.path(part.section)
    clip = canvas.clip(shape)
    tones = tones_of(laid.bands)
    shells, walls = {one.band: one for one in part.shells}, _walls(part, laid.bands[-1].to_m)
    canvas.path(shape, fill=PAPER, stroke="none", fill_rule="evenodd")
    for band in laid.bands:
        _draw_band(canvas, band, tones[band.grade, band.colour], frame, clip)
        if band.name in shells:
            _draw_shell(canvas, band, shells[band.name], frame, clip, walls)
    for band in laid.bands[1:]:
        y = frame.y(band.from_m)
        canvas.path(f"M0 {y:.2f}H{WIDTH}", stroke=INK, stroke_width=0.6, clip_path=clip)
    canvas.path(shape, fill="none", stroke=INK, stroke_width=1.2, fill_rule="evenodd")


def _strip(canvas: Canvas, band: Band, frame: Frame) -> tuple[str, tuple[float, float, float, float]]:
    top, bottom = frame.y(band.to_m), frame.y(band.from_m)
    box = (LEFT, top, RIGHT, bottom)
    return canvas.clip(outline([(LEFT, top), (RIGHT, top), (RIGHT, bottom), (LEFT, bottom)])), box


def _draw_band(canvas: Canvas, band: Band, tone: Tone, frame: Frame, clip: str) -> None:
    strip, box = _strip(canvas, band, frame)
    canvas.rect(box[0], box[1], box[2] - box[0], box[3] - box[1], fill=tone.ground, clip_path=clip)
    if tone.pattern:
        path = pattern_path(tone.pattern, box)
        canvas.within(clip, strip, path, fill="none", stroke="#3c3c3c", stroke_width=0.6)


def _draw_shell(
    canvas: Canvas, band: Band, shell: ShellPart, frame: Frame, clip: str, walls: Sequence[Polyline]
) -> None:
    """A stroke twice as broad as the shell along the wall, of which the piece keeps the inner half."""
    strip, _ = _strip(canvas, band, frame)
    path = "".join(outline(((frame.x(x), frame.y(z)) for x, z in line), closed=False) for line in walls)
    broad = 2.0 * shell.thickness_m * frame.scale
    style = {"fill": "none", "stroke": colour_tone(shell.colour), "stroke_linecap": "round"}
    canvas.within(clip, strip, path, stroke_width=broad, **style)


def _walls(part: BandsTold, top: float) -> list[Polyline]:
    """Every stretch of the outline but the open face, which is no wall."""
    pairs = [pair for line in part.section for pair in pairwise([*line, *line[:1]])]
    return [list(pair) for pair in pairs if min(z for _, z in pair) < top - OPEN]


def _draw_soft(canvas: Canvas, part: BandsTold, frame: Frame) -> None:
    for zone in part.soft:
        for height in (zone.from_m, zone.to_m):
            y = frame.y(height)
            canvas.line(LEFT, y, RIGHT, y, stroke=INK, stroke_width=0.6, stroke_dasharray="3 2")
        middle = frame.y((zone.from_m + zone.to_m) / 2)
        canvas.text(RIGHT + 3.0, middle + 2.5, "mixed", SMALL, fill=GREY)


def _draw_tape(
    canvas: Canvas, laid: Fill, part: BandsTold, piece: Piece, frame: Frame, words: Wording
) -> None:
    top = laid.bands[-1].to_m
    canvas.rect(TAPE, frame.y(top), BROAD, top * frame.scale, fill="#f6efcf", stroke=INK, stroke_width=0.6)
    unit = 0.0254 if words.job.units == "us" else 0.001
    step = nice_step(top / unit, 24) * unit
    for number in range(int(top / step + 1e-9) + 1):
        y, long = frame.y(number * step), 8.0 if number % 5 == 0 else 4.0
        canvas.line(TAPE, y, TAPE + long, y, stroke=INK, stroke_width=0.4)
        y = frame.y(top - number * step) if piece.flipped else y
        canvas.line(TAPE + BROAD - long, y, TAPE + BROAD, y, stroke=INK, stroke_width=0.4)
    marks = sorted(_marks(laid, part), reverse=True)
    places = spread([frame.y(up) for up, _, _ in marks], [LINE] * len(marks), 14.0, frame.floor + 8.0)
    for (up, standing, ink), y in zip(marks, places, strict=True):
        at = frame.y(up)
        lead = [(TAPE - 3.0, y), (TAPE, at), (TAPE + BROAD, at), (TAPE + BROAD + 3.0, y)]
        canvas.curve(lead, stroke=ink, stroke_width=0.7)
        canvas.text(TAPE - 5.0, y + 2.5, words.length(up), SMALL, text_anchor="end", fill=ink)
        canvas.text(TAPE + BROAD + 5.0, y + 2.5, words.length(max(standing, 0.0)), SMALL, fill=ink)
    canvas.text(TAPE - 5.0, 9.0, "up from the floor", SMALL, text_anchor="end", fill=GREY)
    canvas.text(TAPE + BROAD + 5.0, 9.0, "as it stands", SMALL, fill=GREY)


def _marks(laid: Fill, part: BandsTold) -> Iterator[tuple[float, float, str]]:
    """Heights on the tape in both readings, with their ink."""
    yield laid.bands[0].from_m, laid.bands[0].from_standing_m, INK
    yield from ((band.to_m, band.to_standing_m, INK) for band in laid.bands)
    for zone in part.soft:
        yield zone.from_m, zone.from_standing_m, GREY
        yield zone.to_m, zone.to_standing_m, GREY
    for up, standing in {one.ends_at_m: one.ends_at_standing_m for one in part.missing}.items():
        if up is not None and standing is not None:
            yield up, standing, ACCENT


def _draw_names(canvas: Canvas, laid: Fill, part: BandsTold, frame: Frame) -> None:
    shells = {one.band: f"{one.colour} shell, " for one in part.shells}
    bands = list(reversed(laid.bands))
    wanted = [frame.y((band.from_m + band.to_m) / 2) for band in bands]
    places = spread(wanted, [2.3 * LINE] * len(bands), 14.0, frame.floor + 10.0)
    for band, y, at in zip(bands, places, wanted, strict=True):
        called = "neat" if band.grade is None else f"{shells.get(band.name, '')}{band.colour or 'any'}"
        canvas.text(0.0, y, fitted(band.name, LEFT - 12.0, SMALL), SMALL, font_weight="bold")
        below = called if band.grade is None else f"{called}, {band.grade}"
        canvas.text(0.0, y + LINE, fitted(below, LEFT - 12.0, SMALL), SMALL)
        canvas.line(LEFT - 10.0, y, LEFT + 8.0, at, stroke=GREY, stroke_width=0.4)


def _draw_missing(canvas: Canvas, part: BandsTold, frame: Frame) -> None:
    for height in dict.fromkeys(one.ends_at_m for one in part.missing if one.ends_at_m is not None):
        y = frame.y(height)
        canvas.line(LEFT, y, RIGHT, y, stroke=ACCENT, stroke_width=1.0, stroke_dasharray="5 2")
        canvas.text(RIGHT + 3.0, y + 2.5, "ends", SMALL, fill=ACCENT)
