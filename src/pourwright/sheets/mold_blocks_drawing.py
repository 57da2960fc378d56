"""Panels of the box from inside, with the space blocks that are screwed to them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.jobs.mold_blocks import BlockPanel, MoldBlock, MoldBlocks
from pourwright.sheets.labels import spread
from pourwright.sheets.section_drawing import BOX_TONE
from pourwright.sheets.svg import GREY, INK, Canvas, fitted, text_width
from pourwright.sheets.wording import Wording

WIDTH, GAP, HEAD, SMALL, SIZE = 510.0, 26.0, 15.0, 6.6, 8.2
ASIDE, FOOT = 38.0, 34.0
"""Room for the heights left of a panel, and for the distances below it [pt]."""
TALLEST, WOOD, LINES = 205.0, "#f3ead9", "#7a6a4d"


@dataclass(frozen=True, slots=True)
class View:
    """One panel on paper: lower left corner and scale [pt], [pt/m]."""

    panel: BlockPanel
    blocks: tuple[MoldBlock, ...]
    x: float
    y: float
    scale: float

    def across(self, metres: float) -> float:
        """Place on paper of a distance from the left edge."""
        return self.x + metres * self.scale

    def high(self, metres: float) -> float:
        """Place on paper of a height above the foot."""
        return self.y - metres * self.scale


def draw_blocks(part: MoldBlocks, title: str, words: Wording) -> str:
    """Draw every panel that holds blocks.

    Parameters
    ----------
    part : MoldBlocks
        With its blocks.
    title : str
        Of the job.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    views, height = _laid_out(part)
    canvas = Canvas(WIDTH, height, f"{title}: space blocks on their panels, seen from inside")
    for view in views:
        _draw(canvas, view, words)
    note = "seen from inside, as the box stands while the rubber is poured; dashed: the inside of the box"
    canvas.text(WIDTH, height - 3.0, note, SMALL, text_anchor="end", fill=GREY)
    return canvas.render()


def _laid_out(part: MoldBlocks) -> tuple[list[View], float]:
    scale = _scale(part.panels)
    views: list[View] = []
    left, top, row = WIDTH, 0.0, 0.0
    for panel in part.panels:
        wide, high = panel.width_m * scale, panel.height_m * scale
        if left + ASIDE + wide > WIDTH:
            left, top, row = 0.0, top + row, 0.0
        row = max(row, HEAD + high + FOOT)
        blocks = tuple(block for block in part.blocks if block.wall == panel.wall)
        views.append(View(panel, blocks, left + ASIDE, top + HEAD + high, scale))
        left += ASIDE + wide + GAP
    return views, top + row + 8.0


def _scale(panels: Iterable[BlockPanel]) -> float:
    widest = max(panel.width_m for panel in panels)
    tallest = max(panel.height_m for panel in panels)
    # two of the widest side by side
    return min((WIDTH - GAP - 2 * ASIDE) / 2 / widest, TALLEST / tallest)


def _draw(canvas: Canvas, view: View, words: Wording) -> None:
    wide, high = view.panel.width_m, view.panel.height_m
    size = words.size((wide, high))
    canvas.text(view.x, view.high(high) - 4.5, view.panel.name, SIZE, font_weight="bold")
    x = view.x + text_width(view.panel.name, SIZE) + 6.0
    canvas.text(x, view.high(high) - 4.5, fitted(size, view.across(wide) - x + GAP, SMALL), SMALL, fill=GREY)
    canvas.rect(
        view.x,
        view.high(high),
        wide * view.scale,
        high * view.scale,
        fill=BOX_TONE,
        stroke=INK,
        stroke_width=0.8,
    )
    for inner in (view.panel.lap_m, wide - view.panel.lap_m) if view.panel.lap_m else ():
        x = view.across(inner)
        canvas.line(x, view.y, x, view.high(high), stroke=GREY, stroke_width=0.5, stroke_dasharray="3 2")
    for block in view.blocks:
        _block(canvas, view, block, words)
    _distances(canvas, view, words)
    _heights(canvas, view, words)


def _block(canvas: Canvas, view: View, block: MoldBlock, words: Wording) -> None:
    wide, high, off = block.size_m
    x, y = view.across(block.left_m), view.high(block.foot_m + high)
    room, tall = wide * view.scale, high * view.scale
    canvas.rect(x, y, room, tall, fill=WOOD, stroke=INK, stroke_width=0.8)
    middle = y + tall / 2
    lines = [
        text
        for text in (words.size((wide, high)), f"{words.length(off)} off")
        if text_width(text, SMALL) < room - 3.0
    ]
    lines = lines if tall > 2.0 * SIZE + len(lines) * SMALL else []
    base = middle + 3.0 - len(lines) * SMALL / 2
    large = min(SIZE + 2.0, tall)
    canvas.text(x + room / 2, base, block.letter, large, text_anchor="middle", font_weight="bold")
    for number, text in enumerate(lines):
        canvas.text(x + room / 2, middle + 8.0 + 8.0 * number, text, SMALL, text_anchor="middle")


def _distances(canvas: Canvas, view: View, words: Wording) -> None:
    """From the left edge to each block, below the panel; blocks that begin at one place share a mark."""
    places = _places((block.left_m, block.letter) for block in view.blocks)
    texts = [(f"{''.join(letters)} {words.length(place)}") for place, letters in places]
    rooms = [text_width(text, SMALL) + 5.0 for text in texts]
    # two rows, so that long texts find room
    for row in range(2):
        chosen = range(row, len(places), 2)
        wanted = [view.across(places[n][0]) for n in chosen]
        middles = spread(wanted, [rooms[n] for n in chosen], view.x - ASIDE + 4.0, WIDTH)
        for n, middle, at in zip(chosen, middles, wanted, strict=True):
            low = view.y + 9.0 + 10.0 * row
            canvas.curve(
                [(at, view.y - 3.0), (at, view.y + 3.0), (middle, low - 1.0)], stroke=GREY, stroke_width=0.45
            )
            canvas.text(middle, low + 5.5, texts[n], SMALL, text_anchor="middle")


def _heights(canvas: Canvas, view: View, words: Wording) -> None:
    """From the foot to each block, left of the panel."""
    places = sorted(_places((block.foot_m, block.letter) for block in view.blocks), reverse=True)
    wanted = [view.high(place) for place, _ in places]
    room = [2 * SMALL + 2.0] * len(places)
    middles = spread(wanted, room, view.high(view.panel.height_m) - HEAD, view.y + SMALL)
    for (place, letters), at, middle in zip(places, wanted, middles, strict=True):
        canvas.curve(
            [(view.x + 3.0, at), (view.x - 3.0, at), (view.x - 7.0, middle)], stroke=GREY, stroke_width=0.45
        )
        for row, text in enumerate(("".join(letters), words.length(place))):
            canvas.text(view.x - 9.0, middle + 7.0 * row, text, SMALL, text_anchor="end")


def _places(marks: Iterable[tuple[float, str]]) -> list[tuple[float, Sequence[str]]]:
    """Distances in rising order, each with the letters that it holds for; a millimetre apart is the same."""
    found: list[tuple[float, list[str]]] = []
    for place, letter in sorted(marks):
        if found and place - found[-1][0] < 1e-3:
            found[-1][1].append(letter)
        else:
            found.append((place, [letter]))
    return [(place, letters) for place, letters in found]
