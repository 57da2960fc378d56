"""A body with curved faces on a rectilinear grid: cells that it cuts keep their true volume and surface.

Conservative embedded boundary: a cut cell holds heat by the volume of matter in it, passes heat through the
open part of its faces, and loses heat through the true surface in it, at its true distance from the cell's
middle. Cells that hold next to nothing are joined to their neighbour inwards.

Source of the idea: Johansen and Colella, J. Comput. Phys. 147 (1998) 60 (citation from memory).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.errors import UserError
from pourwright.solver.problem import Array, CutFaces, CutSurface, Mask

LEAST_SHARE = 0.2
"""Cells that hold less are joined; chosen on spheres and bars of other sizes than the tests report."""
Indices = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class CutCells:
    """What a body fills of every cell, and its surface.

    Parameters
    ----------
    share : array (nx, ny, nz)
        Volume of matter over volume of the cell [-]: the factor on capacity and heat; 0 in cells that were
        joined, above 1 in some that took a neighbour's matter.
    faces : CutFaces
        For `Problem.cut`.
    """

    share: Array
    faces: CutFaces

    @property
    def active(self) -> Mask:
        """Cells that hold matter."""
        return np.asarray(self.share > 0.0)


def cut_cells(
    axes: tuple[Array, Array, Array], share: Array, area: Array, vector: Array, *, least: float = LEAST_SHARE
) -> CutCells:
    """Prepare a body for the solver.

    Parameters
    ----------
    axes : tuple of array
        Edges of the cells along x, y, z [m].
    share : array (nx, ny, nz)
        Volume inside the body over volume of the cell [-].
    area : array (nx, ny, nz)
        True area of the body's surface in the cell [m2].
    vector : array (nx, ny, nz, 3)
        Sum of outward normal times area [m2]; a face in a grid plane may belong to either cell.
    least : float
        Cells that hold less than this share join a neighbour [-].

    Returns
    -------
    CutCells
        Its volumes and its areas sum to those given.

    Raises
    ------
    UserError
        If the arrays do not fit the grid.

    Examples
    --------
    A slab from 0 to 2.5 cells: the half filled cell keeps its place, its surface lies in its middle.

    >>> one, line = np.array([0.0, 1.0]), np.arange(4.0)
    >>> share = np.array([1.0, 1.0, 0.5]).reshape(1, 1, 3)
    >>> vector = np.zeros((1, 1, 3, 3))
    >>> vector[0, 0, 0, 2], vector[0, 0, 2, 2] = -1.0, 1.0
    >>> body = cut_cells((one, one, line), share, np.abs(vector[..., 2]), vector)
    >>> body.share.ravel().tolist(), body.faces.surface.distance.tolist()
    ([1.0, 1.0, 0.5], [0.5, 0.0])
    """
    _check(axes, share, area, vector)
    opened = [_open_shares(axes, vector, axis) for axis in range(3)]
    held, owner = _joined(share, area, vector, least)
    for axis in range(3):
        _close(opened[axis], held > 0.0, axis)
    open_x, open_y, open_z = opened
    return CutCells(held, CutFaces(open_x, open_y, open_z, _surface(axes, held, owner, area, vector)))


@dataclass(frozen=True, slots=True)
class WallParts:
    """Which parts of a surface went into which of its entries.

    Parameters
    ----------
    cells : array of int (m,)
        Flat index of the cell in which each part lies.
    area : array (m,)
        [m2].
    entry : array of int (m,)
        Entry of the `CutSurface` that it belongs to.
    """

    cells: Indices
    area: Array
    entry: Indices

    def of(self, surface: CutSurface, bare: Array) -> CutSurface:
        """Keep of a surface what is bare: a share of each part (m,)."""
        area = np.bincount(self.entry, self.area * bare, surface.cells.size)
        return replace(surface, area=np.asarray(area, dtype=float))


def cut_surface(
    axes: tuple[Array, Array, Array], share: Array, area: Array, vector: Array, *, least: float = LEAST_SHARE
) -> tuple[CutSurface, WallParts]:
    """Give the surface of a body alone, each part with a cell that holds enough of the body.

    Parameters
    ----------
    axes, share, area, vector, least
        As for `cut_cells`.

    Returns
    -------
    tuple of CutSurface and WallParts
        Its areas sum to those given, but for parts that no cell with matter in it takes.

    Raises
    ------
    UserError
        If the arrays do not fit the grid.
    """
    _check(axes, share, area, vector)
    held, owner = _joined(share, area, vector, least)
    surface = _surface(axes, held, owner, area, vector)
    cells = np.flatnonzero(area.ravel() > 0.0)
    entry = np.minimum(np.searchsorted(surface.cells, owner[cells]), max(surface.cells.size - 1, 0))
    if surface.cells.size:
        cells, entry = (each[surface.cells[entry] == owner[cells]] for each in (cells, entry))
    return surface, WallParts(cells, area.ravel()[cells], entry)


def _check(axes: tuple[Array, Array, Array], share: Array, area: Array, vector: Array) -> None:
    shape = tuple(edges.size - 1 for edges in axes)
    if share.shape != shape or area.shape != shape or vector.shape != (*shape, 3):
        raise UserError(f"a cut body of shape {share.shape} does not fit the grid", allowed=f"{shape}")


def _spacings(axes: tuple[Array, Array, Array]) -> tuple[Array, Array, Array]:
    dx, dy, dz = (np.diff(edges) for edges in axes)
    return dx[:, None, None], dy[None, :, None], dz[None, None, :]


def _open_shares(axes: tuple[Array, Array, Array], vector: Array, axis: int) -> Array:
    """Share of every face across an axis that lies inside: a closed surface's vectors sum up to it."""
    spacings = list(_spacings(axes))
    spacings[axis] = np.ones((1, 1, 1))
    area = np.moveaxis(np.asarray(spacings[0] * spacings[1] * spacings[2]), axis, 0)
    lost = np.moveaxis(vector[..., axis], axis, 0)
    inside = np.zeros((lost.shape[0] + 1, *lost.shape[1:]))
    np.cumsum(-lost, axis=0, out=inside[1:])
    return np.ascontiguousarray(np.moveaxis(np.clip(inside / area, 0.0, 1.0), 0, axis))


def _close(opened: Array, active: Mask, axis: int) -> None:
    """Shut the faces towards cells that were joined: their matter is elsewhere now."""
    faces, here = np.moveaxis(opened, axis, 0), np.moveaxis(active, axis, 0)
    faces[1:-1][~(here[1:] & here[:-1])] = 0.0


def _joined(share: Array, area: Array, vector: Array, least: float) -> tuple[Array, Indices]:
    """Give what nearly empty cells hold to the next cell inwards; the shares, and each cell's owner."""
    owner = np.arange(share.size)
    held = share.ravel()
    steps = np.array([share.shape[1] * share.shape[2], share.shape[2], 1])
    small = np.flatnonzero((held < least) & ((held > 0.0) | (area.ravel() > 0.0)))
    places = np.stack(np.unravel_index(small, share.shape), axis=1)
    facing = vector.reshape(-1, 3)[small]
    waiting = np.ones(small.size, dtype=bool)
    # straight away from the surface first, then the next best way inwards
    for axis in np.argsort(-np.abs(facing), axis=1, kind="stable").T:
        pick = np.arange(small.size), axis
        inwards = -np.sign(facing[pick]).astype(np.int64)
        there = places[pick] + inwards
        fits = (inwards != 0) & (there >= 0) & (there < np.array(share.shape)[axis])
        target = np.where(fits, small + inwards * steps[axis], small)
        # judged by what was held before any joining: no chains, and no order to depend on
        good = waiting & fits & (held[target] >= least)
        owner[small[good]] = target[good]
        waiting &= ~good
    return np.asarray(np.bincount(owner, held, share.size).reshape(share.shape), dtype=float), owner


def _surface(
    axes: tuple[Array, Array, Array], held: Array, owner: Indices, area: Array, vector: Array
) -> CutSurface:
    """Cells with a surface in them, its area, direction, and distance from the cell's middle."""
    total = np.asarray(np.bincount(owner, area.ravel(), held.size), dtype=float)
    cells = np.flatnonzero((total > 0.0) & (held.ravel() > 0.0))
    area = total[cells]
    sums = np.stack([np.bincount(owner, vector[..., a].ravel(), held.size)[cells] for a in range(3)])
    length = np.sqrt((sums**2).sum(axis=0))
    # where two sides of a thin fin cancel, the surface looks nowhere: shared out evenly
    flat = length > 1e-9 * area
    normal = np.where(flat, sums / np.where(flat, length, 1.0), np.sqrt(1.0 / 3.0))
    dx, dy, dz = (np.broadcast_to(d, held.shape).ravel()[cells] for d in _spacings(axes))
    reach = np.abs(normal[0]) * dx + np.abs(normal[1]) * dy + np.abs(normal[2]) * dz
    # as if the surface were a flat plate through the cell: exact for a slab, near it for the rest
    distance = (held.ravel()[cells] - 0.5) * dx * dy * dz / area
    return CutSurface(cells, area, normal, np.clip(distance, -0.5 * reach, 1.5 * reach))
