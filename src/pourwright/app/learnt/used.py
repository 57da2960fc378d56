"""Which of the shop's learnt numbers a job is made with, as its documents tell them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.app.glass import grade_of
from pourwright.app.learnt.in_force import in_force, mold_name
from pourwright.app.learnt.paces import STEPS
from pourwright.app.learnt.words import counted, phrase_of, told
from pourwright.calibration.learning.record import Learned
from pourwright.foundation.sources import load_sources
from pourwright.jobs.job import Job
from pourwright.jobs.plan import PlanDocument, Reason, SourceUsed
from pourwright.jobs.plan_learnt import LearntNumber

SOURCE = "shop-records"
MEASURED = "measured here"
OF_PLANS = ("hours", "scrap_rate", "heat_film")


def used_by(job: Job) -> list[Learned]:
    """List what holds in the shop and counts for a job; what the job itself says counts more."""
    wanted = set(_wanted(job))
    return [one for one in in_force(job.path.parent) if (one.quantity, one.subject) in wanted]


def used_in_sheets(job: Job) -> list[Learned]:
    """As `used_by`, without what counts only once pours are planned: hours, scrap, the air outside."""
    return [one for one in used_by(job) if one.quantity not in OF_PLANS]


def _wanted(job: Job) -> Iterator[tuple[str, str]]:
    yield from ((name, job.casting.material) for name in ("cure_rate", "shrinkage"))
    yield from ((name, mold_name(job)) for name in ("cavity", "heat_film"))
    yield "scrap_rate", "pieces"
    yield from (("hours", step) for step in STEPS)
    yield from (("bucket_loss", "pail"),) if job.fill.bucket_loss is None else ()
    yield from (("film", "mold"),) if job.fill.film is None else ()
    for band in job.band:
        grades = [grade for grade, _ in band.blend] if band.mix else [grade_of(band)]
        own = band.void_fraction is not None or band.bucket_test is not None
        for grade in filter(None, grades):
            yield "crush_yield", grade
            yield from () if own else (("void_fraction", grade),)


def learnt_numbers(job: Job) -> list[LearntNumber]:
    """Tell what the mold and the fill of a job are made with, learnt or kept."""
    return [number_of(one, job) for one in used_in_sheets(job)]


def number_of(one: Learned, job: Job) -> LearntNumber:
    """Tell one number in a job's units."""
    return LearntNumber(
        quantity=one.quantity,
        subject=one.subject,
        value=one.value,
        low=one.low,
        high=one.high,
        records=one.records,
        kept_family=one.kept_family,
        words=told(one, job.units),
    )


def with_learnt(document: PlanDocument, job: Job, learned: Sequence[Learned]) -> PlanDocument:
    """Say in a plan what of it was learnt, from how many records, and where the family's value was kept.

    ``learned`` is what held when the plan was begun.
    """
    if not learned:
        return document
    reasons = [
        Reason(key=f"learnt.{one.quantity}.{one.subject}", text=told(one, job.units)) for one in learned
    ]
    own = [f"{phrase_of(one, job.units)}, {counted(one)}" for one in learned if not one.kept_family]
    return document.model_copy(
        update={
            "learnt": [number_of(one, job) for one in learned],
            "reasons": [*document.reasons, *reasons],
            "sources": _with_own(document.sources, own),
        }
    )


def _with_own(sources: list[SourceUsed], own: list[str]) -> list[SourceUsed]:
    """Name what was learnt in the line of the shop's own records."""
    if not own:
        return sources
    there = [each for each in sources if (each.id, each.kind) == (SOURCE, MEASURED)]
    said = "; ".join([*(each.used_for for each in there), *own])
    line = SourceUsed(id=SOURCE, citation=load_sources()[SOURCE].printed, kind=MEASURED, used_for=said)
    return [*(each for each in sources if each not in there), line]
