"""Everything that goes on paper or into a file."""

from pathlib import Path

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets.calendar_file import calendar_text
from pourwright.sheets.document import draw_all, plan_pdf
from pourwright.sheets.heat_pictures import HEAT_PICTURES
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.tables import TABLES, table_text


def sheet_files(plan: PlanDocument, host: str = "") -> dict[str, bytes]:
    """Make every sheet of a plan.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    host : str
        Name of the computer whose bench a phone may open; it goes onto the tickets of the pours.

    Returns
    -------
    dict
        Content by path inside the plan's folder: ``plan.pdf``, ``calendar.ics``, ``tables/*.csv``,
        ``drawings/*.svg``, and the pictures of the heat as ``drawings/*.png`` too.
    """
    drawings = draw_all(plan)
    made = {"plan.pdf": plan_pdf(plan, drawings, host), "calendar.ics": calendar_text(plan).encode()}
    # the mark at the start tells a spreadsheet that the letters are UTF-8
    made |= {f"tables/{name}.csv": table_text(plan, name).encode("utf-8-sig") for name in TABLES}
    pictures = {name: drawings[name] for name in HEAT_PICTURES if name in drawings}
    made |= {f"drawings/{Path(name).stem}.png": png_of(svg) for name, svg in pictures.items()}
    return made | {f"drawings/{name}": text.encode() for name, text in drawings.items()}
