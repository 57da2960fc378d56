"""The printed plan: pages of plain words set by typst."""

import math
from importlib.resources import files
from typing import cast

import typst

from pourwright.foundation.files import canonical_json
from pourwright.jobs.plan import PlanDocument
from pourwright.sheets.calendar_drawing import draw_calendar
from pourwright.sheets.codes import qr_picture
from pourwright.sheets.compared_drawing import draw_compared
from pourwright.sheets.cracks_drawing import draw_cracks
from pourwright.sheets.damp_drawing import draw_damp
from pourwright.sheets.heat_pictures import HEAT_PICTURES, heat_pictures
from pourwright.sheets.mark import plan_mark
from pourwright.sheets.matters_drawing import NARROW, WIDE, draw_matters
from pourwright.sheets.pages.chances import chances_page
from pourwright.sheets.pages.common import Page, breakable
from pourwright.sheets.pages.cracks import cracks_page
from pourwright.sheets.pages.fill import dip_page, fill_page
from pourwright.sheets.pages.heat import heat_page
from pourwright.sheets.pages.lists import calendar_page, checks_page, mold_page, shopping_page, sources_page
from pourwright.sheets.pages.sizes import sizes_page
from pourwright.sheets.pages.soft import soft_page
from pourwright.sheets.pages.summary import summary_page
from pourwright.sheets.pages.tickets import ticket_pages
from pourwright.sheets.panel_drawing import draw_panels
from pourwright.sheets.section_drawing import draw_section
from pourwright.sheets.temperature_drawing import draw_pour, draw_run
from pourwright.sheets.warm_box_drawing import draw_warm_box
from pourwright.sheets.wording import Wording, utc

TEMPLATES = ("main.typ", "look.typ", "ticket.typ", "chances.typ", "cracks.typ", "soft.typ", "sizes.typ")
PAPERS = {"A4": "a4", "letter": "us-letter"}
ROOM_ON_FIRST_PAGE = {"A4": 480.0, "letter": 430.0}
MATTERS, COMPARED = "what-matters", "pours-days-chance.svg"
LEAST_SCALE = 0.84
MOST_ROWS = 52
LAST_BUNDLED_LETTER = 0x52F


def draw_all(plan: PlanDocument) -> dict[str, str]:
    """Draw every drawing of the plan.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        SVG document by file name.
    """
    drawings = {
        "section.svg": draw_section(plan),
        "temperature.svg": draw_run(plan),
        "panels.svg": draw_panels(plan),
    }
    if len(plan.pours) > 1:
        drawings |= {f"temperature-pour-{pour.number:02d}.svg": draw_pour(plan, pour) for pour in plan.pours}
    drawings |= heat_pictures(plan) | _chance_drawings(plan) | _crack_drawings(plan) | _soft_drawings(plan)
    timelines = draw_calendar(plan)
    names = (
        ["calendar.svg"] if len(timelines) == 1 else [f"calendar-{i + 1}.svg" for i in range(len(timelines))]
    )
    return drawings | dict(zip(names, timelines, strict=True))


def _soft_drawings(plan: PlanDocument) -> dict[str, str]:
    if plan.soft is None:
        return {}
    drawn = {"damp.svg": draw_damp(plan)}
    return drawn if plan.soft.warm_box is None else drawn | {"warm-box.svg": draw_warm_box(plan)}


def _crack_drawings(plan: PlanDocument) -> dict[str, str]:
    return {} if plan.cracks is None else {"cracks.svg": draw_cracks(plan, plan.cracks)}


def _chance_drawings(plan: PlanDocument) -> dict[str, str]:
    if plan.chances is None:
        return {}
    rankings = [each for each in plan.chances.rankings if each.shares]
    width = WIDE if len(rankings) == 1 else NARROW
    drawn = {f"{MATTERS}-{i:02d}.svg": draw_matters(plan, each, width) for i, each in enumerate(rankings, 1)}
    compared = draw_compared(plan)
    return drawn if compared is None else drawn | {COMPARED: compared}


def plan_pdf(plan: PlanDocument, drawings: dict[str, str] | None = None, host: str = "") -> bytes:
    """Set the printed plan; the same plan gives the same bytes.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    drawings : dict, optional
        What `draw_all` gave, when it is there already.
    host : str
        Name of the computer whose bench a phone may open.

    Returns
    -------
    bytes
        A PDF file.
    """
    pictures = draw_all(plan) if drawings is None else drawings
    content = breakable(page_content(plan, pictures, host))
    project = {
        name: files("pourwright.sheets").joinpath("templates", name).read_bytes() for name in TEMPLATES
    }
    project["main"] = project.pop("main.typ")
    project["data.json"] = canonical_json(content)
    project |= {f"drawings/{name}": text.encode() for name, text in pictures.items()}
    project |= {f"qr/{key}.svg": picture for key, picture in _codes(plan).items()}
    # the library takes a folder of files in memory, its type hints do not know it yet
    return typst.compile(
        cast("bytes", project),
        format="pdf",
        timestamp=int(utc(plan.computed_for).timestamp()),
        ignore_system_fonts=_bundled_fonts_do(content, pictures),
    )


def page_content(plan: PlanDocument, drawings: dict[str, str], host: str = "") -> Page:
    """Fill every page.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    drawings : dict
        SVG document by file name.
    host : str
        As `plan_pdf`.

    Returns
    -------
    dict
        What the templates read.
    """
    words = Wording(plan.job)
    mark = plan_mark(plan)
    dip = dip_page(plan)
    return {
        "paper": PAPERS[plan.job.paper],
        "title": plan.job.title,
        "variant": "" if plan.job.variant == "main" else plan.job.variant,
        "invented": plan.job.invented,
        "made": f"Pour plan {mark}, made {words.dated(plan.computed_for)}",
        "footer": f"{plan.job.title[:60]} · plan {mark}",
        "section_tall": _height(drawings["section.svg"]) * LEAST_SCALE > _room_on_first_page(plan),
        "summary": summary_page(plan),
        "shopping": shopping_page(plan),
        "calendar": {**calendar_page(plan), "drawings": _named(drawings, "calendar")},
        "sizes": sizes_page(plan),
        "mold": mold_page(plan),
        "tickets": ticket_pages(plan, host),
        "fill": fill_page(plan),
        "heat": {**heat_page(plan), "drawings": _named(drawings, "temperature-pour")},
        "chances": _chances(plan, drawings),
        "cracks": cracks_page(plan),
        "soft": soft_page(plan),
        "pictures": {"drawings": [f"drawings/{name}" for name in drawings if name in HEAT_PICTURES]},
        "checks": checks_page(plan),
        "dip": {**dip, **_row_size(len(plan.dip_stick), plan)},
        "sources": sources_page(plan),
    }


def _chances(plan: PlanDocument, drawings: dict[str, str]) -> Page:
    page = chances_page(plan)
    shown = {"matters": _named(drawings, MATTERS), "compared": _named(drawings, COMPARED)}
    return page | {"drawings": shown} if page else page


def _named(drawings: dict[str, str], start: str) -> list[str]:
    return [f"drawings/{name}" for name in sorted(drawings) if name.startswith(start)]


def _room_on_first_page(plan: PlanDocument) -> float:
    """Paper [pt] that the words of the first page leave for the section."""
    texts = [reason.text for reason in plan.reasons if reason.key == "pours"]
    lines = [math.ceil(len(words) / 100) for words in [*plan.warnings, *texts]]
    return ROOM_ON_FIRST_PAGE[plan.job.paper] - sum(14.0 * count + 13.0 for count in lines)


def _height(svg: str) -> float:
    return float(svg.split('height="', 1)[1].split("pt", 1)[0])


def _row_size(rows: int, plan: PlanDocument) -> dict[str, float]:
    """Letter size and room [pt] that bring the dip-stick onto as few pages as can be read."""
    room = 650.0 if plan.job.paper == "A4" else 598.0
    pages = math.ceil(rows / MOST_ROWS)
    pitch = min(room / (math.ceil(rows / max(pages, 1)) + 1), 21.0)
    size = min(0.72 * pitch, 12.5)
    return {"size": round(size, 2), "inset": round((pitch - 0.56 * size) / 2.0, 2)}


def _codes(plan: PlanDocument) -> dict[str, bytes]:
    mark = plan_mark(plan)
    keys = ["rubber", *(f"pour-{pour.number}" for pour in plan.pours)]
    return {key: qr_picture(f"pourwright plan {mark} {key}") for key in keys}


def _bundled_fonts_do(content: object, drawings: dict[str, str]) -> bool:
    # scripts beyond Cyrillic need the fonts of the machine; all else prints the same everywhere
    text = str(content) + "".join(drawings.values())
    return all(ord(c) <= LAST_BUNDLED_LETTER or 0x2000 <= ord(c) <= 0x22FF for c in text)
