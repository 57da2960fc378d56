"""Which stretches of the grid hold matter, so that sweeps pass over the rest."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.solver.faces import Patch
from pourwright.solver.problem import Mask, Problem

Counts = NDArray[np.int64]


class Rows(NamedTuple):
    """Stretch of active cells in every row along z and, in planes that are turned, along y.

    Parameters
    ----------
    shape : tuple of int
        Cells along x, y, z.
    low, high : array of int (nx, ny)
        Cells low <= k < high of a row hold all its active ones; both 0 in an empty row.
    turned_low, turned_high : array of int (nx, nz)
        The same along y.
    box : array of int (nx, 4)
        Range of j and range of k of the active cells of a plane.
    reacts : array of bool (nx, ny)
        Rows with reacting cells.
    fed : array of bool (nx, ny)
        Rows that heat enters from outside.
    bare_x, bare_y : array of bool (nx, ny)
        Rows with bare faces across x, y.
    bare_z : array of bool (nx, nz)
        Turned rows with bare faces across z.
    """

    shape: tuple[int, int, int]
    low: Counts
    high: Counts
    turned_low: Counts
    turned_high: Counts
    box: Counts
    reacts: Mask
    fed: Mask
    bare_x: Mask
    bare_y: Mask
    bare_z: Mask


def stretches(active: Mask) -> tuple[Counts, Counts]:
    """Find the range along the last axis that holds all active cells.

    Parameters
    ----------
    active : array of bool (..., n)
        Cells that hold matter.

    Returns
    -------
    tuple of array of int (...)
        First, and one past the last; both 0 where there is none.

    Examples
    --------
    >>> stretches(np.array([[False, True, True, False], [False, False, False, False]]))
    (array([1, 0]), array([3, 0]))
    """
    there = active.any(axis=-1)
    first = active.argmax(axis=-1)
    last = active.shape[-1] - active[..., ::-1].argmax(axis=-1)
    low, high = (np.ascontiguousarray(np.where(there, end, 0), dtype=np.int64) for end in (first, last))
    return low, high


def _marked(shape: tuple[int, int, int], places: Iterable[Counts]) -> Mask:
    """Rows along the last axis that hold one of the flat places."""
    marks = np.zeros(shape[0] * shape[1], dtype=bool)
    for flat in places:
        marks[flat // shape[2]] = True
    return marks.reshape(shape[:2])


def find_rows(problem: Problem, patches: tuple[Patch, ...]) -> Rows:
    """Find the stretches of a problem.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    patches : tuple of Patch
        Its bare faces.

    Returns
    -------
    Rows
    """
    nx, ny, nz = problem.shape
    active = problem.active
    boxes = [stretches(np.asarray(active.any(axis=axis))) for axis in (2, 1)]
    bare = [[patch.places for patch in patches if patch.axis == axis] for axis in range(3)]
    fed = _marked(problem.shape, [patch.cells for patch in patches])
    return Rows(
        problem.shape,
        *stretches(active),
        *stretches(active.transpose(0, 2, 1)),
        np.stack([*boxes[0], *boxes[1]], axis=1),
        np.asarray(problem.reacting.any(axis=2)),
        # a source may feed any row
        np.ones_like(fed) if problem.source is not None else fed,
        _marked((nx, ny, nz), bare[0]),
        _marked((nx, ny, nz), bare[1]),
        _marked((nx, nz, ny), bare[2]),
    )
