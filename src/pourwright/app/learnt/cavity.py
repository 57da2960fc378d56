"""The mold as it really is: what it holds over its drawing, put into the fill."""

from __future__ import annotations

from math import sqrt

import numpy as np

from pourwright.app.learnt.in_force import of_mold
from pourwright.fill import FillChoices, FillResult, design_fill
from pourwright.geometry import Mesh, level_volume
from pourwright.geometry.levels import LevelVolume
from pourwright.jobs.job import Job


def measured_fill(job: Job, room: Mesh, levels: LevelVolume, choices: FillChoices) -> FillResult:
    """Design a fill for the mold as the water test found it.

    Parameters
    ----------
    job : Job
        Whose mold it is.
    room : Mesh
        What is filled, as drawn.
    levels : LevelVolume
        V(z) of it.
    choices : FillChoices
        Materials, bands, losses.

    Returns
    -------
    FillResult
        Heights as drawn; every section by the same factor wider.

    Raises
    ------
    UserError
        For bands that cannot be laid.
    """
    factor = of_mold(job, "cavity")
    if factor == 1.0:
        return design_fill(room, levels, choices)
    wider = widened(room, factor)
    return design_fill(wider, level_volume(wider), choices)


def widened(mesh: Mesh, factor: float) -> Mesh:
    """Widen a body across, so that it holds so many times as much below every level.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> block = level_volume(widened(box([0.1, 0.1, 0.2]), 1.02))
    >>> round(block.total / 0.002, 9), round(block.top, 9)
    (1.02, 0.2)
    """
    return Mesh(mesh.vertices * np.array([sqrt(factor), sqrt(factor), 1.0]), mesh.faces)
