"""Read the piece of a job and turn it the way it is poured."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from pourwright.foundation.errors import UserError
from pourwright.geometry import (
    LevelVolume,
    Mesh,
    PourFrame,
    Solid,
    box,
    cone,
    level_volume,
    measure,
    pour_frame,
    read_mesh,
    refuse_faults,
    revolve,
)
from pourwright.jobs import input_hashes
from pourwright.jobs.job import Job
from pourwright.jobs.sections import Shape


@dataclass(frozen=True)
class PieceRead:
    """The piece in the pour frame, measured.

    Parameters
    ----------
    name : str
        File name, or the kind of shape.
    mesh : Mesh
        In the pour frame [m].
    frame : PourFrame
        How it came there.
    solid : Solid
        Volume, area, centroid.
    levels : LevelVolume
        V(z).
    inputs : mapping
        sha256 of each input file by name.
    """

    name: str
    mesh: Mesh
    frame: PourFrame
    solid: Solid
    levels: LevelVolume
    inputs: Mapping[str, str]

    @property
    def size(self) -> tuple[float, float, float]:
        """Extent along x, y, z as poured [m]."""
        x, y, z = (float(side) for side in self.solid.size)
        return (x, y, z)


def _box(shape: Shape) -> Mesh:
    return box([side.si for side in shape.box or ()])


def _cone(shape: Shape) -> Mesh:
    given = shape.cone
    assert given is not None
    return cone(given.bottom_diameter.si / 2, given.top_diameter.si / 2, given.height.si)


def _profile(shape: Shape) -> Mesh:
    return revolve([[radius.si, height.si] for radius, height in shape.profile or ()])


WRITTEN: Mapping[str, Callable[[Shape], Mesh]] = MappingProxyType(
    {"box": _box, "cone": _cone, "profile": _profile}
)
"""Shapes written in the job file, by key."""


def read_piece(job: Job) -> PieceRead:
    """Read the shape of a job, refuse what cannot be cast, turn and measure it.

    Parameters
    ----------
    job : Job
        With its shape.

    Returns
    -------
    PieceRead
        In the pour frame.

    Raises
    ------
    UserError
        For a file that cannot be read or used, with the line of the job file.
    """
    name, mesh = _mesh(job)
    try:
        refuse_faults(mesh, name, _unit(job))
    except UserError as fault:
        raise _at_its_line(job, fault) from None
    turned, frame = pour_frame(mesh, job.shape.up)
    inputs = MappingProxyType(input_hashes(job))
    return PieceRead(name, turned, frame, measure(turned), level_volume(turned), inputs)


def _unit(job: Job) -> str:
    return job.shape.unit or ("in" if job.units == "us" else "mm")


def _mesh(job: Job) -> tuple[str, Mesh]:
    if job.shape_file is not None:
        return job.shape_file.name, _from_file(job, job.shape_file)
    kind = next(kind for kind in WRITTEN if getattr(job.shape, kind) is not None)
    try:
        return kind, WRITTEN[kind](job.shape)
    except (UserError, ValueError) as error:
        raise UserError(
            f"this {kind} makes no solid: {error}", where=job.where(f"shape.{kind}"), todo="mend its sizes"
        ) from None


def _from_file(job: Job, path: Path) -> Mesh:
    if not path.is_file():
        raise UserError(
            f"no file '{path}'", where=job.where("shape.file"), todo="put the file there, or mend the name"
        )
    try:
        return read_mesh(path, job.shape.unit)
    except UserError as error:
        raise _at_its_line(job, error) from None


def _at_its_line(job: Job, error: UserError) -> UserError:
    """Add the line of the job file that names the shape."""
    if job.shape.file is not None:
        what = f"{error.where}: {error.what}"
        return UserError(what, where=job.where("shape.file"), allowed=error.allowed, todo=error.todo)
    key = next(kind for kind in WRITTEN if getattr(job.shape, kind) is not None)
    return UserError(error.what, where=job.where(f"shape.{key}"), allowed=error.allowed, todo=error.todo)
