"""The surface of a mesh cut into the cells of a grid: what cell fractions and face areas are summed from."""

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.grid import Grid
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.split_kernels import split_faces


@dataclass(frozen=True, slots=True, eq=False)
class Pieces:
    """Flat pieces of a surface, each inside one cell.

    Parameters
    ----------
    grid : Grid
        The grid that cut them.
    slot : array (n,)
        Where each piece lies in an (nx, ny, nz + 1) array; slot 0 of a column is below the grid.
    area_vector : array (n, 3)
        Outward normal times area [m2].
    height : array (n,)
        Mean height of the piece [m].
    """

    grid: Grid
    slot: Integers
    area_vector: Floats
    height: Floats

    def gathered(self, weights: Floats) -> Floats:
        """Sum a quantity of the pieces by slot.

        Parameters
        ----------
        weights : array (n,)
            One number per piece.

        Returns
        -------
        array (nx, ny, nz + 1)
        """
        nx, ny, nz = self.grid.shape
        # without pieces numpy counts in whole numbers
        sums = np.bincount(self.slot, weights, nx * ny * (nz + 1)).astype(np.float64, copy=False)
        return sums.reshape(nx, ny, nz + 1)


def split_surface(mesh: Mesh, grid: Grid) -> Pieces:
    """Cut a surface into the cells of a grid, exactly.

    Parameters
    ----------
    mesh : Mesh
        Any mesh; what lies outside the grid in x or y or above it is left out.
    grid : Grid
        Vertices within 1e-10 of a cell's width of a grid plane are put on it; a face in a grid plane belongs
        to the cell on its inner side.

    Returns
    -------
    Pieces

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> pieces = split_surface(box([0.2, 0.2, 0.2]), Grid([-0.1, 0, 0.1], [-0.1, 0, 0.1], [0, 0.1, 0.2]))
    >>> round(float(np.abs(pieces.area_vector).sum()), 9)
    0.24
    """
    # else a face in a grid plane would be cut into slivers by round-off
    points = np.stack([_snapped(mesh.vertices[:, i], edges) for i, edges in enumerate(grid.axes)], axis=1)
    slot, data = split_faces(points, mesh.faces, grid.x, grid.y, grid.z)
    return Pieces(grid, slot, data[:, :3], data[:, 3])


def pieces_for(mesh: Mesh, grid: Grid, pieces: Pieces | None) -> Pieces:
    """Use the pieces that are there, or cut the surface.

    Parameters
    ----------
    mesh : Mesh
        The surface.
    grid : Grid
        The grid.
    pieces : Pieces or None
        The surface already cut by this very grid.

    Returns
    -------
    Pieces

    Raises
    ------
    ValueError
        When the pieces were cut by another grid.
    """
    if pieces is None:
        return split_surface(mesh, grid)
    if pieces.grid is not grid:
        raise ValueError("the surface was cut by another grid")
    return pieces


def _snapped(values: Floats, edges: Floats) -> Floats:
    """Put values that differ from an edge by round-off onto it."""
    above = np.clip(np.searchsorted(edges, values), 1, edges.size - 1)
    low, high = edges[above - 1], edges[above]
    nearest = np.where(values - low < high - values, low, high)
    return np.where(np.abs(values - nearest) <= 1e-10 * (high - low), nearest, values)
