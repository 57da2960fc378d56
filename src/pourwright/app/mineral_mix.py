"""From the words of a job to the mix of a casting material that is mixed with water."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shaping.thin import measure_thin
from pourwright.fill import DEFAULTS
from pourwright.fill.mineral_defaults import MINERALS
from pourwright.fill.minerals import Aggregate, MineralMix, mix_mineral
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.jobs.job import Job
from pourwright.materials import Materials, Mineral
from pourwright.materials.records import Glass, Grade


def mineral_mix(
    job: Job, materials: Materials, mineral: Mineral, volume: float, *, allowance: float | None = None
) -> MineralMix:
    """Reckon powder, water and glass of a job.

    Parameters
    ----------
    job : Job
        One variant.
    materials : Materials
        For the glass.
    mineral : Mineral
        The casting material.
    volume : float
        Of the room that is filled [m3].
    allowance : float, optional
        Share mixed on top [-]; else the job's.

    Returns
    -------
    MineralMix

    Raises
    ------
    UserError
        For water, glass or a grade that cannot be, with the line it stands on.
    """
    if allowance is None:
        allowance = DEFAULTS["allowance"].value if job.fill.allowance is None else job.fill.allowance
    grains = aggregate_of(job, materials)
    _at(job, "fill.water_ratio", lambda: mix_mineral(volume, mineral, water_ratio=job.fill.water_ratio))
    return _at(
        job,
        "fill.aggregate",
        lambda: mix_mineral(volume, mineral, allowance, water_ratio=job.fill.water_ratio, aggregate=grains),
    )


def _at(job: Job, key: str, make: Callable[[], MineralMix]) -> MineralMix:
    """Say on which line a choice stands that the fill room refuses."""
    try:
        return make()
    except UserError as refused:
        raise UserError(
            refused.what, where=job.where(key), allowed=refused.allowed, todo=refused.todo
        ) from None


def aggregate_of(job: Job, materials: Materials) -> Aggregate | None:
    """Glass that is stirred in.

    Parameters
    ----------
    job : Job
        One variant.
    materials : Materials
        For the glass.

    Returns
    -------
    Aggregate or None
        None where the job has none.

    Raises
    ------
    UserError
        For a grade that there is not.
    """
    if not job.fill.aggregate:
        return None
    glass: Glass = materials.find("glass", job.fill.glass, job.where("fill.glass"))
    grade = aggregate_grade(job, glass)
    return Aggregate(job.fill.aggregate, glass.density.value, grade.void_fraction.value)


def aggregate_grade(job: Job, glass: Glass) -> Grade:
    """Grade of the glass that is stirred in.

    Parameters
    ----------
    job : Job
        One variant.
    glass : Glass
        With its grades.

    Returns
    -------
    Grade
        The one named, else the coarsest of the bands.

    Raises
    ------
    UserError
        For a grade that there is not, or none at all.
    """
    if job.fill.aggregate_grade is not None:
        return glass.grade(job.fill.aggregate_grade, job.where("fill.aggregate_grade"))
    named = [
        glass.grade(band.grade, job.where(f"band[{number}].grade"))
        for number, band in enumerate(job.band, 1)
        if band.grade is not None
    ]
    if not named:
        raise UserError(
            "no grade is named for the glass that is stirred in",
            where=job.where("fill.aggregate"),
            allowed=", ".join(grade.id for grade in glass.grades),
            todo='write aggregate_grade = "..." beside it',
        )
    return max(named, key=lambda grade: grade.sieve_to.value)


def refuse_coarse(job: Job, materials: Materials, piece: PieceRead) -> None:
    """Refuse glass that jams in the narrowest place of the piece.

    Parameters
    ----------
    job : Job
        One variant.
    materials : Materials
        For the glass.
    piece : PieceRead
        Its shape.

    Raises
    ------
    UserError
        Where fewer than three of the largest grains lie side by side, with the place.
    """
    if not job.fill.aggregate:
        return
    grade = aggregate_grade(job, materials.find("glass", job.fill.glass, job.where("fill.glass")))
    wall, place = _least_wall(job, piece)
    least = MINERALS["grains_across"].value * grade.sieve_to.value
    if wall >= least - 1e-9:
        return
    system = UnitSystem(job.units)
    named = "fill.aggregate" if job.fill.aggregate_grade is None else "fill.aggregate_grade"
    largest = format_length(grade.sieve_to.value, system, digits=1)
    raise UserError(
        f"{grade.id} glass of up to {largest} jams {place}, which is {format_length(wall, system)} thick",
        where=job.where(named),
        allowed=f"grains up to {format_length(wall / MINERALS['grains_across'].value, system, digits=1)}",
        todo="take a finer grade, or none",
    )


def _least_wall(job: Job, piece: PieceRead) -> tuple[float, str]:
    """Narrowest place that grains must pass [m], and where it is."""
    wall, height = narrowest(piece)
    if job.hollow is not None and job.hollow.wall.si < wall:
        return job.hollow.wall.si, "beside the core"
    up = format_length(height, UnitSystem(job.units))
    return wall, f"in the narrowest place, {up} up from the mold's floor"


def narrowest(piece: PieceRead) -> tuple[float, float]:
    """Narrowest place of a piece.

    Parameters
    ----------
    piece : PieceRead
        In the pour frame.

    Returns
    -------
    tuple of float
        Its thickness, and its height from the mold's floor [m]; points and edges apart.
    """
    found = measure_thin(piece.mesh, UnitSystem.METRIC)
    rows = np.flatnonzero(~found.apart)
    if not rows.size:
        return float(min(piece.size)), 0.0
    least = rows[np.argmin(found.map.balls[rows])]
    return float(found.map.balls[least]), float(found.map.middles[least, 2])
