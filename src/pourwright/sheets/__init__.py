"""Ink on paper: the printed plan, its drawings, tables and calendar file, all read off the plan document."""

from pourwright.sheets.calendar_file import calendar_text
from pourwright.sheets.document import draw_all, plan_pdf
from pourwright.sheets.mark import plan_mark
from pourwright.sheets.tables import TABLES, table_text
from pourwright.sheets.write import sheet_files

__all__ = [
    "TABLES",
    "calendar_text",
    "draw_all",
    "plan_mark",
    "plan_pdf",
    "sheet_files",
    "table_text",
]
