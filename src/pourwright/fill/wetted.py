"""How much of the mold's face lies below a height."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry.mesh import Mesh

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class WettedArea:
    """Face area below a height, exact from the triangles.

    Parameters
    ----------
    heights : (n, 3) array
        Corner heights of each triangle, ascending [m].
    areas : (n,) array
        Area of each triangle [m2].
    """

    heights: Array
    areas: Array

    def below(self, height: float) -> float:
        """Face area below a height; a level face counts once the height lies above it.

        Parameters
        ----------
        height : float
            From the mold's floor as cast [m].

        Returns
        -------
        float
            Area [m2].

        Notes
        -----
        A plane cuts a triangle in shares that are quadratic in the height on either side of
        its middle corner.
        """
        low, middle, high = self.heights.T
        with np.errstate(divide="ignore", invalid="ignore"):
            rising = (height - low) ** 2 / ((middle - low) * (high - low))
            falling = 1.0 - (high - height) ** 2 / ((high - middle) * (high - low))
        share = np.where(height <= middle, rising, falling)
        share = np.where(height <= low, 0.0, np.where(height >= high, 1.0, share))
        share = np.where((low == high) & (height <= low), 0.0, share)
        return float(np.sum(share * self.areas))

    def between(self, lower: float, upper: float) -> float:
        """Face area between two heights [m2]."""
        return self.below(upper) - self.below(lower)


def wetted_area(mesh: Mesh) -> WettedArea:
    """Prepare the face area of a cavity by height.

    Parameters
    ----------
    mesh : Mesh
        The piece as cast, z up; a level open face at its top never counts.

    Returns
    -------
    WettedArea
        Area below any height up to the top.
    """
    corners = np.asarray(mesh.triangles, dtype=float)
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    areas = 0.5 * np.linalg.norm(normals, axis=1)
    return WettedArea(np.sort(corners[:, :, 2], axis=1), areas)
