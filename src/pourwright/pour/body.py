"""What a piece fills of every cell, and its wall; kept for sites that share the piece, as in an ensemble."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from functools import lru_cache
from hashlib import sha256
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Grid, Mesh, Pieces, cell_fractions, split_surface, surface_areas
from pourwright.solver import CutFaces, CutSurface, WallParts, cut_cells, cut_surface

Array = NDArray[np.float64]
CAVITY_SHARE = 0.5
WHOLE = 1e-9
"""Shares this close to none or all count as that."""
SMALL = 100_000
"""Cells of grids that are kept: larger ones are laid out once, and take room."""


class Body(NamedTuple):
    """A piece cut by a grid.

    Parameters
    ----------
    share : array (nx, ny, nz)
        Of the cell that lies in the cavity [-]; of a bare casting what it holds of it.
    wall : CutSurface
        The cavity's wall as the rubber shows it to air, or a bare casting's own surface.
    parts : WallParts
        Which part of the wall lies in which cell.
    faces : CutFaces or None
        Open faces of a bare casting.
    """

    share: Array
    wall: CutSurface
    parts: WallParts
    faces: CutFaces | None


def cut_body(piece: Mesh, height: float, grid: Grid, *, bare: bool) -> Body:
    """Cut a piece by a grid, unless the grid is small and one of the last few.

    Parameters
    ----------
    piece : Mesh
        In the pour frame [m].
    height : float
        Of the piece as poured [m].
    grid : Grid
        Cells [m].
    bare : bool
        Whether the casting stands alone, without rubber.

    Returns
    -------
    Body
        Its arrays cannot be written to where it is kept.
    """
    if int(np.prod(grid.shape)) > SMALL:
        return _cut(piece, height, grid, bare=bare)
    marks = sha256()
    for array in (piece.vertices, piece.faces, *grid.axes):
        marks.update(repr(array.shape).encode() + array.tobytes())
    return _kept(_Order(marks.hexdigest(), height, bare, piece, grid))


@dataclass(frozen=True)
class _Order:
    """What is to be cut; told apart by the numbers, as a piece sent to another process is another object."""

    digest: str
    height: float
    bare: bool
    piece: Mesh = field(compare=False)
    grid: Grid = field(compare=False)


@lru_cache(maxsize=8)
def _kept(order: _Order) -> Body:
    body = _cut(order.piece, order.height, order.grid, bare=order.bare)
    body.share.flags.writeable = False
    for each in (body.wall, body.parts):
        for part in fields(each):
            getattr(each, part.name).flags.writeable = False
    return body


def _cut(piece: Mesh, height: float, grid: Grid, *, bare: bool) -> Body:
    pieces = split_surface(piece, grid)
    share = cell_fractions(piece, grid, pieces=pieces)
    if bare:
        skin = surface_areas(piece, grid, pieces=pieces)
        body = cut_cells(grid.axes, share, skin.area, skin.vector)
        return Body(body.share, *cut_surface(grid.axes, share, skin.area, skin.vector), body.faces)
    skin = surface_areas(piece, grid, pieces=_without_mouth(pieces, height))
    # rubber cells that are mostly cavity hold nothing until it is filled: their wall goes to a neighbour
    least = 1.0 - CAVITY_SHARE + WHOLE
    return Body(share, *cut_surface(grid.axes, 1.0 - share, skin.area, -skin.vector, least=least), None)


def _without_mouth(pieces: Pieces, height: float) -> Pieces:
    """Leave out the open face of the piece, which no rubber faces."""
    kept = (pieces.height < height - WHOLE) | (pieces.area_vector[:, 2] <= 0.0)
    return replace(
        pieces, slot=pieces.slot[kept], area_vector=pieces.area_vector[kept], height=pieces.height[kept]
    )
