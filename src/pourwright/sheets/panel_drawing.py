"""The panels of the mold box, each kind once, all to one scale."""

from pourwright.jobs.plan import Panel, PlanDocument
from pourwright.sheets.svg import INK, Canvas, fitted, text_width
from pourwright.sheets.wording import Wording

WIDTH = 510.0
TALLEST = 170.0
GAP = 18.0
SMALL = 7.4
LINES = 34.0
BOARD_TONE = "#e4dfd6"


def draw_panels(plan: PlanDocument) -> str:
    """Draw the panels with how many of each and their sizes.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    str
        SVG document.
    """
    words = Wording(plan.job)
    panels = plan.mold.box.panels
    scale = _scale(panels)
    rows = _rows(panels, scale, words)
    heights = [max(panel.length_m for panel in row) * scale + LINES for row in rows]
    canvas = Canvas(WIDTH, sum(heights, 6.0), f"{plan.job.title}: panels of the mold box")
    top = 2.0
    for row, height in zip(rows, heights, strict=True):
        _draw_row(canvas, row, top + height - LINES, scale, words)
        top += height
    return canvas.render()


def _scale(panels: list[Panel]) -> float:
    tallest = max((panel.length_m for panel in panels), default=1.0)
    widest = max((panel.width_m for panel in panels), default=1.0)
    # three of the widest side by side
    return min(TALLEST / tallest, (WIDTH - GAP) / 3.0 / widest)


def _labels(panel: Panel, words: Wording) -> tuple[str, str]:
    return f"{panel.count} × {panel.name}", words.size((panel.length_m, panel.width_m))


def _room(panel: Panel, scale: float, words: Wording) -> float:
    label = max(text_width(line, SMALL) for line in _labels(panel, words))
    return max(panel.width_m * scale, min(label, 150.0)) + GAP


def _rows(panels: list[Panel], scale: float, words: Wording) -> list[list[Panel]]:
    rows: list[list[Panel]] = []
    used = WIDTH
    for panel in panels:
        room = _room(panel, scale, words)
        if used + room > WIDTH + GAP:
            rows.append([])
            used = 0.0
        rows[-1].append(panel)
        used += room
    return rows


def _draw_row(canvas: Canvas, row: list[Panel], floor: float, scale: float, words: Wording) -> None:
    x = 0.0
    for panel in row:
        width, height = panel.width_m * scale, panel.length_m * scale
        canvas.rect(x, floor - height, width, height, fill=BOARD_TONE, stroke=INK, stroke_width=0.8)
        room = _room(panel, scale, words)
        for i, line in enumerate(_labels(panel, words)):
            weight = "bold" if i == 0 else "normal"
            canvas.text(
                x, floor + 11.0 + 10.0 * i, fitted(line, room - 4.0, SMALL), SMALL, font_weight=weight
            )
        x += room
