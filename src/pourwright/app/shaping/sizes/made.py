"""The piece, its master and the cavity between them, as meshes and as sizes."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from pourwright.app.glass import glass_of
from pourwright.app.shaping.sizes.beds import layers_of
from pourwright.app.shaping.sizes.faces import Group, depths, groups_of
from pourwright.app.shaping.sizes.numbers import Numbers, likely, numbers_of, shop_temperature
from pourwright.app.shaping.sizes.steps import Case, Steps, steps_of
from pourwright.app.shop import shop_folder
from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, PourFrame, welded
from pourwright.geometry.face_offset import offset_body
from pourwright.jobs.job import Job
from pourwright.materials import Materials, load_materials
from pourwright.mold import DEFAULTS as MOLD

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Made:
    """One piece and its master; meshes in the frame of the pour, standing where the piece does.

    Parameters
    ----------
    frame : PourFrame
        How the shape came into the frame of the pour.
    shape, piece, master, cavity : Mesh
        As given; sanded and cold; as cut; the cold mold, as it is poured into.
    groups : tuple of Group
        Of the faces of the shape.
    sanded, cast, master_size : array (3,)
        Off both faces together, casting before sanding, master; along x, y, z as poured [m].
    numbers : mapping
        With their ranges.
    case : Case
        Everything else.
    steps : Steps
        With the likely numbers.
    """

    frame: PourFrame
    shape: Mesh
    piece: Mesh
    master: Mesh
    cavity: Mesh
    groups: tuple[Group, ...]
    sanded: Array
    cast: Array
    master_size: Array
    numbers: Numbers
    case: Case
    steps: Steps

    def in_file(self, mesh: Mesh) -> Mesh:
        """Turn a mesh back into the frame of the file."""
        return mesh.transformed(np.linalg.inv(self.frame.matrix))


def made_of(mesh: Mesh, frame: PourFrame, job: Job) -> Made:
    """Reckon piece, master and cavity from the shape of a job.

    Parameters
    ----------
    mesh : Mesh
        The shape in the frame of the pour: the master, or the piece wanted.
    frame : PourFrame
        How it came there.
    job : Job
        That says which it is.

    Returns
    -------
    Made

    Raises
    ------
    UserError
        Where sanding closes a recess or folds the surface, with the place; for a material not known.
    """
    materials = load_materials(shop_folder(job))
    # faces can only be moved where they share their corners
    shape = welded(mesh) if job.sizes.sanded else mesh
    groups, numbers = groups_of(shape, frame, job.sizes), numbers_of(job, materials)
    case = _case(job, materials, frame.height)
    steps = steps_of(likely(numbers), case)
    off = depths(groups)
    if job.sizes.shape_is == "piece":
        cast = _moved(shape, off, job, frame)
        size = _size(cast)
        piece, master = shape, _scaled(cast, steps.master(size) / size)
        cavity = _scaled(master, np.full(3, 1.0 - steps.rubber))
    else:
        size = steps.cast(_size(shape))
        piece = _moved(_scaled(shape, size / _size(shape)), -off, job, frame)
        master = cavity = shape
    sanded = size - _size(piece)
    return Made(
        frame, shape, piece, master, cavity, groups, sanded, size, _size(master), numbers, case, steps
    )


def _case(job: Job, materials: Materials, height: float) -> Case:
    glass = glass_of(job, materials)
    shop, cured = shop_temperature(job), job.sizes.rubber_cures_at
    return Case(
        shop=shop,
        cured_at=shop if cured is None else cured.si,
        wall=MOLD["wall"].value if job.mold.wall is None else job.mold.wall.si,
        base=MOLD["base"].value if job.mold.base is None else job.mold.base.si,
        in_box=job.sizes.in_box,
        warm=job.sizes.casting_shrinkage is None,
        layers=layers_of(job, glass, height),
        glass=glass,
        resin=materials.resin.get(job.casting.material),
    )


def _size(mesh: Mesh) -> Array:
    lower, upper = mesh.bounds
    return np.asarray(upper - lower)


def _scaled(mesh: Mesh, factors: Array) -> Mesh:
    return mesh.transformed(np.diag([*factors, 1.0]))


def _moved(mesh: Mesh, amounts: Array, job: Job, frame: PourFrame) -> Mesh:
    """Move faces by what is sanded off them, and refuse what is no body any more."""
    if not amounts.any():
        return mesh
    moved, faults = offset_body(mesh, amounts)
    if faults:
        back = np.linalg.inv(frame.matrix)
        place = faults[0].place
        there = replace(faults[0], place=None if place is None else back[:3, :3] @ place + back[:3, 3])
        raise UserError(
            f"there is no room for what is sanded off: {there.sentence('in' if job.units == 'us' else 'mm')}",
            where=job.where("sizes"),
            allowed="recesses wider than what is put on both their sides, roundings wider than that",
            todo="sand less, draw the place wider, or export it with finer facets there",
        )
    return moved
