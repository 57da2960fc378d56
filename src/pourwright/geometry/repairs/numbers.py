"""Corners that are no numbers, and bodies so far out that their file cannot hold them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry.faults import Fault
from pourwright.geometry.files.formats import LENGTHS
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.repairs.mending import Mending, counted
from pourwright.geometry.repairs.rims import open_edges

FAR = 1000.0
"""A body farther from the origin than this many times its size is moved there."""
COARSEST = 1e-4
"""Widest step between two numbers of the file that a body may still be read from [m]; no more than a
thousandth of its size either."""

MANY = 24
"""Coordinates that are enough to tell the step they are written with."""


@dataclass(frozen=True, slots=True, eq=False)
class Numbered:
    """A mesh whose corners are numbers, near the origin.

    Parameters
    ----------
    mesh : Mesh
        [m]
    shift : array (3,)
        What has to be added to give the file's own places [m].
    mendings : tuple of Mending
        Places in the file's own frame.
    faults : tuple of Fault
        What stands in the way.
    """

    mesh: Mesh
    shift: Floats
    mendings: tuple[Mending, ...] = ()
    faults: tuple[Fault, ...] = ()


def without_broken(mesh: Mesh) -> Numbered:
    """Leave out triangles whose corners are no numbers, where the surface is closed without them.

    Parameters
    ----------
    mesh : Mesh
        As read, welded.

    Returns
    -------
    Numbered
        With a fault where such a triangle is a part of the surface.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cube = box([0.2, 0.2, 0.2])
    >>> corners = np.concatenate([cube.vertices, [[np.nan, 0, 0]]])
    >>> len(without_broken(Mesh(corners, cube.faces)).mesh.vertices)
    8
    """
    nowhere = np.zeros(3)
    sound = np.asarray(np.isfinite(mesh.vertices).all(axis=1), dtype=np.bool_)
    if sound.all():
        return Numbered(mesh, nowhere)
    broken = np.asarray(~sound[mesh.faces].all(axis=1), dtype=np.bool_)
    number = np.cumsum(sound) - 1
    rest = Mesh(mesh.vertices[sound], number[mesh.faces[~broken]])
    count = int(broken.sum())
    if not count:
        return Numbered(rest, nowhere)
    if len(rest.faces) and not len(open_edges(rest).starts):
        said = counted(count, "triangle had corners", "triangles had corners")
        message = f"{said} that are no numbers, and the surface is closed without: left out"
        return Numbered(rest, nowhere, (Mending("numbers", message),))
    return Numbered(rest, nowhere, (), (_broken_fault(mesh, broken, sound, count),))


def _broken_fault(
    mesh: Mesh, broken: npt.NDArray[np.bool_], sound: npt.NDArray[np.bool_], count: int
) -> Fault:
    """Say which triangle, and where its sound corners are."""
    faces = mesh.faces[broken]
    first = int(np.flatnonzero(broken)[0]) + 1
    others = [mesh.vertices[face[sound[face]]].mean(axis=0) for face in faces if sound[face].any()]
    said = counted(count, "triangle has corners", "triangles have corners")
    message = f"{said} that are no numbers, the first is triangle {first} of the file"
    place = others[0] if others else None
    return Fault("nan", message, place, count, places=np.array(others) if others else None)


def brought_near(mesh: Mesh) -> Numbered:
    """Move a body that lies far from the origin, or refuse it where the file's digits lose it.

    Parameters
    ----------
    mesh : Mesh
        Numbers only.

    Returns
    -------
    Numbered

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> brought_near(box([0.2, 0.2, 0.2]).moved([500.0, 0.0, 0.0])).shift.tolist()
    [500.0, 0.0, 0.0]
    """
    lower, upper = mesh.bounds
    size = float((upper - lower).max())
    shift = _round_shift((lower + upper) / 2)
    reach = float(np.abs(mesh.bounds).max())
    if reach <= FAR * max(size, 1e-9):
        return Numbered(mesh, np.zeros(3))
    step = digit(mesh)
    if step > min(COARSEST, size / 1000):
        message = (
            "the body lies {0} {u} from the origin of its file, where one number is {1} {u} from the next:"
            " its form is lost"
        )
        todo = "move it to the origin in the program that made it, then export it again"
        return Numbered(
            mesh, np.zeros(3), (), (Fault("digits", message, None, 1, True, todo, (reach, step)),)
        )
    said = (
        "the body lay {0} {u} from the origin of its file and was moved there; the file holds it to {1} {u}"
    )
    near = Mesh(mesh.vertices - shift, mesh.faces)
    return Numbered(near, shift, (Mending("far", said, lengths=(reach, step)),))


def _round_shift(middle: Floats) -> Floats:
    """A whole number of metres, so that moving there and back loses no digit."""
    return np.asarray(np.round(middle) + 0.0)


def digit(mesh: Mesh) -> float:
    """Distance of two numbers that follow each other in the file, at the outermost corner.

    Parameters
    ----------
    mesh : Mesh
        As read [m].

    Returns
    -------
    float
        [m]; that of a number of 32 bits where all numbers of the file are such in one of our units of
        length, else that of 64 bits; wider where the file was written with few decimals.

    Examples
    --------
    >>> digit(Mesh([[0.0, 0, 0], [1000.0, 0, 0], [0, 1000.0, 0]], [[0, 1, 2]]))
    6.25e-05
    """
    outermost = float(np.abs(mesh.bounds).max())
    return max(_binary_step(mesh, outermost), _decimal_step(mesh))


def _binary_step(mesh: Mesh, outermost: float) -> float:
    for factor in map(float, LENGTHS.values()):
        numbers = mesh.vertices / factor
        with np.errstate(over="ignore"):
            short = numbers.astype(np.float32)
        if np.isfinite(short).all() and np.allclose(numbers, short.astype(np.float64), rtol=1e-14, atol=0.0):
            return float(np.spacing(np.float32(outermost / factor))) * factor
    return float(np.spacing(outermost))


def _decimal_step(mesh: Mesh) -> float:
    """Step that all coordinates along the outermost axis are multiples of; 0 where there is none.

    A regular lattice of corners has one too, so most gaps must be larger than the least.
    """
    axis = int(np.argmax(np.abs(mesh.bounds).max(axis=0)))
    gaps = np.diff(np.unique(mesh.vertices[:, axis]))
    if gaps.size < MANY:
        return 0.0
    least = float(gaps.min())
    turns = gaps / least
    even = np.abs(turns - np.round(turns)).max() < 1e-3
    return least if even and (turns > 1.5).mean() > 0.25 else 0.0
