"""The heat of gypsum or concrete as it sets, on the real shape, as part of the fill's document."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from math import exp
from zoneinfo import ZoneInfo

from pourwright.app.defaults import DEFAULTS
from pourwright.app.filling.look import FillLook
from pourwright.app.filling.mineral import UNKNOWN, roughly
from pourwright.app.memory import count_cells
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.setup import OPENS, climate
from pourwright.fill.mineral_defaults import MINERALS
from pourwright.fill.setting import Setting, setting_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_temperature,
    format_temperature_difference,
)
from pourwright.foundation.progress import Progress
from pourwright.jobs.fill_setting_heat import HeatLimit, SettingHeat
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.job import Job
from pourwright.materials import Core, Mineral as Record
from pourwright.pour.layout import lay_out
from pourwright.pour.setting import SettingSite
from pourwright.pour.setting_run import SettingRun, run_setting
from pourwright.pour.site import Bed, Block, FillProperties, Space
from pourwright.sheets.fill_setting_heat_drawing import draw_setting_heat
from pourwright.sheets.pages.fill_setting_heat import DRAWING

HOUR = 3600.0
SPACING, LAYERS, MOST_CELLS, COARSER = 0.008, 6, 150_000, 1.1
COVERED = (
    "The piece is filled in one go, covered, and stands in its box; what evaporates at the open face is left "
    "out, so that it is a little cooler there."
)
FAMILY = (
    "Heat and times are those of a family: a bag with another binder, retarder or accelerator peaks "
    "elsewhere. Put a thermometer into the first cast."
)


def setting_heat_look(look: FillLook, progress: Progress) -> SettingHeat | None:
    """Run the heat of a casting mixed with water, where it is asked for.

    Parameters
    ----------
    look : FillLook
        The fill; `heat` says whether.
    progress : Progress
        Told every step; may raise Cancelled.

    Returns
    -------
    SettingHeat or None
        None where nobody asked.

    Raises
    ------
    UserError
        For a resin, whose heat a plan tells, and for a record that does not say what sets.
    """
    if not look.heat:
        return None
    record, found = look.casting, _setting(look)
    assert isinstance(record, Record)  # a resin is refused above
    site, spacing = _site(look, found), SPACING
    across, layers = min(look.piece.size[:2]) / LAYERS, look.piece.size[2] / LAYERS
    while count_cells(site, min(spacing, layers), min(spacing, across)) > MOST_CELLS:
        spacing *= COARSER
    layout = lay_out(site, min(spacing, layers), [site.block.height], across=min(spacing, across))
    limit = MINERALS["core_to_face"].value
    seen = run_setting(layout, _hard_at(record, found), limit, progress=progress)
    return _told(look, site, found, seen, spacing)


def setting_heat_files(look: FillLook, sheet: FillSheet) -> Iterator[tuple[str, bytes]]:
    """Draw the warmth against time.

    Parameters
    ----------
    look : FillLook
        Not needed: the sheet has it.
    sheet : FillSheet
        With a heat run of setting, or none.

    Yields
    ------
    tuple
        Path and content.
    """
    del look
    if sheet.setting_heat is not None:
        yield DRAWING, draw_setting_heat(sheet.setting_heat, sheet.job).encode()


def _setting(look: FillLook) -> Setting:
    job, where = look.job, look.job.where("casting.material")
    if look.mix is None or not isinstance(look.casting, Record):
        raise UserError(
            f"'{look.casting.id}' is a resin: --heat is for casting materials mixed with water",
            where=where,
            todo=f"run: pourwright plan {job.path}",
        )
    glass = look.materials.find("glass", job.fill.glass, job.where("fill.glass"))
    found = setting_of(look.casting, look.mix, glass)
    if found is None:
        raise UserError(
            f"no heat of setting is known of '{look.casting.id}': {UNKNOWN}",
            where=where,
            todo="add binder, binder_share, setting_heat and half_heat_time to its record",
        )
    return found


def _hard_at(record: Record, found: Setting) -> float:
    """Degree that it has at its demold time at 20 degC [-]; nearly all where the record has none."""
    if record.demold_time is None:
        return 0.9
    law = found.law
    return min(exp(-((law.retardation / record.demold_time.value) ** law.slope)), 0.995)


def _site(look: FillLook, found: Setting) -> SettingSite:
    mold_look: MoldLook = look_at_mold(look.job, look.piece)
    mold, hollow, start = mold_look.mold, look.hollow, look.job.casting.start_temperature
    height = look.piece.frame.height
    return SettingSite(
        piece=look.piece.mesh if hollow is None else hollow.body.room,
        block=Block(mold.inside[:2], mold.base, mold.choices.thickness, height),
        beds=(Bed(0.0, height, 0.0),),
        rubber=mold.choices.rubber,
        board=mold.choices.board,
        climate=climate(look.job, _zero(look.job)),
        resin_temperature=None if start is None else start.si,
        spaces=tuple(Space(block.lower, block.upper) for block in mold.blocks),
        space_board=mold.choices.block_board if mold.blocks else None,
        core=None if hollow is None else hollow.body.core,
        core_material=None if hollow is None else hollow.material,
        matter=FillProperties(found.capacity, 0.0, found.conductivity, found.heat),
        law=found.law,
    )


def _zero(job: Job) -> datetime:
    """When it is filled: the job's start, else an hour after a shop opens."""
    zone = ZoneInfo(job.shop.time_zone)
    if job.start is not None:
        return job.start if job.start.tzinfo is not None else job.start.replace(tzinfo=zone)
    return datetime(2001, 1, 1, OPENS.hour + 1, tzinfo=zone)


def _told(look: FillLook, site: SettingSite, found: Setting, seen: SettingRun, spacing: float) -> SettingHeat:
    apart, when = seen.history.widest
    stride = max(1, len(seen.history.time) // 200)
    x, y, z = seen.place
    limits = list(_limits(look, site, seen, apart))
    cracks = isinstance(look.casting, Record) and look.casting.binder == "cement"
    times = (seen.hard, seen.even) if cracks else (seen.hard,)
    return SettingHeat(
        poured_degC=site.poured_at(0.0) - ZERO_CELSIUS,
        shop_degC=site.climate.mean - ZERO_CELSIUS,
        peak_degC=seen.peak - ZERO_CELSIUS,
        peak_h=roughly(seen.peak_time) / HOUR,
        peak_x_m=x,
        peak_y_m=y,
        peak_z_m=z,
        peak_standing_m=look.piece.frame.as_standing(z),
        adiabatic_rise_K=found.rise,
        difference_K=apart,
        difference_h=roughly(when) / HOUR,
        limits=limits,
        hard_h=_hours(seen.hard),
        even_h=_hours(seen.even) if cracks else None,
        open_h=_hours(None if None in times else max(time or 0.0 for time in times)),
        time_h=[time / HOUR for time in seen.history.time[::stride]],
        hottest_degC=[value - ZERO_CELSIUS for value in seen.history.hottest[::stride]],
        coldest_degC=[value - ZERO_CELSIUS for value in seen.history.coldest[::stride]],
        cell_m=spacing,
        cells=seen.cells,
        energy_error=seen.energy_error,
        notes=[COVERED, FAMILY],
        warnings=list(_warnings(look, limits, seen)),
    )


def _hours(time: float | None) -> float | None:
    return None if time is None else roughly(time) / HOUR


def _limits(look: FillLook, site: SettingSite, seen: SettingRun, apart: float) -> Iterator[HeatLimit]:
    core = site.core_material.peak_limit.value if isinstance(site.core_material, Core) else None
    known = (
        ("rubber", seen.rubber_peak, site.rubber.peak_limit.value),
        ("box", seen.box_peak, DEFAULTS["box_limit"].value),
        ("core", seen.core_peak, core),
    )
    for name, reached, limit in known:
        if reached is not None and limit is not None:
            yield HeatLimit.model_validate(
                {
                    "name": name,
                    "reached": reached - ZERO_CELSIUS,
                    "limit": limit - ZERO_CELSIUS,
                    "over": reached > limit,
                }
            )
    if isinstance(look.casting, Record) and look.casting.binder == "cement":
        limit = MINERALS["core_to_face"].value
        yield HeatLimit(name="core to face", reached=apart, limit=limit, over=apart > limit)


def _warnings(look: FillLook, limits: list[HeatLimit], seen: SettingRun) -> Iterator[str]:
    system = look.system
    for limit in limits:
        if not limit.over:
            continue
        if limit.name == "core to face":
            apart, most = (
                format_temperature_difference(value, system) for value in (limit.reached, limit.limit)
            )
            yield (
                f"The core gets warmer than the face by {apart}, more than {most} (common practice): the "
                "face may crack. Less cement, more aggregate, a cooler mix or a hollow piece; leave it in "
                "the mold, wrapped."
            )
            continue
        reached, most = (
            format_temperature(value + ZERO_CELSIUS, system) for value in (limit.reached, limit.limit)
        )
        yield (
            f"The {limit.name} gets to {reached} and goes over its limit of {most}: a cooler mix, or a "
            "hollow piece."
        )
    cracks = any(limit.name == "core to face" for limit in limits)
    if cracks and seen.even is not None and seen.hard is not None and seen.even > seen.hard:
        hard, even = (format_duration(roughly(time)) for time in (seen.hard, seen.even))
        yield (
            f"It is hard after {hard} but still too warm inside: open the mold after {even}, or the cold air "
            "cracks its face."
        )
