"""True area of curved bare faces that the grid shows as stairs."""

from __future__ import annotations

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.solver.coefficients import face_areas
from pourwright.solver.faces import bare_towards_empty
from pourwright.solver.problem import Array, Problem


def weigh_bare_faces(problem: Problem, normals: Array, true_area: float | None = None) -> Array:
    """Compute area factors of stair-stepped faces from the normals of the surface they stand for.

    Each face is weighted by the share of its own direction in the normal, so that a slanting plane
    gets its true area (nx**2 + ny**2 + nz**2 = 1); all are then scaled to the true area.

    Parameters
    ----------
    problem : Problem
        The grid and its active cells.
    normals : array (3, nx, ny, nz)
        Direction of the surface nearest to each cell [-], of any length above 0.
    true_area : float
        Area of all surfaces towards empty cells [m2]; not scaled if left out.

    Returns
    -------
    array (3, nx, ny, nz)
        For `Problem.area_factor`.

    Raises
    ------
    UserError
        If the shape is wrong or a normal next to an empty cell has no direction.

    Examples
    --------
    A step of one cell under 45 degrees:

    >>> two = np.array([0.0, 1.0, 2.0])
    >>> there = np.array([[[True], [True]], [[True], [False]]])
    >>> ones = np.ones((2, 2, 1))
    >>> stair = Problem(two, two, np.array([0.0, 1.0]), ones, ones, active=there)
    >>> slant = np.stack([ones, ones, 0 * ones])
    >>> round(float(weigh_bare_faces(stair, slant)[0, 0, 0, 0]), 4)
    0.7071
    """
    if normals.shape != (3, *problem.shape):
        raise UserError(f"normals have shape {normals.shape}", allowed=f"{(3, *problem.shape)}")
    length = np.sqrt((normals**2).sum(axis=0))
    weights = np.abs(normals) / np.where(length > 0.0, length, 1.0)
    total = 0.0
    for axis in range(3):
        for side in (-1, 1):
            bare = bare_towards_empty(problem.active, axis, side)
            if np.any(bare & (length == 0.0)):
                raise UserError("a normal next to an empty cell has no direction")
            areas = np.broadcast_to(face_areas(problem, axis), problem.shape)
            total += float((areas * weights[axis])[bare].sum())
    return weights * (true_area / total) if true_area is not None and total > 0.0 else weights
