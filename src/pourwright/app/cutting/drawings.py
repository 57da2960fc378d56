"""Drawings of what is sawn: the sheets, every part at its true size, all of it moved apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from pourwright.app.cutting.look import CutLook
from pourwright.app.molding.blocks import blocks_look
from pourwright.app.molding.bodies import bodies_look, bodies_of
from pourwright.app.molding.bodies_files import pieces_of
from pourwright.app.molding.box import box_look
from pourwright.app.molding.box_files import box_drawing
from pourwright.foundation.progress import SILENT
from pourwright.geometry import joined
from pourwright.geometry.files.writers import stl_bytes, threemf_of_bodies
from pourwright.jobs.cut_sheet import CutSheet
from pourwright.sheets.cut_bars_drawing import draw_cut_bars
from pourwright.sheets.cut_sheet_drawing import draw_cut_sheet
from pourwright.sheets.exploded_drawing import Piece, draw_exploded
from pourwright.sheets.mold_blocks_drawing import draw_blocks
from pourwright.sheets.part_dxf import part_dxf
from pourwright.sheets.part_template import draw_template, templates_pdf
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording

TURNED = np.diag([1.0, -1.0, -1.0, 1.0])
"""A screwed master stands on its open face while the rubber is poured: bodies are told as they are cast."""
Files = Iterator[tuple[str, bytes]]


def sheet_files(look: CutLook, sheet: CutSheet) -> Files:
    """Draw every sheet, offcut and bar as it is cut.

    Parameters
    ----------
    look : CutLook
        Not needed.
    sheet : CutSheet
        With its plan.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    del look
    words = Wording(sheet.job)
    for number, one in enumerate(sheet.plan.sheets, start=1):
        yield from _pictures(f"sheet-{number}", draw_cut_sheet(one, words))
    if sheet.plan.bars:
        yield from _pictures("bars", draw_cut_bars(sheet.plan.bars, words))


def part_files(look: CutLook, sheet: CutSheet) -> Files:
    """Draw every part at its true size: on paper, as SVG, for a machine.

    Parameters
    ----------
    look : CutLook
        Not needed.
    sheet : CutSheet
        With its list.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    del look
    words = Wording(sheet.job)
    for part in sheet.list.parts:
        name = f"parts/{file_name(part.mark)}"
        yield f"{name}.dxf", part_dxf(part, words)
        yield f"{name}.svg", draw_template(part, words).encode()
        yield f"{name}.pdf", templates_pdf([part], words)


def file_name(mark: str) -> str:
    """Name of the files of a part.

    Examples
    --------
    >>> file_name("batten 1, front side")
    'batten-1-front-side'
    """
    return mark.replace(",", "").replace(" ", "-")


def assembly_files(look: CutLook, sheet: CutSheet) -> Files:
    """Draw panels, space blocks and master moved apart as the rubber is poured, without the rubber.

    Parameters
    ----------
    look : CutLook
        Everything wooden.
    sheet : CutSheet
        All that was told.

    Yields
    ------
    (str, bytes)
        Path and content; with space blocks also these on their panels, and as bodies for a machine.
    """
    mold, words = look.mold, Wording(sheet.job)
    bodies = bodies_of(mold)
    pieces = pieces_of(bodies, bodies_look(mold, SILENT))
    wooden = _numbered([piece for piece in pieces if piece.part.kind != "rubber"])
    if mold.mold.method == "screwed":
        wooden = [replace(piece, mesh=piece.mesh.transformed(TURNED)) for piece in wooden]
    yield from _pictures("assembly", draw_exploded(wooden, sheet.job.title, words))
    told, blocks = box_look(mold, SILENT), blocks_look(mold, SILENT)
    if told is not None:
        yield from _pictures("box-panels", box_drawing(mold, told, words))
    if blocks is not None and blocks.blocks:
        yield from _pictures("space-blocks", draw_blocks(blocks, sheet.job.title, words))
        yield "space-blocks.stl", stl_bytes(joined([body.mesh for body in bodies.blocks]))
        named = {body.name: body.mesh for body in bodies.blocks}
        yield "space-blocks.3mf", threemf_of_bodies(named, f"{sheet.job.title}: space blocks")


def _numbered(pieces: Sequence[Piece]) -> list[Piece]:
    """Number the kinds of parts anew, without gaps."""
    order = {number: at for at, number in enumerate(sorted({piece.part.number for piece in pieces}), start=1)}
    return [
        replace(piece, part=piece.part.model_copy(update={"number": order[piece.part.number]}))
        for piece in pieces
    ]


def _pictures(name: str, svg: str) -> Files:
    yield f"drawings/{name}.svg", svg.encode()
    yield f"drawings/{name}.png", png_of(svg)
