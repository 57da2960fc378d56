"""From the text of a job file to a checked job."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pourwright.foundation.errors import UserError
from pourwright.jobs.crosschecks import crosschecks
from pourwright.jobs.errors import JobError
from pourwright.jobs.job import Job, place_of
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.texts import read_written
from pourwright.jobs.toml_checked import checked_model, parsed_toml
from pourwright.jobs.upgrades import format_of, upgraded
from pourwright.jobs.variants import variant_lines, variant_raw

USUAL_RESIN = "epoxy-slow-deep"
"""What a shape without a job is weighed in."""
Lines = Mapping[KeyPath, int]
_NO_CASTING = MappingProxyType({"casting": {"material": USUAL_RESIN}, "shop": {"temperature": "20 degC"}})


def load_job(path: Path | str) -> Job:
    """Read and check a job file.

    Parameters
    ----------
    path : Path or str
        The job file, or the folder that holds ``job.toml``.

    Returns
    -------
    Job
        With the lines of all its keys; its variants are checked too.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    return _loaded(path, "write one with: pourwright new NAME", {})


def load_shape(path: Path | str) -> Job:
    """Read a job file for its shape: one that has no casting material yet will do.

    Parameters
    ----------
    path : Path or str
        The job file, or the folder that holds ``job.toml``.

    Returns
    -------
    Job
        Its first variant.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    return _loaded(path, "mend the name", _NO_CASTING).variants()[0]


def _loaded(path: Path | str, missing: str, lacking: Mapping[str, Any]) -> Job:
    file = Path(path)
    file = file / "job.toml" if file.is_dir() else file
    instead = "give the job.toml, saved as UTF-8 text, not the shape"
    text, digest = read_written(file, "job file", missing=missing, instead=instead)
    return read_job(text, file, lacking, digest)


def read_job(
    text: str,
    file: Path | str = "job.toml",
    lacking: Mapping[str, Any] = MappingProxyType({}),
    digest: str = "",
) -> Job:
    """Check the text of a job file.

    Parameters
    ----------
    text : str
        TOML.
    file : Path or str
        What messages call it; relative paths in the job start beside it.
    lacking : Mapping
        Tables to take where the file has none.
    digest : str
        sha256 of the file that held the text, which may hold another by now.

    Returns
    -------
    Job
        With the lines of all its keys.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    file = Path(file)
    raw, lines = parsed_toml(text, file)
    try:
        number = format_of(raw, place_of(file, lines, ("format",)))
    except UserError as error:
        raise JobError.of([error]) from None
    raw, lines = parsed_toml(upgraded(text, number), file)
    raw = {**lacking, **raw}
    job = _checked(raw, lines, file, "main")
    resolved = [
        _checked(variant_raw(raw, i), variant_lines(lines, raw, i), file, variant.name)
        for i, variant in enumerate(job.variant)
    ]
    for each in (job, *resolved):
        each._digest = digest  # noqa: SLF001 - a job is finished here and nowhere else
    job._resolved = _acquainted(resolved)  # noqa: SLF001 - as above
    return job


def _acquainted(variants: list[Job]) -> tuple[Job, ...]:
    """Let each variant know the others, by copies, or they would hold one another for ever."""
    copies = [variant.model_copy() for variant in variants]
    for number, variant in enumerate(variants):
        variant._others = (*copies[:number], *copies[number + 1 :])  # noqa: SLF001 - as above
    return tuple(variants)


def with_lines(job: Job, lines: Mapping[str, Any]) -> Job:
    """Lay some lines over a job, as a variant does.

    Parameters
    ----------
    job : Job
        One variant.
    lines : Mapping
        As read from TOML.

    Returns
    -------
    Job
        Checked like any other; its own lines keep their numbers.

    Raises
    ------
    JobError
        For lines that a job cannot have.
    """
    raw = {**job.raw, "variant": [{"name": job.variant_name, **lines}]}
    changed = _checked(variant_raw(raw, 0), dict(job.lines), job.path, job.variant_name)
    changed._others, changed._digest = job.others, job.digest  # noqa: SLF001 - as above
    return changed


def with_text(job: Job, text: str, where: str) -> Job:
    """Lay lines of TOML over a job.

    Parameters
    ----------
    job : Job
        One variant.
    text : str
        Lines as in a job file, parted by new lines or semicolons; tables by dotted keys.
    where : str
        Who gave them, for errors.

    Returns
    -------
    Job
        With them.

    Raises
    ------
    UserError
        For lines that are no TOML, or that a job cannot have.
    """
    try:
        lines = tomllib.loads(text.replace(";", "\n"))
    except tomllib.TOMLDecodeError as error:
        raise UserError(
            f"cannot be read: {error}", where=where, allowed="lines of a job file",
            todo='write it as shop.night_temperature = "16 degC"',
        ) from None  # fmt: skip
    try:
        return with_lines(job, lines)
    except UserError as error:
        raise UserError(str(error), where=where) from None


def _checked(raw: dict[str, Any], lines: Lines, file: Path, variant: str) -> Job:
    job = checked_model(raw, lines, file, Job, crosschecks)
    job._path, job._lines, job._raw, job._variant = file, lines, raw, variant  # noqa: SLF001 - as above
    return job
