"""The picture of the box: every kind of panel with its bulge, battens and fastenings."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from pourwright.app.molding.box_reckoned import BoxReckoned
from pourwright.app.molding.look import MoldLook
from pourwright.jobs.mold_box import Box, BoxPanel
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.mold import Panel
from pourwright.mold.box.bent_field import bent_field
from pourwright.mold.box.bulge import Bulge
from pourwright.mold.box.defaults import BOX
from pourwright.sheets.mold_box_drawing import draw_box
from pourwright.sheets.mold_box_panel import BulgePicture, PanelPicture
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording

CELLS = 48


def box_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Draw the panels of the box.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        With its box, or none.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    if sheet.box is None:
        return
    svg = box_drawing(look, sheet.box, Wording(sheet.job))
    yield "drawings/box-panels.svg", svg.encode()
    yield "drawings/box-panels.png", png_of(svg)


def box_drawing(look: MoldLook, told: Box, words: Wording) -> str:
    """Draw the panels of the box.

    Parameters
    ----------
    look : MoldLook
        The mold.
    told : Box
        What is told of its box.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    box = BoxReckoned(look)
    pictures = [
        _picture(box, told, panel, *found) for panel, found in zip(told.panels, box.panels, strict=True)
    ]
    return draw_box(f"{look.job.title}: panels of the box", pictures, words)


def _picture(box: BoxReckoned, told: Box, panel: BoxPanel, cut: Panel, found: Bulge) -> PanelPicture:
    choices = box.look.mold.choices
    taken = told.fastenings[0] if told.fastenings[0].recommended else None
    base = next(each for each in told.base if each.panel == panel.name)
    laps = panel.name == "side"
    # the middle of an end's edge, or of the flange behind it, from the left end of a side
    out = choices.thickness + BOX["flange"].value if choices.joint.flange else choices.thickness
    return PanelPicture(
        name=f"{panel.count} × {panel.name}",
        length=cut.length,
        height=cut.width,
        wet=found.panel.width,
        bulge=_bulge(box, found) if found.enough else None,
        note="" if found.enough else panel.bulge_reason or panel.battens_reason,
        lie=panel.batten_lie,
        battens=tuple(panel.batten_at_m),
        lath=BOX["batten_width"].value,
        means=taken.means if taken else "",
        corner=tuple(taken.at_m) if taken and (laps or taken.means == "bands") else (),
        corner_out=(choices.thickness + out) / 2.0 if choices.joint.flange else choices.thickness / 2.0,
        flange=BOX["flange"].value if choices.joint.flange and not laps else 0.0,
        base=tuple(base.at_m),
    )


def _bulge(box: BoxReckoned, found: Bulge) -> BulgePicture:
    across, up = (np.linspace(0.0, edge, CELLS + 1) for edge in (found.panel.width, found.panel.height))
    x, z = ((edges[1:] + edges[:-1]) / 2.0 for edges in (across, up))
    return BulgePicture(across, up, bent_field(found, box.look.mold.choices.board, x, z))
