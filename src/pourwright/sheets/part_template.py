"""Templates of parts at their true size: one picture, or a PDF over as many pages as they need."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.cut_part import CutPart
from pourwright.sheets.part_drawing import BROAD, FINE, SMALL, PartDrawing
from pourwright.sheets.part_pages import (
    FOOT,
    MARGIN,
    OVERLAP,
    Page,
    page_name,
    pages_of,
    whole_page,
)
from pourwright.sheets.setting import set_sheet
from pourwright.sheets.svg import GREY, INK, PALE, PAPER, Canvas, fitted, text_width
from pourwright.sheets.wording import Wording

CONTROL = 100.0
"""Length of the line that is measured on the print [mm]; 3 15/16 in is 100.01 mm."""
LARGE = 8.0
MAP = (34.0, 20.0)
"""Room for the small map of the pages [mm]."""


def draw_template(part: CutPart, words: Wording) -> str:
    """Draw a part at its true size on one page as large as it needs.

    Parameters
    ----------
    part : CutPart
        The part.
    words : Wording
        The maker's units and paper.

    Returns
    -------
    str
        SVG document whose sizes are millimetres.
    """
    return _draw(part, whole_page(part), words)


def templates_pdf(parts: Sequence[CutPart], words: Wording) -> bytes:
    """Print parts at their true size on the maker's paper; the same parts give the same bytes.

    Parameters
    ----------
    parts : sequence of CutPart
        The parts, in their order.
    words : Wording
        The maker's units and paper.

    Returns
    -------
    bytes
        A PDF file.
    """
    sheets = [(part, page) for part in parts for page in pages_of(part, words.job.paper)]
    pages: list[dict[str, object]] = []
    pictures: dict[str, bytes] = {}
    for number, (part, page) in enumerate(sheets, 1):
        name = f"page-{number}.svg"
        pictures[name] = _draw(part, page, words).encode()
        told = f"{part.mark}, sheet {page.name}"
        pages.append({"wide": page.size[0], "high": page.size[1], "picture": name, "words": told})
    content = {"title": f"{words.job.title}: templates", "pages": pages}
    return set_sheet("part_template.typ", content, pictures)


def _draw(part: CutPart, page: Page, words: Wording) -> str:
    canvas = Canvas(*page.size, f"{part.mark}, true size", "mm")
    PartDrawing(canvas, part, page, words).draw()
    _head(canvas, part, page, words)
    _join(canvas, page)
    _control(canvas, page, words)
    return canvas.render()


def _head(canvas: Canvas, part: CutPart, page: Page, words: Wording) -> None:
    several = page.columns * page.rows > 1
    room = page.size[0] - 2 * MARGIN - (MAP[0] + 4.0 if several else 0.0)
    size = max(min(LARGE, room / max(text_width(part.mark, 1.0), 1.0)), SMALL)
    canvas.text(MARGIN, MARGIN + 7.0, fitted(part.mark, room, size), size, font_weight="bold")
    for i, line in enumerate(_lines(part, page, words)):
        canvas.text(MARGIN, MARGIN + 12.0 + 4.2 * i, fitted(line, room, SMALL), SMALL)
    if several:
        _map(canvas, page)


def _lines(part: CutPart, page: Page, words: Wording) -> list[str]:
    finished = words.size((part.length_m, part.width_m, part.thickness_m))
    sawn = f"; sawn {words.size(part.sawn_m)}, dashed" if part.oversize_m else ""
    grain = {"any": "grain either way", "length": "grain along its length", "width": "grain across it"}
    last = page_name(page.columns - 1, page.rows - 1)
    sheet = f"sheet {page.name} of A1 to {last}" if last != "A1" else ""
    face = f"face up: {part.face}" if part.face else ""
    return [
        f"finished {finished}{sawn}",
        f"{part.board}, {grain[part.grain]}",
        "; ".join(told for told in (f"for the {part.belongs}", face, sheet) if told),
    ]


def _map(canvas: Canvas, page: Page) -> None:
    """Draw where this page lies among the others."""
    side = min(MAP[0] / (page.columns * page.size[0]), MAP[1] / (page.rows * page.size[1]))
    wide, high = side * page.size[0], side * page.size[1]
    left = page.size[0] - MARGIN - wide * page.columns
    for row in range(page.rows):
        for column in range(page.columns):
            here = (column, row) == (page.column, page.row)
            x, y = left + wide * column, MARGIN + high * row
            canvas.rect(x, y, wide, high, fill=PALE if here else "none", stroke=INK, stroke_width=FINE)
            if size := _map_letters(wide, high):
                middle = x + wide / 2, y + high / 2 + 0.35 * size
                canvas.text(*middle, page_name(column, row), size, text_anchor="middle")


def _map_letters(wide: float, high: float) -> float:
    """Size of the letters in a field of the map [mm]; 0 where they would be too small."""
    size = min(wide / 2.4, high / 1.6, SMALL)
    return size if size >= 1.5 else 0.0


def _join(canvas: Canvas, page: Page) -> None:
    """Draw the lines along which pages join, with crosses that come to lie on each other."""
    left, low, right, high = page.window
    for beside, x in ((-1, left + OVERLAP / 2), (1, right - OVERLAP / 2)):
        if 0 <= page.column + beside < page.columns:
            name = page_name(page.column + beside, page.row)
            ends = page.at(x, high), page.at(x, low)
            _seam(canvas, ends, f"to {name}", float(beside), upright=True)
    for beside, y in ((-1, high - OVERLAP / 2), (1, low + OVERLAP / 2)):
        if 0 <= page.row + beside < page.rows:
            name = page_name(page.column, page.row + beside)
            _seam(canvas, (page.at(left, y), page.at(right, y)), f"to {name}", float(beside), upright=False)


def _seam(
    canvas: Canvas,
    ends: tuple[tuple[float, float], tuple[float, float]],
    words: str,
    side: float,
    *,
    upright: bool,
) -> None:
    (x0, y0), (x1, y1) = ends
    canvas.line(x0, y0, x1, y1, stroke=GREY, stroke_width=FINE, stroke_dasharray="6 1.5 1 1.5")
    for share in (0.2, 0.8):
        x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
        canvas.line(x - 3.5, y, x + 3.5, y, stroke_width=FINE)
        canvas.line(x, y - 3.5, x, y + 3.5, stroke_width=FINE)
        canvas.circle(x, y, 1.8, fill="none", stroke=INK, stroke_width=FINE)
    aside = side * OVERLAP / 4
    middle = (x0 + x1) / 2 + aside * upright, (y0 + y1) / 2 + aside * (not upright)
    _beside(canvas, middle, words, -90.0 if upright else 0.0)


def _beside(canvas: Canvas, middle: tuple[float, float], words: str, turned: float) -> None:
    """Write the words of a seam on white, turned by some degrees about their middle."""
    x, y = middle
    turn = f"rotate({turned:.0f} {x:.2f} {y:.2f})"
    wide = text_width(words, SMALL) + 1.0
    canvas.rect(x - wide / 2, y - 1.9, wide, 3.8, fill=PAPER, transform=turn)
    canvas.text(x, y + 1.05, words, SMALL, text_anchor="middle", transform=turn, fill=GREY)


def _control(canvas: Canvas, page: Page, words: Wording) -> None:
    """Draw the line by which the maker sees that nothing was scaled."""
    y = page.size[1] - MARGIN - 2.0
    canvas.line(MARGIN, y, MARGIN + CONTROL, y, stroke_width=BROAD)
    for i in range(11):
        tall = 5.0 if i in {0, 10} else 2.5
        canvas.line(MARGIN + 10.0 * i, y - tall, MARGIN + 10.0 * i, y, stroke_width=FINE)
    told = ["100 mm: measure it"]
    if words.system is UnitSystem.US or words.job.paper == "letter":
        told.append("100 mm = 3 15/16 in")
    told.append("print at 100 %" + ("; lay cross on cross" if page.columns * page.rows > 1 else ""))
    for i, line in enumerate(told[::-1]):
        canvas.text(MARGIN + CONTROL + 4.0, y - 3.8 * i, line, SMALL)
    above = page.size[1] - MARGIN - FOOT + 1.5
    canvas.line(MARGIN, above, page.size[0] - MARGIN, above, stroke=PALE, stroke_width=FINE)
