"""The box of a job: how far its panels bulge, what stiffens them, what holds them together."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.molding.box_corner_words import base_words, corner_words, often_words
from pourwright.app.molding.box_reckoned import BoxReckoned
from pourwright.app.molding.box_words import (
    head_words,
    lifting_words,
    liquid_words,
    panel_warning,
    too_thin_words,
    wall_words,
)
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_box import Box, BoxBase, BoxFastening, BoxPanel
from pourwright.mold import DEFAULTS, Panel
from pourwright.mold.box.bulge import Bulge
from pourwright.mold.box.defaults import BOX
from pourwright.mold.lifting import lifting_caution, people_to_lift

TOO_FEW = "even twelve battens, level or upright, are too few: take a thicker board"


def box_look(look: MoldLook, progress: Progress) -> Box | None:
    """Bend every upright panel under the densest liquid ever poured, and hold the box together.

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
    mold, choices = look.mold, look.mold.choices
    if choices.way == "skin":
        return None
    box = BoxReckoned(look)
    grows = max(found.held for _, found in box.panels) * box.rubber_share
    known = all(found.enough for _, found in box.panels)
    return Box(
        board=choices.board.name,
        thickness_m=choices.thickness,
        joint=choices.joint.name,
        joint_words=choices.joint.words,
        limit_m=choices.bulge_limit,
        batten=box.lath.name,
        batten_section_m=(BOX["batten_width"].value, BOX["batten_depth"].value),
        head=head_words(box),
        least_rubber_m=mold.wall,
        rubber_with_bulge_m=mold.wall + (grows if known else choices.bulge_limit),
        rubber_for_bulge_m3=_room(box) if known else 0.0,
        wall_text=wall_words(box, grows if known else None, _room(box)),
        panels=[_panel(box, panel, found) for panel, found in box.panels],
        fastenings=list(_corners(box)),
        base=list(_base(box)),
        often=often_words(box),
        filled_kg=box.filled,
        lifting_limit_kg=DEFAULTS["lifting_limit"].value,
        people=people_to_lift(box.filled),
        lifting=lifting_words(box.filled, look.system),
        warnings=list(_warnings(box)),
        cautions=list(filter(None, [lifting_caution("The filled mold", box.filled, look.system)])),
    )


def _room(box: BoxReckoned) -> float:
    return sum(panel.count * found.room for panel, found in box.panels) * box.rubber_share


def _panel(box: BoxReckoned, panel: Panel, found: Bulge) -> BoxPanel:
    battens, creep = found.battens, box.look.mold.choices.board.creep_factor
    damp = creep.value if creep.high is None else creep.high
    held = found.held if found.enough else None
    thin = found.bare > found.thickness / 2.0
    return BoxPanel(
        name=panel.name,
        count=panel.count,
        width_m=found.panel.width,
        height_m=found.panel.height,
        pressure_at_foot_Pa=found.panel.foot,
        liquid=liquid_words(box),
        bulge_m=None if thin else found.bare,
        bulge_reason=too_thin_words(box, found) if thin else "",
        bulge_at_m=found.at_height,
        stress_share=found.built_stress / found.allowed,
        battens=0 if found.enough and battens is None else battens.count if battens else None,
        battens_reason="" if found.enough else TOO_FEW,
        batten_lie=battens.lie if battens else "",
        batten_at_m=list(battens.at) if battens else [],
        batten_end_N=battens.end_force if battens else 0.0,
        laths_m=battens.laths * panel.count if battens else 0.0,
        held_m=held,
        bulge_in_time_m=None if held is None else held * (1.0 + creep.value),
        bulge_in_damp_m=None if held is None else held * (1.0 + damp),
        board_instead_m=found.board_needed if found.board_needed > found.thickness else None,
    )


def _corners(box: BoxReckoned) -> Iterator[BoxFastening]:
    for number, found in enumerate(box.corners):
        yield BoxFastening(
            means=found.means,
            recommended=number == 0 and found.possible,
            possible=found.possible,
            reason=found.why_not,
            text=corner_words(box, found),
            at_m=list(found.at),
            load_N=found.load,
            bears_N=found.bears,
        )


def _base(box: BoxReckoned) -> Iterator[BoxBase]:
    for panel, found in box.panels:
        at = list(box.base_at(found))
        yield BoxBase(panel=panel.name, at_m=at, text=base_words(box, panel, box.base(found) if at else None))


def _warnings(box: BoxReckoned) -> Iterator[str]:
    for panel, found in box.panels:
        if not found.enough or found.battens is not None:
            yield panel_warning(box, panel, found)
    if not box.corners[0].possible:
        yield (
            "Neither screws nor clamps nor bands hold the corners of this box: take a thicker board, or lay "
            "frames of lath round it and screw them to each other at the corners."
        )
