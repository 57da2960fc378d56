"""Bodies read from a file, mended where that needs no guess."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pourwright.app.shaping.faulty import FaultyShape, refused, told
from pourwright.app.shaping.shaped import Mended, Shaped
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.progress import SILENT, Progress
from pourwright.foundation.quantities import Dimension
from pourwright.geometry import Repair, measure, read_shape_file, repaired
from pourwright.jobs.job import Job
from pourwright.runs import do_apart


@dataclass(frozen=True)
class Handling:
    """What is done about a file's faults.

    Parameters
    ----------
    repair : bool
        Whether what is safe is mended, or refused as well.
    body : int, optional
        Which of several bodies, from 1 for the largest.
    remesh : float, optional
        Tolerance within which the surface is made anew [m].
    """

    repair: bool = True
    body: int | None = None
    remesh: float | None = None


def handling_of(body: int | None, remesh: str | None) -> Handling:
    """Read the options about the faults of a file.

    Parameters
    ----------
    body : int or None
        Which of several bodies.
    remesh : str or None
        Length with its unit.

    Returns
    -------
    Handling

    Raises
    ------
    UserError
        For a length that cannot be read or is not above zero.
    """
    if remesh is None:
        return Handling(body=body)
    tolerance = parse_quantity(remesh, Dimension.LENGTH, where="--remesh").si
    if tolerance <= 0:
        raise UserError("a surface cannot be made anew within 0", where="--remesh", todo='write "0.5 mm"')
    return Handling(body=body, remesh=tolerance)


def from_file(
    path: Path,
    unit: str | None,
    shown_in: str,
    handling: Handling = Handling(),
    progress: Progress = SILENT,
) -> Shaped:
    """Read a shape file, mend what is safe, and refuse what cannot be cast.

    Parameters
    ----------
    path : Path
        The file.
    unit : str or None
        Of the file's numbers, where it does not say it.
    shown_in : str
        Unit of the places in messages.
    handling : Handling
        What is done about its faults.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    Shaped
        With a sentence for each thing that was mended.

    Raises
    ------
    UserError
        For a file that cannot be read, and for a shape that is no single closed body.
    """
    read = read_shape_file(path, unit, do_apart)
    found = repaired(read.mesh, body=handling.body, tolerance=handling.remesh, progress=progress)
    if any(fault.refused for fault in found.faults):
        raise refused(found, path.name, shown_in)
    if found.mended and not handling.repair:
        raise _unmended(found, path.name, shown_in)
    volume = measure(found.mesh).volume
    sentences = tuple(told(mending, found, shown_in, volume) for mending in found.mendings)
    places = tuple(mending.places for mending in found.mendings)
    mended = tuple(Mended(words, where) for words, where in zip(sentences, places, strict=True))
    return Shaped(path.name, found.mesh, (*read.told, *sentences), mended=mended)


def _unmended(found: Repair, name: str, unit: str) -> FaultyShape:
    what = f"it would have to be mended: {told(found.mended[0], found, unit)}"
    todo = "mend it in the program that made it, or leave repair = false out"
    return FaultyShape(what, where=name, todo=todo, repair=found, unit=unit)


def filed(job: Job, progress: Progress = SILENT) -> Shaped:
    """Read the shape file of a job.

    Parameters
    ----------
    job : Job
        With a shape file.
    progress : Progress
        Told what is done; may raise Cancelled.

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
    shape = job.shape
    handling = Handling(shape.repair, shape.body, shape.remesh.si if shape.remesh else None)
    try:
        return from_file(path, shape.unit, shape.unit or usual, handling, progress)
    except FaultyShape as error:
        hint = "pourwright shape JOB --out FOLDER draws where"
        raise error.put(hint, where=where, what=f"{error.where}: {error.what}") from None
    except UserError as error:
        what = f"{error.where}: {error.what}" if error.where else error.what
        raise UserError(what, where=where, allowed=error.allowed, todo=error.todo) from None
