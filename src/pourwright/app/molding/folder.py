"""The folder that ``mold --out`` writes."""

from __future__ import annotations

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.looks import FILES
from pourwright.app.own_folder import OwnFolder
from pourwright.app.told import files_of
from pourwright.jobs.mold_sheet import SCHEMA, MoldSheet
from pourwright.sheets.mold_document import mold_pdf

DRAWN = (
    "ways",
    "mold-poured",
    "mold-cast",
    "parts",
    "box-panels",
    "trapped-air",
    "floats",
    "way-out",
    "seams",
    "space-blocks",
    "hollow",
)
"""Names of all drawings that a mold may have."""
OF_A_MOLD = (
    *(f"drawings/{name}.{kind}" for name in DRAWN for kind in ("svg", "png")),
    *(f"{body}.{kind}" for body in ("rubber", "space-blocks", "box") for kind in ("stl", "3mf")),
)
"""Files that may belong to another mold of the same job; whatever else lies there is the maker's."""
MOLD_FOLDER = OwnFolder("a mold", "mold.json", SCHEMA.partition("/")[0] + "/", OF_A_MOLD)


def mold_files(look: MoldLook, sheet: MoldSheet) -> dict[str, bytes]:
    """Make every file of a mold.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        All that was told of it.

    Returns
    -------
    dict
        Content by path: ``mold.json``, ``mold.pdf``, drawings, bodies.
    """
    return files_of("mold", look, sheet, FILES, mold_pdf)
