"""The size ledger of a shape that stands in a job, and the master as it must be cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.sizes.made import Made, made_of
from pourwright.app.shaping.sizes.part import sizes_part
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import Progress
from pourwright.geometry.files.writers import stl_bytes, threemf_bytes
from pourwright.jobs.job import Job

MASTER = "master"


def ledger(looked: Looked, _progress: Progress) -> dict[str, Any] | None:
    """Reckon from the piece to the master, or from the master to the piece.

    Parameters
    ----------
    looked : Looked
        The shape.
    _progress : Progress
        Not told: it takes no time.

    Returns
    -------
    dict or None
        None where nothing says what it is cast from and how warm the shop is.

    Raises
    ------
    UserError
        For a master that is asked for all the same.
    """
    made = _made(looked)
    return (
        None if made is None or looked.job is None else sizes_part(made, looked.job).model_dump(mode="json")
    )


def _made(looked: Looked) -> Made | None:
    job = looked.job
    if job is None:
        return None
    missing = [f"[{table}]" for table in ("casting", "shop") if job.line(table) is None]
    if not missing:
        return made_of(looked.piece.mesh, looked.piece.frame, job)
    if job.sizes.cut:
        raise UserError(
            f"the size of the master hangs on {' and '.join(missing)}",
            where=job.where("sizes"),
            todo="write what it is cast from and how warm the shop is, or leave [sizes] out",
        )
    return None


def master_of_shape(looked: Looked, _told: Mapping[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Write the master of a shape that stands in a job.

    Parameters
    ----------
    looked : Looked
        The shape.
    _told : mapping
        All that was told of it.

    Yields
    ------
    tuple
        Name and content of a file.
    """
    made = _made(looked)
    if made is not None and looked.job is not None:
        yield from master_files(made, looked.job)


def master_files(made: Made, job: Job) -> Iterator[tuple[str, bytes]]:
    """Write the master as it must be cut, in millimetres and in the frame of the file.

    Parameters
    ----------
    made : Made
        With the master.
    job : Job
        For its title.

    Yields
    ------
    tuple
        Name and content of a file; none where the shape is the master and nothing is sanded.
    """
    if job.sizes.cut:
        mesh = made.in_file(made.master)
        yield f"{MASTER}.stl", stl_bytes(mesh)
        yield f"{MASTER}.3mf", threemf_bytes(mesh, f"{job.title}, {MASTER}")
