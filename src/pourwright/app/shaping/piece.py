"""Read the piece of a job and turn it the way it is poured."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from pourwright.app.shaping.displaced import sunk
from pourwright.app.shaping.files import filed
from pourwright.app.shaping.forms import written
from pourwright.app.shaping.measured import taped
from pourwright.app.shaping.shaped import Shaped, SizeDoubt
from pourwright.app.shaping.sizes.made import Made, made_of
from pourwright.app.shaping.sizes.part import size_words, sizes_part
from pourwright.foundation.progress import SILENT, Progress
from pourwright.geometry import (
    LevelVolume,
    Mesh,
    PourFrame,
    Solid,
    Up,
    direction,
    level_volume,
    levelled,
    measure,
    pour_frame,
)
from pourwright.jobs import input_hashes
from pourwright.jobs.job import Job


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
    told : tuple of str
        What was mended or taken for granted.
    noted : tuple of str
        How it was drawn, where that does no harm.
    doubt : SizeDoubt, optional
        Of the volume; None where the body is known exactly.
    sizes : Made, optional
        Piece, master and cavity, where a job says what it is cast from.
    """

    name: str
    mesh: Mesh
    frame: PourFrame
    solid: Solid
    levels: LevelVolume
    inputs: Mapping[str, str]
    told: tuple[str, ...] = ()
    noted: tuple[str, ...] = ()
    doubt: SizeDoubt | None = None
    sizes: Made | None = None

    @property
    def size(self) -> tuple[float, float, float]:
        """Extent along x, y, z as poured [m]."""
        x, y, z = (float(side) for side in self.solid.size)
        return (x, y, z)


def read_piece(job: Job) -> PieceRead:
    """Read the shape of a job, refuse what cannot be cast, turn and measure it.

    Parameters
    ----------
    job : Job
        With its shape.

    Returns
    -------
    PieceRead
        The cavity of the cold mold in the pour frame: the shape, or what its master leaves where the shape is
        the piece wanted.

    Raises
    ------
    UserError
        For a file that cannot be read or used, with the line of the job file.
    """
    return piece_of(job, read_body(job))


@dataclass(frozen=True)
class BodyRead:
    """The shape of a job, whatever else the job says.

    Parameters
    ----------
    shaped : Shaped
        In its own frame.
    turned : PieceRead
        As poured.
    """

    shaped: Shaped
    turned: PieceRead


def read_body(job: Job, progress: Progress = SILENT) -> BodyRead:
    """Read the shape of a job and turn it; of the job only shape, files and units are asked.

    Parameters
    ----------
    job : Job
        With its shape.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    BodyRead

    Raises
    ------
    UserError
        As `read_piece`.
    """
    shaped = shape_of(job, progress)
    return BodyRead(shaped, turned(shaped, job.shape.up, input_hashes(job)))


def piece_of(job: Job, body: BodyRead, inputs: Mapping[str, str] | None = None) -> PieceRead:
    """Make the piece of a job of its shape.

    Parameters
    ----------
    job : Job
        With its sizes.
    body : BodyRead
        Its shape, as `read_body` gave it for this job or for one with the same shape.
    inputs : mapping, optional
        sha256 of each input file by name; taken from the files where left out.

    Returns
    -------
    PieceRead
        As `read_piece`.

    Raises
    ------
    UserError
        Where sanding leaves no body.
    """
    inputs = MappingProxyType(dict(input_hashes(job) if inputs is None else inputs))
    read = replace(body.turned, inputs=inputs)
    made = made_of(read.mesh, read.frame, job)
    if job.sizes.shape_is == "piece":
        cavity = replace(body.shaped, mesh=made.in_file(made.cavity))
        read = _with_volume(turned(cavity, job.shape.up, inputs), read)
    said = tuple(size_words(sizes_part(made, job))) if job.sizes.sanded else ()
    return replace(read, sizes=made, told=read.told + said)


def _with_volume(cavity: PieceRead, shape: PieceRead) -> PieceRead:
    """Carry the doubt of the volume of a shape over to the cavity that was reckoned from it."""
    if shape.doubt is None:
        return cavity
    share = cavity.solid.volume / shape.solid.volume
    return replace(
        cavity, doubt=replace(shape.doubt, low=shape.doubt.low * share, high=shape.doubt.high * share)
    )


def shape_of(job: Job, progress: Progress = SILENT) -> Shaped:
    """Give the body of a job in its own frame.

    Parameters
    ----------
    job : Job
        With its shape.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    Shaped

    Raises
    ------
    UserError
        As `read_piece`.
    """
    if job.shape.given == "file":
        return filed(job, progress)
    return _MAKERS.get(job.shape.given, written)(job)


_MAKERS: Mapping[str, Callable[[Job], Shaped]] = MappingProxyType({"measured": taped, "displaced": sunk})


def turned(shaped: Shaped, up: Up, inputs: Mapping[str, str]) -> PieceRead:
    """Turn a body the way it is poured, and measure it.

    Parameters
    ----------
    shaped : Shaped
        In its own frame.
    up : str or three numbers
        Direction that points up as poured.
    inputs : mapping
        sha256 of each input file by name.

    Returns
    -------
    PieceRead
    """
    up, told = _settled(shaped.mesh, up)
    mesh, frame = pour_frame(shaped.mesh, up)
    return PieceRead(
        shaped.name,
        mesh,
        frame,
        measure(mesh),
        level_volume(mesh),
        MappingProxyType(dict(inputs)),
        shaped.told + told,
        shaped.noted,
        shaped.doubt,
    )


def _settled(mesh: Mesh, up: Up) -> tuple[Up, tuple[str, ...]]:
    """Lay a direction that was written in numbers onto the flat face it is meant for."""
    if isinstance(up, str):
        return up, ()
    way, angle = levelled(mesh, direction(up))
    # what was copied from the list of ways is off by its last digit only
    told = f"up is turned by {np.degrees(angle):.2g} degrees, so that the flat face beside it lies level"
    return [float(value) for value in way], (told,) if angle > 1e-4 else ()
