"""The fill of a job as layers of glass, before any mold is designed."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.app.glass import grade_of
from pourwright.jobs.job import Job
from pourwright.jobs.sections import Band
from pourwright.materials import Glass
from pourwright.physics.permeability import mean_grain


@dataclass(frozen=True)
class Layer:
    """One layer of a casting as poured.

    Parameters
    ----------
    lower, upper : float
        From the mold's floor [m].
    solid : float
        Of grains in it [-]; 0 where it is neat.
    grade : str
        In words; empty where it is neat.
    grain : float
        Mean diameter [m].
    """

    lower: float
    upper: float
    solid: float = 0.0
    grade: str = ""
    grain: float = 0.0


def layers_of(job: Job, glass: Glass, height: float) -> tuple[Layer, ...]:
    """Lay out the bands of a job, the neat cover over the topmost glass too.

    Parameters
    ----------
    job : Job
        With its bands.
    glass : Glass
        Whose grades they name.
    height : float
        Of the cavity [m].

    Returns
    -------
    tuple of Layer
        From the floor up; one neat layer where the job has no bands.

    Raises
    ------
    UserError
        For a grade that the glass does not have, with its line.
    """
    lower, found = 0.0, []
    for number, band in enumerate(job.band, 1):
        upper = height if band.to is None else min(band.to.si, height)
        if upper > lower:
            found.append(_layer(band, glass, lower, upper, job.where(f"band[{number}].grade")))
            lower = upper
    if not found:
        return (Layer(0.0, height),)
    *below, top = found
    cover = 0.0 if not top.solid else min(_cover(job, glass, top.grade), top.upper - top.lower)
    if not cover:
        return tuple(found)
    glassy = Layer(top.lower, top.upper - cover, top.solid, top.grade, top.grain)
    return (*below, glassy, Layer(top.upper - cover, top.upper))


def _layer(band: Band, glass: Glass, lower: float, upper: float, where: str) -> Layer:
    name = grade_of(band)
    if name is None:
        return Layer(lower, upper)
    grade = glass.grade(name, where)
    void = grade.void_fraction.value if band.void_fraction is None else band.void_fraction
    test = band.bucket_test
    if test is not None and test.mass is not None:
        void = 1.0 - test.mass.si / test.volume.si / glass.density.value
    elif test is not None and test.water is not None:
        void = test.water.si / test.volume.si
    grain = mean_grain(grade.sieve_from.value, grade.sieve_to.value)
    return Layer(lower, upper, min(max(1.0 - void, 0.0), 0.95), name, grain)


def _cover(job: Job, glass: Glass, grade: str) -> float:
    """Neat resin over the topmost glass [m]: as stated, else one largest grain."""
    if job.fill.neat_cover is not None:
        return job.fill.neat_cover.si
    return glass.grade(grade).sieve_to.value
