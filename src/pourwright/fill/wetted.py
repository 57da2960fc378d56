"""How much of the mold's face lies below a height."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry.kept import kept
from pourwright.geometry.mesh import Mesh

Array = NDArray[np.float64]
Numbers = NDArray[np.int64]
MOST_SLABS = 4096


@dataclass(frozen=True, eq=False)
class Slabs:
    """Triangles by the slabs of height that they reach into.

    Parameters
    ----------
    edges : (n + 1,) array
        Rising [m].
    under : (n,) array
        Area of all triangles that end below a slab [m2].
    starts : (n + 1,) array
        Where the triangles of a slab begin in ``listed``.
    listed : array
        Numbers of triangles, slab by slab.
    """

    edges: Array
    under: Array
    starts: Numbers
    listed: Numbers

    def at(self, height: float) -> tuple[float, Numbers]:
        """Area wholly below the slab of a height [m2], and the triangles that reach into it."""
        slab = int(np.clip(np.searchsorted(self.edges, height, side="right") - 1, 0, len(self.under) - 1))
        return float(self.under[slab]), self.listed[self.starts[slab] : self.starts[slab + 1]]


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

    @cached_property
    def slabs(self) -> Slabs:
        """About as many slabs as triangles in each: asking stays cheap."""
        low, high = self.heights[:, 0], self.heights[:, 2]
        count = int(np.clip(2 * np.sqrt(len(low)), 1, MOST_SLABS))
        edges = np.linspace(low.min(), high.max(), count + 1)
        first, last = (
            np.clip(np.searchsorted(edges, ends, side="right") - 1, 0, count - 1) for ends in (low, high)
        )
        repeats = last - first + 1
        begins = np.cumsum(repeats) - repeats
        slab = np.arange(int(repeats.sum())) - np.repeat(begins - first, repeats)
        order = np.argsort(slab, kind="stable")
        ended = np.bincount(last + 1, weights=self.areas, minlength=count + 1)[:count]
        starts = np.searchsorted(slab[order], np.arange(count + 1))
        return Slabs(edges, np.cumsum(ended), starts, np.repeat(np.arange(len(low)), repeats)[order])

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
        under, there = self.slabs.at(height)
        low, middle, high = self.heights[there].T
        with np.errstate(divide="ignore", invalid="ignore"):
            rising = (height - low) ** 2 / ((middle - low) * (high - low))
            falling = 1.0 - (high - height) ** 2 / ((high - middle) * (high - low))
        share = np.where(height <= middle, rising, falling)
        share = np.where(height <= low, 0.0, np.where(height >= high, 1.0, share))
        share = np.where((low == high) & (height <= low), 0.0, share)
        return under + float(np.sum(share * self.areas[there]))

    def between(self, lower: float, upper: float) -> float:
        """Face area between two heights [m2]."""
        return self.below(upper) - self.below(lower)


@kept
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
