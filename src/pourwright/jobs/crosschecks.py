"""What no single key can tell: bands against each other, void fractions against their test."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.fill.defaults import HIGHEST_VOID, LOWEST_UNTESTED_VOID, LOWEST_VOID
from pourwright.jobs.bottle_checks import bottle_checks
from pourwright.jobs.bounds import out_of_bounds
from pourwright.jobs.errors import Finding
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.pinchecks import pin_checks

Found = tuple[KeyPath, Finding]


def crosschecks(job: Job) -> Iterator[Found]:
    """Check a job across its keys.

    Parameters
    ----------
    job : Job
        Already valid key by key.

    Yields
    ------
    tuple
        Key path; what is wrong, what is allowed, what to do.
    """
    yield from _ascending(job)
    yield from _voids(job)
    yield from _variant_names(job)
    yield from _nested(job)
    yield from out_of_bounds(job)
    yield from bottle_checks(job)
    yield from pin_checks(job)


def _ascending(job: Job) -> Iterator[Found]:
    below = 0.0
    for i, band in enumerate(job.band):
        last = i == len(job.band) - 1
        if band.to is None:
            if not last:
                yield (
                    ("band", i, "to"),
                    ('a band to "top" below another band', "the last band only", "put it last"),
                )
            continue
        if band.to.si <= below:
            came = f"{band.to.text!r} does not lie above {'the floor' if i == 0 else 'the band below'}"
            yield (
                ("band", i, "to"),
                (came, "heights that rise from the mold's floor", "put the bands in order"),
            )
        below = band.to.si


def _voids(job: Job) -> Iterator[Found]:
    for i, band in enumerate(job.band):
        lowest = LOWEST_VOID if band.bucket_test else LOWEST_UNTESTED_VOID
        if band.void_fraction is None or lowest <= band.void_fraction <= HIGHEST_VOID:
            continue
        without = "" if band.bucket_test else " without a bucket test"
        yield ("band", i, "void_fraction"), (
            f"a void fraction of {band.void_fraction:g}{without}",
            f"{lowest:.2f} to {HIGHEST_VOID:.2f}",
            "measure it: bucket_test = { mass = ..., volume = ... }",
        )  # fmt: skip


def _variant_names(job: Job) -> Iterator[Found]:
    # a name becomes a folder, where blanks are written as one -
    names = ["-".join(variant.name.lower().split()) for variant in job.variant]
    for i, name in enumerate(names):
        if name in names[:i]:
            yield ("variant", i, "name"), (
                f"a second variant called {job.variant[i].name!r}", "names that differ", "rename one of them"
            )  # fmt: skip


def _nested(job: Job) -> Iterator[Found]:
    for i, variant in enumerate(job.variant):
        for name in ("variant", "format"):
            if name in (variant.model_extra or {}):
                yield ("variant", i, name), (
                    f"{name!r} inside a variant", "the other tables and keys of a job", "take it out"
                )  # fmt: skip
