"""How much true surface lies in every grid cell, and where it faces."""

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.grid import Grid
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.pieces import Pieces, pieces_for


@dataclass(frozen=True, slots=True, eq=False)
class SurfaceAreas:
    """Surface inside each cell of a grid.

    Parameters
    ----------
    area : array (nx, ny, nz)
        True area [m2], facets and slopes included.
    vector : array (nx, ny, nz, 3)
        Sum of outward normal times area [m2]; its length is the area where the surface in the cell is flat.
    """

    area: Floats
    vector: Floats


def surface_areas(mesh: Mesh, grid: Grid, *, pieces: Pieces | None = None) -> SurfaceAreas:
    """Give the true surface area in every cell, exact to round-off.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    grid : Grid
        Any rectilinear grid; a face in a grid plane belongs to the cell on its inner side.
    pieces : Pieces, optional
        The same surface already cut by the same grid.

    Returns
    -------
    SurfaceAreas
        Over all cells the area sums to that of the mesh inside the grid.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> grid = Grid([-0.1, 0.0, 0.1], [-0.1, 0.1], [0.0, 0.2])
    >>> found = surface_areas(box([0.2, 0.2, 0.2]), grid)
    >>> found.area.round(9).ravel().tolist()
    [0.12, 0.12]
    >>> found.vector[0, 0, 0].round(9).tolist()
    [-0.04, 0.0, 0.0]
    """
    found = pieces_for(mesh, grid, pieces)
    area = found.gathered(np.linalg.norm(found.area_vector, axis=1))[:, :, 1:]
    parts = [found.gathered(found.area_vector[:, axis])[:, :, 1:] for axis in range(3)]
    return SurfaceAreas(np.ascontiguousarray(area), np.stack(parts, axis=-1))
