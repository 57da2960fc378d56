"""What was learnt, put into the records and choices that the next plan is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType

from pourwright.calibration.learning.record import Learned
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.foundation.sources import Kind, Sourced
from pourwright.jobs.job import Job
from pourwright.materials import Glass, Grade, Materials, Resin

SOURCE = "shop-records"


def with_learned(materials: Materials, learned: Iterable[Learned]) -> Materials:
    """Materials as this shop has found them; a number that kept its family's value stays as it is."""
    for one in learned:
        put = _PUTS.get(one.quantity)
        if put is not None and not one.kept_family:
            materials = put(materials, one)
    return materials


def choices_with_learned(job: Job, learned: Iterable[Learned]) -> Job:
    """The job with what was learnt of pail and film, where the job itself says nothing of them."""
    found = {one.quantity: one.value for one in learned if not one.kept_family}
    more: dict[str, object] = {}
    if job.fill.bucket_loss is None and "bucket_loss" in found:
        more["bucket_loss"] = found["bucket_loss"]
    if job.fill.film is None and "film" in found:
        metres = found["film"]
        more["film"] = Quantity(metres, Dimension.LENGTH, f"{1000.0 * metres:.3f} mm")
    return job if not more else job.model_copy(update={"fill": job.fill.model_copy(update=more)})


def _sourced(one: Learned, before: Sourced) -> Sourced:
    conditions = f"from {one.records} of this shop's records"
    return Sourced(one.value, before.unit, one.low, one.high, Kind.MEASURED, SOURCE, conditions)


def _voids(materials: Materials, one: Learned) -> Materials:
    return _graded(
        materials, one, lambda grade: replace(grade, void_fraction=_sourced(one, grade.void_fraction))
    )


def _yield(materials: Materials, one: Learned) -> Materials:
    return _graded(materials, one, lambda grade: replace(grade, crush_yield=_sourced(one, grade.crush_yield)))


def _graded(materials: Materials, one: Learned, change: Callable[[Grade], Grade]) -> Materials:
    def changed(glass: Glass) -> Glass:
        grades = (change(grade) if grade.id == one.subject else grade for grade in glass.grades)
        return replace(glass, grades=tuple(grades))

    return replace(materials, glass={key: changed(glass) for key, glass in materials.glass.items()})


def _shrinkage(materials: Materials, one: Learned) -> Materials:
    return _resin(
        materials, one, lambda resin: replace(resin, cure_shrinkage=_sourced(one, resin.cure_shrinkage))
    )


def _cure_rate(materials: Materials, one: Learned) -> Materials:
    """Both rates by the same factor: the shape of the cure stays the family's."""

    def change(resin: Resin) -> Resin:
        cure = resin.cure
        first, second = (_times(rate, one.value) for rate in (cure.frequency_1, cure.frequency_2))
        return replace(
            resin,
            cure=replace(cure, frequency_1=first, frequency_2=second),
            pot_life=_times(resin.pot_life, 1.0 / one.value),
            film_gel_time=_times(resin.film_gel_time, 1.0 / one.value),
        )

    return _resin(materials, one, change)


def _times(number: Sourced, factor: float) -> Sourced:
    low, high = (None if edge is None else factor * edge for edge in (number.low, number.high))
    return replace(number, value=factor * number.value, low=low, high=high, kind=Kind.MEASURED, source=SOURCE)


def _resin(materials: Materials, one: Learned, change: Callable[[Resin], Resin]) -> Materials:
    if one.subject not in materials.resin:
        return materials
    return replace(materials, resin={**materials.resin, one.subject: change(materials.resin[one.subject])})


_PUTS: Mapping[str, Callable[[Materials, Learned], Materials]] = MappingProxyType(
    {
        "void_fraction": _voids,
        "crush_yield": _yield,
        "shrinkage": _shrinkage,
        "cure_rate": _cure_rate,
    }
)
