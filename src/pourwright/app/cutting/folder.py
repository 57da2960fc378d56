"""The folder that ``cut --out`` writes."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.cutting.look import CutLook
from pourwright.app.molding.bodies import bodies_look, bodies_of
from pourwright.app.molding.bodies_files import pieces_of
from pourwright.app.own_folder import OwnFolder
from pourwright.app.told import files_of
from pourwright.foundation.progress import SILENT
from pourwright.jobs.cut_sheet import SCHEMA, CutSheet
from pourwright.sheets.cut_document import cut_pdf
from pourwright.sheets.exploded_drawing import draw_exploded
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording

OF_A_CUT = ("drawings/*.svg", "drawings/*.png", "parts/*.svg", "parts/*.pdf", "parts/*.dxf", "*.stl", "*.3mf")
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
        Content by path: ``cut.json``, ``cut.pdf``, drawings, templates.
    """
    return files_of("cut", look, sheet, (assembly_files,), cut_pdf)


def assembly_files(look: CutLook, sheet: CutSheet) -> Iterator[tuple[str, bytes]]:
    """Draw all wooden parts of the mold moved apart, without the rubber.

    Parameters
    ----------
    look : CutLook
        Everything wooden.
    sheet : CutSheet
        All that was told.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    mold = look.mold
    pieces = pieces_of(bodies_of(mold), bodies_look(mold, SILENT))
    wooden = [piece for piece in pieces if piece.part.kind != "rubber"]
    svg = draw_exploded(wooden, sheet.job.title, Wording(sheet.job))
    yield "drawings/assembly.svg", svg.encode()
    yield "drawings/assembly.png", png_of(svg)
