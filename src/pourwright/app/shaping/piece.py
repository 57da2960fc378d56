"""Read the piece of a job and turn it the way it is poured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from pourwright.app.shaping.files import filed
from pourwright.app.shaping.forms import written
from pourwright.app.shaping.shaped import Shaped, SizeDoubt
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
    doubt : SizeDoubt, optional
        Of the volume; None where the body is known exactly.
    """

    name: str
    mesh: Mesh
    frame: PourFrame
    solid: Solid
    levels: LevelVolume
    inputs: Mapping[str, str]
    told: tuple[str, ...] = ()
    doubt: SizeDoubt | None = None

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
        In the pour frame.

    Raises
    ------
    UserError
        For a file that cannot be read or used, with the line of the job file.
    """
    return turned(shape_of(job), job.shape.up, input_hashes(job))


def shape_of(job: Job) -> Shaped:
    """Give the body of a job in its own frame.

    Parameters
    ----------
    job : Job
        With its shape.

    Returns
    -------
    Shaped

    Raises
    ------
    UserError
        As `read_piece`.
    """
    return filed(job) if job.shape.given == "file" else written(job)


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
