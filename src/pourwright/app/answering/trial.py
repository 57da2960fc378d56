"""Bands that are not written yet: what they would take, or why they are refused."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from pourwright.app.answering.answers import filled_look, wrong_of
from pourwright.app.answering.bands import bands_told, written_length
from pourwright.app.answering.desk import Desk
from pourwright.app.answering.document import Trial, Wrong
from pourwright.app.learnt.cavity import measured_fill
from pourwright.app.setup import Setup, fill_choices
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.job import Job
from pourwright.jobs.loading import with_lines

Band = Mapping[str, Any]
"""One band as a job file has it; ``to`` may be a number, in metres."""
FAR = 100.0
"""No border lies higher [m]."""
_LINE = re.compile(r"^.*?:\d+ ")


def trial_of(desk: Desk, folder: Path, variant: str | None, bands: Sequence[Band]) -> Trial:
    """Try bands.

    Parameters
    ----------
    desk : Desk
        With what is kept.
    folder : Path
        Of the job.
    variant : str or None
        Name of one; the first where left out.
    bands : sequence of mapping
        All bands, from the mold's floor up, as a job file has them.

    Returns
    -------
    Trial
        Refused bands are told with the reason, as is a job that cannot be used whatever its bands.
    """
    try:
        setup = filled_look(desk, folder, variant).setup
        assert setup is not None
        return Trial(fill=bands_told(tried(setup, bands)))
    except UserError as error:
        return Trial(fill=None, error=_without_line(wrong_of(error)))


def tried(setup: Setup, bands: Sequence[Band]) -> Setup:
    """Lay other bands into a piece; its mold stays as it is.

    Parameters
    ----------
    setup : Setup
        Of the job as it is written.
    bands : sequence of mapping
        As of `trial_of`.

    Returns
    -------
    Setup

    Raises
    ------
    UserError
        For bands that cannot be.
    """
    job = _with(setup.job, bands)
    levels = setup.piece.levels if setup.hollow is None else setup.hollow.levels
    choices = fill_choices(job, setup.materials, setup.resin)
    return replace(setup, job=job, fill=measured_fill(job, setup.room, levels, choices))


def _with(job: Job, bands: Sequence[Band]) -> Job:
    system = UnitSystem(job.units)
    return with_lines(job, {"band": [_written(band, system) for band in bands]})


def _written(band: Band, system: UnitSystem) -> dict[str, Any]:
    to = band.get("to")
    if isinstance(to, bool) or not isinstance(to, int | float):
        return dict(band)
    # written this way round, a number that is none is refused too
    if not abs(to) <= FAR:
        raise UserError(f"a border at {to} m", where="band.to", allowed=f"within {FAR:g} m")
    return {**band, "to": written_length(float(to), system)}


def _without_line(wrong: Wrong) -> Wrong:
    """Nobody has written these bands: the line of the file is another's."""
    return wrong.model_copy(update={"where": _LINE.sub("", wrong.where)})
