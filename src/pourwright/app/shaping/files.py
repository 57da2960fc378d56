"""Bodies read from a file."""

from __future__ import annotations

from pathlib import Path

from pourwright.app.shaping.shaped import Shaped
from pourwright.foundation.errors import UserError
from pourwright.geometry import read_mesh, refuse_faults
from pourwright.jobs.job import Job


def from_file(path: Path, unit: str | None, shown_in: str) -> Shaped:
    """Read a shape file and refuse what cannot be cast.

    Parameters
    ----------
    path : Path
        The file.
    unit : str or None
        Of the file's numbers, where it does not say it.
    shown_in : str
        Unit of the places in messages.

    Returns
    -------
    Shaped

    Raises
    ------
    UserError
        For a file that cannot be read, and for a shape that is no single closed body.
    """
    mesh = read_mesh(path, unit)
    refuse_faults(mesh, path.name, shown_in)
    return Shaped(path.name, mesh)


def filed(job: Job) -> Shaped:
    """Read the shape file of a job.

    Parameters
    ----------
    job : Job
        With a shape file.

    Returns
    -------
    Shaped

    Raises
    ------
    UserError
        As `from_file`, with the line of the job that names the file.
    """
    path, where = job.shape_file, job.where("shape.file")
    assert path is not None
    if not path.is_file():
        raise UserError(f"no file '{path}'", where=where, todo="put the file there, or mend the name")
    usual = "in" if job.units == "us" else "mm"
    try:
        return from_file(path, job.shape.unit, job.shape.unit or usual)
    except UserError as error:
        what = f"{error.where}: {error.what}"
        raise UserError(what, where=where, allowed=error.allowed, todo=error.todo) from None
