"""The finished mold of a job, filled with measured water."""

from __future__ import annotations

from math import isfinite

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.seams_found import seams_of
from pourwright.app.molding.water_words import (
    drying_words,
    near_mouth,
    reading_words,
    step_words,
    water_cautions,
)
from pourwright.app.setup import ANY_DAY, climate
from pourwright.foundation.notation import ZERO_CELSIUS, UnitSystem
from pourwright.foundation.progress import Progress
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.mold_seams import WaterFall, WaterMark, WaterTest
from pourwright.mold.lifting import people_to_lift
from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.seams.liquid import thawed
from pourwright.mold.seams.water_test import Fall, Mark, fall, held_shut, mark_step, marks
from pourwright.physics.water import water_density

MILLIMETRE = 0.001


def water_look(look: MoldLook, progress: Progress) -> WaterTest:
    """Plan the water test.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    WaterTest
    """
    del progress
    levels, shop = look.piece.levels, thawed(climate(look.job, ANY_DAY).mean)
    density, step = float(water_density(shop)), mark_step(levels.total, _unit(look))
    falls, widest = _falls(look, shop), seams_of(look).cast.widest
    water = levels.total * density
    mold = None if look.mold.choices.way == "skin" else look.mold.empty_mass + water
    times = _times(look, falls)
    return WaterTest(
        water_m3=levels.total,
        water_kg=water,
        step_m3=step,
        mold_kg=mold,
        people=people_to_lift(water if mold is None else mold),
        water_degC=shop - ZERO_CELSIUS,
        marks=[_mark(look, mark, density) for mark in marks(levels, step)],
        widest_gap_m=widest if falls and isfinite(widest) else None,
        falls=[
            WaterFall(after_h=each.time / 3600.0, lost_m3=each.volume, drop_m=each.drop) for each in falls
        ],
        times_the_cast=times,
        kept_out_floor_m=held_shut(look.piece.size[2]),
        kept_out_top_m=held_shut(min(near_mouth(look), look.piece.size[2])),
        dries_h=SEAMS["dries"].value / 3600.0,
        dry_needed=look.fill is not None,
        steps=list(step_words(look, step, density)),
        reading=list(reading_words(look, falls, times)),
        drying=list(drying_words(look)),
        cautions=list(water_cautions(look, water if mold is None else mold)),
    )


def _unit(look: MoldLook) -> float:
    name = "l" if look.system is UnitSystem.METRIC else "quart"
    return float(UNITS[Dimension.VOLUME][name].factor)


def _mark(look: MoldLook, mark: Mark, density: float) -> WaterMark:
    frame = look.piece.frame
    return WaterMark(
        water_m3=mark.volume,
        water_kg=mark.volume * density,
        height_m=mark.height,
        height_standing_m=max(frame.as_standing(mark.height), 0.0) if frame.upright else None,
        dip_m=look.mold.rim - mark.height,
        millimetre_m3=mark.area * MILLIMETRE,
    )


def _falls(look: MoldLook, shop: float) -> list[Fall]:
    """How a mold empties whose gaps are as wide as the casting allows; nothing where it has no seam."""
    cast = seams_of(look).cast
    joints = [leak.joint for leak in cast.sure]
    if not joints or cast.liquid.kind != "resin" or not isfinite(cast.widest):
        return []
    times = (SEAMS["first_look"].value, SEAMS["test_time"].value)
    return [fall(look.piece.levels, joints, cast.widest, shop, time) for time in times]


def _times(look: MoldLook, falls: list[Fall]) -> float | None:
    """Water lost over what is lost of the casting, by volume."""
    if not falls:
        return None
    cast = seams_of(look).cast
    return falls[-1].volume * cast.liquid.density / cast.allowed
