"""How the piece comes out of its rubber, told from the mold."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from pourwright.app.heights import in_both
from pourwright.app.molding.box import box_look
from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.way_out_rubber_words import RubberTeller
from pourwright.app.molding.way_out_words import OutTeller
from pourwright.app.shaping.sizes.defaults import DEFAULTS as SIZES
from pourwright.app.shaping.thin import Thin, measure_thin
from pourwright.foundation.notation import format_volume
from pourwright.foundation.progress import Progress
from pourwright.geometry.ways_up.held import Held
from pourwright.jobs.mold_box import Box
from pourwright.jobs.mold_way_out import (
    AirInlet,
    DraftShares,
    HeldRubber,
    LooseRubber,
    MoldWayOut,
    RubberBulge,
    RubberCut,
    RubberTongue,
    WarmRubber,
)
from pourwright.materials import Resin
from pourwright.mold.way_out.cut import Cut
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.way_out.design import Case, design_way_out
from pourwright.mold.way_out.inlets import Inlet
from pourwright.mold.way_out.order import keeping, making_the_cut, opening_order
from pourwright.mold.way_out.places import spot_words
from pourwright.mold.way_out.result import WayOut
from pourwright.mold.way_out.soft import Tongue
from pourwright.physics.hydrostatics import pressure_at_depth

MOST = 8
"""Regions and kinds of slots that are told."""


def way_out_look(look: MoldLook, progress: Progress) -> MoldWayOut:
    """Say how the piece comes out.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Told what is done.

    Returns
    -------
    MoldWayOut
    """
    return _part(look, way_out_of(look), _thin_of(look), _panels(box_look(look, progress)))


def _panels(box: Box | None) -> float | None:
    """What the worst panel bulges as built [m]; None without a box, or where its panels are far too thin."""
    held = [panel.held_m for panel in box.panels] if box else []
    known = [each for each in held if each is not None]
    return max(known) if known and len(known) == len(held) else None


@lru_cache(maxsize=2)
def way_out_of(look: MoldLook) -> WayOut:
    """Decide how the piece of a job comes out; seams ask too.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    WayOut
    """
    mold, thin = look.mold, _thin_of(look)
    return design_way_out(
        Case(
            mesh=look.piece.mesh,
            inside=mold.inside[:2],
            base=mold.base,
            blocks=mold.blocks,
            rubber=mold.choices.rubber,
            pressure=float(pressure_at_depth(look.piece.size[2], look.densest)),
            warmer=_warmer(look),
            held=SIZES["held"].value,
            slots=[(spot.part, spot.count) for spot in thin.spaces],
        )
    )


@lru_cache(maxsize=2)
def _thin_of(look: MoldLook) -> Thin:
    """Slots and holes of the piece."""
    return measure_thin(look.piece.mesh, look.system)


def _warmer(look: MoldLook) -> float:
    """How much warmer the rubber gets at worst, on average: the resin at its limit, or a mineral setting."""
    if not isinstance(look.casting, Resin):
        return SIZES["mineral_warmth"].value
    shop = look.job.shop.day_temperature or look.job.shop.temperature
    assert shop is not None
    return SIZES["warm_share"].value * max(look.casting.peak_limit.value - shop.si, 0.0)


def _part(look: MoldLook, out: WayOut, thin: Thin, panels: float | None) -> MoldWayOut:
    teller, rubber = OutTeller(look, out), RubberTeller(look, out)
    strain = out.hinge.strain if out.hinge else out.pull.strain
    stretched = out.hinge is not None or out.pull.margin is not None
    return MoldWayOut(
        opening=out.opening,
        reason=teller.reason(),
        draft=DraftShares(
            undercut=out.drafts.undercut, upright=out.drafts.upright, little=out.drafts.little,
            free=out.drafts.free,
        ),
        held=list(_held(look, out)),
        plugs=[_loose(look, plug) for plug in out.plugs],
        cores=[_loose(look, core) for core in out.cores],
        cuts=[_cut(look, cut, out.cuts[0]) for cut in out.cuts],
        modulus_Pa=out.modulus.likely,
        modulus_low_Pa=out.modulus.low,
        modulus_high_Pa=out.modulus.high,
        stretch_share=out.pull.strain,
        stretch_margin=out.pull.margin,
        stretch_force_N=out.pull.force,
        hinge_share=out.hinge.strain if out.hinge else None,
        hinge_margin=out.hinge.margin if out.hinge else None,
        hinge_force_N=out.hinge.force if out.hinge else None,
        book_force_N=out.book.force,
        nick_m=WAY_OUT["nick"].value,
        nick_grows_share=out.soft.notch_strain,
        nick_margin=out.soft.notch_strain / max(strain, 1e-9) if stretched else None,
        tongues=[_tongue(look, tongue) for tongue in out.tongues[:MOST]],
        suction_m2=out.suction.area,
        suction_N=out.suction.force,
        suction_kg=out.suction.kilograms,
        air_creeps_in_h=out.suction.creeps_in / 3600.0,
        floor_follows_N=out.suction.floor_follows,
        suction=rubber.suction(),
        air=[_air(inlet, rubber) for inlet in out.inlets],
        bulge=_bulge(out, rubber, panels),
        warm=_warm(out, rubber),
        order=list(opening_order(out, look.system)),
        keeping=list(keeping(look.mold.rubber.mass, look.system)),
        warnings=list(teller.warnings()),
        cautions=list(teller.cautions(thin)),
    )  # fmt: skip


def _held(look: MoldLook, out: WayOut) -> Iterator[HeldRubber]:
    for number, region in enumerate(out.held[:MOST], 1):
        x, y, z = (float(value) for value in region.place)
        frame = look.piece.frame
        yield HeldRubber(
            number=number, volume_m3=region.volume, reaches_in_m=region.depth, x_m=x, y_m=y, z_m=z,
            height_m=z, height_standing_m=max(frame.standing_height((x, y, z)), 0.0),
            where=in_both(frame, z, look.system, (x, y, z)), closed_above=region.roofed,
        )  # fmt: skip


def _cut(look: MoldLook, cut: Cut, first: Cut) -> RubberCut:
    box = look.mold.inside[:2]
    words = list(making_the_cut(cut, box, look.system))
    if cut is not first and words[1:] == list(making_the_cut(first, box, look.system))[1:]:
        words = [words[0], "as the first"]
    return RubberCut(
        side=spot_words(cut.angle, box, look.system), angle_deg=float(np.degrees(cut.angle)),
        length_m=cut.length, land_m=cut.land, depth_m=cut.depth, ends_at_m=cut.ends_at,
        area_m2=cut.area, opens_m=cut.width,
        on_edge=cut.on_edge, waves=cut.waves, wave_m=cut.wave,
        words=words,
    )  # fmt: skip


def _tongue(look: MoldLook, tongue: Tongue) -> RubberTongue:
    place = tongue.part.place
    x, y, z = (float(value) for value in place)
    assert tongue.part.stands is not None
    return RubberTongue(
        kind="hole" if tongue.part.pin else "slot", count=tongue.count,
        thickness_m=tongue.part.thickness, depth_m=tongue.part.stands,
        where=in_both(look.piece.frame, z, look.system, (x, y, z)),
        root_stress_Pa=tongue.stress, margin=tongue.margin,
    )  # fmt: skip


def _loose(look: MoldLook, region: Held) -> LooseRubber:
    x, y, z = (float(value) for value in region.place)
    words = f"{format_volume(region.volume, look.system)} of rubber"
    return LooseRubber(volume_m3=region.volume, x_m=x, y_m=y, z_m=z, words=words)


def _air(inlet: Inlet, rubber: RubberTeller) -> AirInlet:
    x, y, z = inlet.place
    return AirInlet(kind=inlet.kind, x_m=x, y_m=y, z_m=z, way=inlet.way, words=rubber.air(inlet))


def _bulge(out: WayOut, rubber: RubberTeller, panels: float | None) -> RubberBulge:
    bulge = out.bulge
    return RubberBulge(
        pressure_Pa=bulge.pressure, panels_m=panels, rubber_m=bulge.in_box,
        in_box_m=None if panels is None else bulge.in_box + panels,
        in_shell_m=bulge.in_shell, alone_m=bulge.alone,
        alone_low_m=bulge.alone_low, alone_high_m=bulge.alone_high, more_m3=bulge.more,
        gives_way=bulge.gives_way, words=rubber.bulge(panels),
    )  # fmt: skip


def _warm(out: WayOut, rubber: RubberTeller) -> WarmRubber:
    warm = out.warm
    return WarmRubber(
        warmer_K=warm.warmer, places=list(rubber.thick()), thin_m=warm.thin, thin_in_m=warm.thin_in,
        shows=warm.shows, words=rubber.warm(),
    )  # fmt: skip
