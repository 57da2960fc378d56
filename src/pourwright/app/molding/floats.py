"""What floats in the liquid rubber of a job, and what holds it."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from pourwright.app.molding.floats_words import float_warnings, float_words, screw_size
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_floats import (
    FloatBars,
    FloatBend,
    FloatBlock,
    FloatCurve,
    Floats,
    FloatScrews,
)
from pourwright.mold.blocks.letter import letter
from pourwright.mold.hold.bars import BarsHeld, Bend
from pourwright.mold.hold.blocks import HeldBlock, on_panel
from pourwright.mold.hold.defaults import HOLD
from pourwright.mold.hold.floats import Curve, MoldFloats, mold_floats
from pourwright.physics.constants import STANDARD_GRAVITY

POINTS = 160
Standing = Callable[[float], float | None]


def floats_look(look: MoldLook, progress: Progress) -> Floats | None:
    """Find the worst level, and load bars and screws with it.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Floats or None
        None where the master lies in a bed, or rubber is brushed on.
    """
    del progress
    mold = look.mold
    if mold.choices.way != "block":
        return None
    found, held, standing = mold_floats(mold), mold.hold_down, standing_of(look)
    rim = mold.inside[2] + mold.choices.freeboard
    told = Floats(
        held="hung" if found.bars else "screwed",
        master_kg=held.master_mass,
        safety_factor=held.safety_factor,
        lift_N=held.buoyancy,
        net_N=held.buoyancy - held.master_mass * STANDARD_GRAVITY,
        worst_level_m=held.worst_level,
        worst_standing_m=standing(held.worst_level),
        worst_dip_m=rim - held.worst_level,
        tight_N=held.sealed_force,
        tight_level_m=held.sealed_level,
        tight_standing_m=standing(held.sealed_level),
        floats_from_m=found.from_level,
        floats_from_standing_m=None if found.from_level is None else standing(found.from_level),
        weight_needed_kg=held.weight_needed,
        curve=_curve(found.curve, held.sealed_level, standing),
        bars=None if found.bars is None else _bars(look, found, found.bars),
        screws=_screws(look, found),
        blocks=[_block(letter(number), block, standing) for number, block in enumerate(found.blocks)],
    )
    return told.model_copy(
        update={
            "words": list(float_words(look, found, told)),
            "warnings": list(float_warnings(look, found, told)),
        }
    )


def standing_of(look: MoldLook) -> Standing:
    """How a level of the rubber reads from the floor as the piece stands.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    callable
        From a level above the box's floor to a height [m]; None for a piece that lies on its side or askew.
    """
    frame, pour = look.piece.frame, look.mold.pour

    def standing(level: float) -> float | None:
        if not frame.upright:
            return None
        return frame.as_standing(level - pour.base if pour.method == "hung" else pour.master_height - level)

    return standing


def _curve(curve: Curve, worst: float, standing: Standing) -> FloatCurve:
    """The curves, thinned for paper; their ends and the worst level stay."""
    size = curve.levels.size
    kept = {*range(0, size, max(math.ceil(size / POINTS), 1)), size - 1}
    kept.add(int(np.argmin(np.abs(curve.levels - worst))))
    at = sorted(kept)
    heights = [standing(float(level)) for level in curve.levels[at]]
    told = [height for height in heights if height is not None]
    return FloatCurve(
        level_m=[float(level) for level in curve.levels[at]],
        standing_m=told if len(told) == len(at) else None,
        lift_N=[float(force) for force in curve.lift[at]],
        tight_N=[float(force) for force in curve.tight[at]],
    )


def _bars(look: MoldLook, found: MoldFloats, held: BarsHeld) -> FloatBars:
    bars, other = held.bars, held.instead
    return FloatBars(
        board=bars.board.name,
        count=bars.count,
        section_m=(bars.width, bars.height),
        span_m=bars.span,
        across="left to right" if found.bars_along == "x" else "front to back",
        touches_m=min(bars.spread, bars.span),
        fit=found.bars_fit,
        mass_kg=bars.mass,
        limit_m=HOLD["bend_limit"].value,
        stress_allowed_Pa=HOLD["bar_share"].value * bars.board.bending_strength.value,
        hanging=_bend(held.hanging),
        drowned=_bend(held.drowned),
        holds=held.holds,
        instead_count=None if other is None else other.count,
        instead_section_m=None if other is None else (other.width, other.height),
        weight_each_kg=look.mold.hold_down.weight_needed / bars.count,
        panels_kg=found.panels_mass,
    )


def _bend(bend: Bend) -> FloatBend:
    return FloatBend(force_N=bend.force, bends_m=bend.deflection, stress_Pa=bend.stress, holds=bend.holds)


def _screws(look: MoldLook, found: MoldFloats) -> FloatScrews | None:
    screws, choices = found.screws, look.mold.choices
    if screws.screw is None or not screws.wood.holds_screws:
        return None
    return FloatScrews(
        count=screws.count,
        count_face=screws.count_face,
        size=screw_size(screws.screw, look.system),
        diameter_m=screws.screw.diameter,
        length_m=screws.screw.length,
        depth_m=screws.screw.depth,
        bears_N=screws.each,
        force_N=screws.force,
        apart_m=screws.apart,
        into=(choices.master_board or choices.board).name,
    )


def _block(name: str, held: HeldBlock, standing: Standing) -> FloatBlock:
    return FloatBlock(
        letter=name,
        wall=held.block.wall,
        mass_kg=held.weight / STANDARD_GRAVITY,
        net_N=held.worst.force,
        worst_level_m=held.worst.level,
        worst_standing_m=standing(held.worst.level),
        off_panel_m=on_panel(held.block)[2],
        moment_Nm=held.moment,
        pull_N=held.pull,
        push_N=held.push,
        screws=held.screws.number,
        screws_used=held.used,
    )
