"""The folder that ``fill --out`` writes."""

from __future__ import annotations

from pourwright.app.filling.look import FillLook
from pourwright.app.filling.looks import FILES
from pourwright.app.own_folder import OwnFolder
from pourwright.app.told import files_of
from pourwright.jobs.fill_sheet import SCHEMA, FillSheet
from pourwright.sheets.fill_document import fill_pdf

OF_A_FILL: tuple[str, ...] = ("drawings/setting-heat.svg", "drawings/filling.svg", "drawings/bands.svg")
"""Files that may belong to another fill of the same job."""
FILL_FOLDER = OwnFolder("a fill", "fill.json", SCHEMA.partition("/")[0] + "/", OF_A_FILL)


def fill_files(look: FillLook, sheet: FillSheet) -> dict[str, bytes]:
    """Make every file of a fill.

    Parameters
    ----------
    look : FillLook
        The fill.
    sheet : FillSheet
        All that was told of it.

    Returns
    -------
    dict
        Content by path: ``fill.json``, ``fill.pdf``, drawings.
    """
    return files_of("fill", look, sheet, FILES, fill_pdf)
