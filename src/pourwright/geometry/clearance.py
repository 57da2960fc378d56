"""Cells of a grid that keep clear of a body."""

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.clearance_kernels import cells_clear
from pourwright.geometry.distance import features_of
from pourwright.geometry.grid import Grid
from pourwright.geometry.mesh import Mesh

HAIR = 1e-6
"""So much nearer still counts as clear: a cell that just touches is not lost to round-off [m]."""


@checked(least=Range(0, unit="m"), finest=Range(0, unit="m", open_low=True))
def clear_cells(mesh: Mesh, grid: Grid, least: float, finest: float = 1e-4) -> npt.NDArray[np.bool_]:
    """Find the cells no point of which is nearer to the body than a distance.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, without faults.
    grid : Grid
        Any rectilinear grid.
    least : float
        Distance to be kept [m].
    finest : float
        A part of a cell so small that is not decided yet counts as near [m].

    Returns
    -------
    array (nx, ny, nz)
        True where the whole cell is clear, to a hair (1e-6 m): never wrongly so.

    Notes
    -----
    A signed distance changes by no more than the way walked; a cell whose centre is farther off than its
    corners are from the centre is decided; so is one all of whose corners lie clear of the planes through the
    nearest points of the triangles near it. The others are halved.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> grid = Grid([0.0, 0.10, 0.12, 0.15, 0.2], [-0.01, 0.01], [0.04, 0.06])
    >>> clear_cells(box([0.2, 0.2, 0.2]), grid, 0.02).ravel().tolist()
    [False, False, True, True]
    """
    found = features_of(mesh)
    return np.asarray(
        cells_clear(
            found.triangles, found.normals, found.spheres, *grid.axes, float(least) - HAIR, float(finest)
        )
    )
