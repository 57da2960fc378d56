"""How much of every grid cell lies inside a body."""

import numpy as np

from pourwright.geometry.grid import Grid
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.pieces import Pieces, pieces_for


def cell_fractions(mesh: Mesh, grid: Grid, *, pieces: Pieces | None = None) -> Floats:
    """Volume fraction of every cell inside a closed mesh, exact to round-off.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented; it may reach beyond the grid.
    grid : Grid
        Any rectilinear grid.
    pieces : Pieces, optional
        The same surface already cut by the same grid, to save cutting it twice.

    Returns
    -------
    array (nx, ny, nz)
        From 0 to 1; a cell the surface does not touch is exactly 0 or 1.

    Notes
    -----
    Divergence theorem in every column of cells with the field (0, 0, z - top of the cell): a piece of surface
    adds -n_z dA (top - z) to its own cell and -n_z dA times the height of the cell to each cell above. The
    walls of the column add nothing, so no sampling error is left: the parts sum to the mesh volume.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> grid = Grid([-0.2, 0.0, 0.2], [-0.2, 0.2], [0.0, 0.1, 0.2])
    >>> cell_fractions(box([0.2, 0.4, 0.15]), grid).round(9).ravel().tolist()
    [0.5, 0.25, 0.5, 0.25]
    """
    found = pieces_for(mesh, grid, pieces)
    nz = grid.shape[2]
    facing_down = -found.area_vector[:, 2]
    cell = found.slot % (nz + 1) - 1
    depth = np.where(cell >= 0, grid.z[cell + 1] - found.height, 0.0)
    # what lies below the grid counts for every cell above, so it has its own slot
    inside = found.gathered(facing_down * depth)[:, :, 1:]
    cover = found.gathered(facing_down)[:, :, :-1]
    # a piece counts for all cells above its own: one running sum up each column
    np.cumsum(cover, axis=2, out=cover)
    cover *= np.diff(grid.z)
    inside += cover
    inside /= grid.cell_volumes
    _settle(inside)
    return np.ascontiguousarray(inside)


def _settle(fractions: Floats) -> None:
    """Take round-off away from full and empty cells, and keep all between 0 and 1."""
    np.clip(fractions, 0.0, 1.0, out=fractions)
    fractions[fractions < 1e-11] = 0.0
    fractions[fractions > 1 - 1e-11] = 1.0
