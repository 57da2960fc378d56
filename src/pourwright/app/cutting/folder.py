"""The folder that ``cut --out`` writes."""

from __future__ import annotations

from pourwright.app.cutting.drawings import assembly_files, part_files, sheet_files
from pourwright.app.cutting.look import CutLook
from pourwright.app.own_folder import OwnFolder
from pourwright.app.told import files_of
from pourwright.jobs.cut_sheet import SCHEMA, CutSheet
from pourwright.sheets.cut_document import cut_pdf

DRAWN = ("sheet-*", "bars", "assembly", "box-panels", "space-blocks")
OF_A_CUT = (
    *(f"drawings/{name}.{kind}" for name in DRAWN for kind in ("svg", "png")),
    *(f"parts/*.{kind}" for kind in ("svg", "pdf", "dxf")),
    *(f"space-blocks.{kind}" for kind in ("stl", "3mf")),
)
"""Files that may belong to another cut list of the same job; whatever else lies there is the maker's."""
CUT_FOLDER = OwnFolder("a cut list", "cut.json", SCHEMA.partition("/")[0] + "/", OF_A_CUT)


def cut_files(look: CutLook, sheet: CutSheet) -> dict[str, bytes]:
    """Make every file of a cut list.

    Parameters
    ----------
    look : CutLook
        Everything wooden.
    sheet : CutSheet
        All that was told of it.

    Returns
    -------
    dict
        Content by path: ``cut.json``, ``cut.pdf``, drawings, parts at their true size.
    """
    return files_of("cut", look, sheet, (assembly_files, sheet_files, part_files), cut_pdf)
