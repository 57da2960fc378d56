"""A thing measured with a tape."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

import numpy as np

from pourwright.app.shaping.displaced import SOAKED, displaced_volume
from pourwright.app.shaping.shaped import Shaped, SizeDoubt
from pourwright.app.shaping.size_words import band_words
from pourwright.app.shaping.tape_defaults import TAPE
from pourwright.app.shaping.tape_doubt import ONE_IN_TEN, TapeDoubt, causes, tape_doubt
from pourwright.app.shaping.tape_rows import TapeRow, body_of
from pourwright.app.shaping.tape_water import Twice, measured_twice, twice_words
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length, format_volume
from pourwright.foundation.quantities import Quantity
from pourwright.geometry import Mesh, measure, refuse_faults
from pourwright.jobs.job import Job
from pourwright.jobs.shape_measured import Measured, Reading


def rows_of(measured: Measured) -> list[TapeRow]:
    """Read the readings of a job in SI.

    Parameters
    ----------
    measured : Measured
        Of the job.

    Returns
    -------
    list of TapeRow
    """
    return [_row(reading) for reading in measured.at]


def _row(reading: Reading) -> TapeRow:
    def si(quantity: Quantity | None) -> float | None:
        return None if quantity is None else quantity.si

    return TapeRow(
        reading.height.si,
        si(reading.girth),
        si(reading.diameter),
        si(reading.width),
        si(reading.depth),
        si(reading.corner),
        reading.closes,
    )


def reading_of(measured: Measured) -> float:
    """How well the tape was read [m]."""
    return TAPE["reading"].value if measured.reading is None else measured.reading.si


def measured_doubt(measured: Measured) -> tuple[Mesh, TapeDoubt]:
    """Lay the body through the readings of a job, and say how far it may lie off.

    Parameters
    ----------
    measured : Measured
        Of the job.

    Returns
    -------
    tuple of Mesh and TapeDoubt
    """
    rows = rows_of(measured)
    body = body_of(rows)
    mesh = body.mesh()
    return mesh, tape_doubt(rows, body, measure(mesh).volume, reading_of(measured))


def taped(job: Job) -> Shaped:
    """Make the body of a job that was measured with a tape.

    Parameters
    ----------
    job : Job
        With ``[shape.measured]``.

    Returns
    -------
    Shaped

    Raises
    ------
    UserError
        Where the readings enclose no body, with the line.
    """
    measured, system = job.shape.measured, UnitSystem(job.units)
    assert measured is not None
    mesh, doubt = measured_doubt(measured)
    mesh, (low, high), told = _with_water(job, mesh, doubt)
    try:
        refuse_faults(mesh, "measured", "in" if system is UnitSystem.US else "mm")
    except UserError as error:
        where = job.where("shape.measured.at")
        raise UserError(f"these readings make no solid: {error}", where=where, todo="mend them") from None
    return Shaped("measured", mesh, told, doubt=SizeDoubt(low, high, ", then ".join(causes(doubt.parts))))


def _with_water(job: Job, mesh: Mesh, doubt: TapeDoubt) -> tuple[Mesh, tuple[float, float], tuple[str, ...]]:
    """Let the water, where there is some, say the volume: widths and depths follow, heights stay as read."""
    twice, system = twice_of(job, doubt), UnitSystem(job.units)
    if twice is None:
        return mesh, doubt.band, tuple(told_of(doubt, system))
    wider = sqrt(twice.volume / doubt.volume)
    both = (
        f"Measured with a tape and by water: {format_volume(twice.volume, system)}, "
        f"{band_words(*twice.band, system)}."
    )
    told = (both, twice_words(twice, system), level_words(level_spread(doubt, twice), system), SOAKED)
    return mesh.transformed(np.diag([wider, wider, 1.0, 1.0])), twice.band, told


def twice_of(job: Job, doubt: TapeDoubt) -> Twice | None:
    """Put the water of a job beside its tape.

    Parameters
    ----------
    job : Job
        With ``[shape.measured]``.
    doubt : TapeDoubt
        Of the tape.

    Returns
    -------
    Twice or None
        None where the job has no water.
    """
    displaced = job.shape.displaced
    return None if displaced is None else measured_twice(doubt, *displaced_volume(displaced))


def told_of(doubt: TapeDoubt, system: UnitSystem) -> Iterator[str]:
    """Say how sure the size is, and what would make it surer.

    Parameters
    ----------
    doubt : TapeDoubt
        Of a measured body.
    system : UnitSystem
        For the words.

    Yields
    ------
    str
    """
    why = ", then ".join(causes(doubt.parts))
    yield (
        f"Measured with a tape: {format_volume(doubt.volume, system)}, {band_words(*doubt.band, system)}. "
        f"What matters most is {why}."
    )
    yield f"{_advice(doubt, system)}."
    yield level_words(doubt.spread, system)


def level_spread(doubt: TapeDoubt, twice: Twice | None) -> float:
    """How far a level half-way up may lie off: as the tape has it, or as tape and water lie apart.

    Parameters
    ----------
    doubt : TapeDoubt
        Of the tape.
    twice : Twice, optional
        With the water, where there is some.

    Returns
    -------
    float
        [m]
    """
    if twice is None:
        return doubt.spread
    low, high = twice.band
    return max(doubt.spread, (high - low) / 2 / twice.volume * doubt.middle)


def level_words(spread: float, system: UnitSystem) -> str:
    """Say how far a planned level may lie off.

    Parameters
    ----------
    spread : float
        One in ten above and one in ten below [m].
    system : UnitSystem
        For the words.

    Returns
    -------
    str
    """
    off = format_length(spread, system)
    return (
        f"Levels are as doubtful: half-way up a pour may end up to {off} higher or lower than planned. Go by "
        "the dips you read while you pour."
    )


def _advice(doubt: TapeDoubt, system: UnitSystem) -> str:
    """What to measure next: the place, or another kind of reading."""
    following = doubt.following
    if doubt.gains:
        now, then = (
            format_volume(ONE_IN_TEN * each, system) for each in (doubt.deviation, following.deviation)
        )
        place = format_length(following.height, system)
        return f"One more reading gains most at {place}: give or take {now} becomes {then}"
    return _REMEDIES[doubt.parts[0].cause]


_REMEDIES = {
    "between": "The readings are spread well: more of them gain little one by one",
    "closing": "Take a girth half-way up to where it closes",
    "reading": "More readings gain little now: read each twice, girths rather than diameters",
    "tape": "More readings gain little now: hold the tape against a steel rule",
    "section": "More readings gain little now: measure the width beside each girth, or displace water",
}
