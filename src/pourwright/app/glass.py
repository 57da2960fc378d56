"""The glass of a job: its record with the mixtures that the job names."""

from __future__ import annotations

from pourwright.foundation.errors import UserError
from pourwright.jobs.job import Job
from pourwright.jobs.sections import Band
from pourwright.materials import Glass, Materials
from pourwright.materials.blends import blend_name, with_blends


def glass_of(job: Job, materials: Materials) -> Glass:
    """Look up the glass of a job.

    Parameters
    ----------
    job : Job
        With its bands.
    materials : Materials
        The families and the shop's own records.

    Returns
    -------
    Glass
        Mixtures are grades of it.

    Raises
    ------
    UserError
        For a glass or a grade that is not known, with its line.
    """
    glass: Glass = materials.find("glass", job.fill.glass, job.where("fill.glass"))
    for number, band in enumerate(job.band, 1):
        for portion, (grade, _) in enumerate(band.blend, 1):
            glass.grade(grade, job.where(f"band[{number}].mix[{portion}].grade"))
    for number, stocked in enumerate(job.fill.stock, 1):
        glass.grade(stocked.grade, job.where(f"fill.stock[{number}].grade"))
        if stocked.mass.si <= 0.0:
            raise UserError(
                f"a stock of {stocked.mass.text}",
                where=job.where(f"fill.stock[{number}].mass"),
                allowed="more than nothing",
                todo="weigh it, or leave the line out",
            )
    return with_blends(glass, (band.blend for band in job.band if band.mix))


def grade_of(band: Band) -> str | None:
    """Name the grade of a band, or its mixture; None where it is neat."""
    return blend_name(band.blend) if band.mix else band.grade
