"""What no single key about bottles can tell: colours against bands, weighings against each other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length, format_mass
from pourwright.jobs.errors import Finding
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath

if TYPE_CHECKING:
    from pourwright.fill.bottles.sieving import CrushedSizes

Found = tuple[KeyPath, Finding]
LIGHTEST, HEAVIEST = 0.02, 5.0
"""Of a bottle [kg]."""
FINEST, WIDEST = 0.02e-3, 125e-3
"""Sieve openings [m]."""


def bottle_checks(job: Job) -> Iterator[Found]:
    """Check what is said about bottles.

    Parameters
    ----------
    job : Job
        Already valid key by key.

    Yields
    ------
    tuple
        Key path; what is wrong, what is allowed, what to do.
    """
    yield from _kinds(job)
    yield from _colours(job)
    odd = list(_sieves(job))
    yield from odd
    if job.bottles.sieving and not odd:
        yield from _weighings(job)


def written_sizes(job: Job) -> CrushedSizes | None:
    """Read the sizes of crushed glass from the sieve weighings of a job.

    Parameters
    ----------
    job : Job
        As written.

    Returns
    -------
    CrushedSizes or None
        None where nothing was sieved.

    Raises
    ------
    UserError
        For weighings that do not sum, and fewer than two useful sieves.
    """
    written = job.bottles
    if not written.sieving:
        return None
    # a job without weighings is read without the numerical libraries
    from pourwright.fill.bottles.sieving import sieve_test, sizes_of  # noqa: PLC0415

    in_shares = written.sieving[0].share is not None
    held = [
        (each.sieve.si, each.stayed.si if each.stayed is not None else each.share or 0.0)
        for each in written.sieving
    ]
    pan, crushed = (None if each is None else each.si for each in (written.pan, written.crushed))
    test = sieve_test(held, pan, 1.0 if in_shares else crushed, UnitSystem(job.units), in_shares=in_shares)
    return sizes_of(test)


def _weighings(job: Job) -> Iterator[Found]:
    try:
        written_sizes(job)
    except UserError as error:
        yield ("bottles", "sieving"), (error.what, error.allowed, error.todo)


def _kinds(job: Job) -> Iterator[Found]:
    for i, kind in enumerate(job.bottles.kind):
        if not LIGHTEST <= kind.mass.si <= HEAVIEST:
            ends = " to ".join(format_mass(end, job.units) for end in (LIGHTEST, HEAVIEST))
            yield ("bottles", "kind", i, "mass"), (f"a bottle of {kind.mass.text}", ends, "weigh one, empty")


def _sieves(job: Job) -> Iterator[Found]:
    for i, each in enumerate(job.bottles.sieving):
        if not FINEST <= each.sieve.si <= WIDEST:
            ends = " to ".join(format_length(end, job.units, digits=2) for end in (FINEST, WIDEST))
            came = f"a sieve with openings of {each.sieve.text}"
            yield ("bottles", "sieving", i, "sieve"), (came, ends, "read it on the sieve's rim")
        if each.stayed is not None and each.stayed.si < 0.0:
            came = f"{each.stayed.text!r} is below zero"
            yield ("bottles", "sieving", i, "stayed"), (came, "0 or more", "weigh it again")


def _colours(job: Job) -> Iterator[Found]:
    bottles = job.bottles
    if not bottles.kind:
        return
    there = dict.fromkeys([*(kind.colour for kind in bottles.kind), *bottles.bought])
    for i, band in enumerate(job.band):
        asked: list[tuple[str | None, KeyPath]] = [(band.colour, ("band", i, "colour"))]
        asked += [] if band.shell is None else [(band.shell.colour, ("band", i, "shell", "colour"))]
        for colour, where in asked:
            if not band.neat and colour is not None and not {colour, None} & set(there):
                allowed = ", ".join(each for each in there if each is not None)
                todo = "add a [[bottles.kind]] of that colour, or name it in bottles.bought"
                yield where, (f"no bottles of {colour} are collected", allowed, todo)
