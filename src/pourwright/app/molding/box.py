"""The box of a job: how far its panels bulge, and what holds them."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import format_length
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_box import Box, BoxPanel
from pourwright.mold import Panel
from pourwright.mold.box.bulge import Bulge, Upright, bulge
from pourwright.mold.box.defaults import BOX
from pourwright.mold.lifting import people_to_lift

BATTEN = "pine"
TOO_FEW = "even twelve battens are too few: take a thicker board"


def box_look(look: MoldLook, progress: Progress) -> Box | None:
    """Bend every upright panel under the densest liquid ever poured.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Box or None
        None where a skin needs no box.
    """
    del progress
    mold = look.mold
    if mold.choices.way == "skin":
        return None
    board, limit = mold.choices.board, BOX["bulge_limit"].value
    batten = look.materials.find("board", BATTEN, look.job.where("mold"))
    bent = [
        (panel, bulge(_upright(look, panel), board, panel.thickness, batten, limit))
        for panel in mold.panels
        if panel.name in ("side", "end")
    ]
    filled = mold.filled_mass(look.fill_mass)
    return Box(
        board=board.name,
        thickness_m=mold.choices.thickness,
        limit_m=limit,
        batten=batten.name,
        batten_section_m=(BOX["batten_width"].value, BOX["batten_depth"].value),
        least_rubber_m=mold.wall,
        panels=[_told(look, panel, found, board.creep_factor.value) for panel, found in bent],
        filled_kg=filled,
        people=people_to_lift(filled),
        cautions=[text for panel, found in bent for text in _cautions(look, panel, found)],
    )


def _upright(look: MoldLook, panel: Panel) -> Upright:
    """The panel between its supports; the fill is reckoned as if it reached down to the box's floor."""
    mold = look.mold
    width = mold.inside[0] if panel.name == "side" else mold.inside[1]
    density = max(look.densest, mold.choices.rubber.density.value)
    wet = mold.pour.level_wanted
    return Upright(name=panel.name, width=width, height=panel.width, wet=wet, density=density)


def _told(look: MoldLook, panel: Panel, found: Bulge, creep: float) -> BoxPanel:
    fill = look.densest > look.mold.choices.rubber.density.value
    return BoxPanel(
        name=panel.name,
        count=panel.count,
        width_m=found.panel.width,
        height_m=found.panel.height,
        pressure_at_foot_Pa=found.panel.foot,
        liquid="the fill, through the rubber" if fill else "the rubber",
        bulge_m=found.bare,
        bulge_at_m=found.at_height,
        bulge_in_time_m=found.held * (1.0 + creep),
        battens=found.battens,
        battens_reason=TOO_FEW if found.battens is None else "",
        held_m=found.held,
        board_instead_m=found.board_needed,
    )


def _cautions(look: MoldLook, panel: Panel, found: Bulge) -> Iterator[str]:
    if found.battens == 0:
        return
    bare, limit, board = (
        format_length(value, look.system, digits=digits)
        for value, digits in ((found.bare, 1), (BOX["bulge_limit"].value, 0), (found.board_needed, 0))
    )
    held = "a thicker board" if found.battens is None else f"{found.battens} on each"
    yield (
        f"Each {panel.name} of the box bulges {bare} without battens; {limit} is what one sees. "
        f"Battens: {held}; or a board of {board} or more."
    )
