"""How thick a body is behind each place of its surface, as a caliper would read it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ray_tree import surface_tree
from pourwright.geometry.thin.inscribed import NEAR, spread

MOST_RAYS = 600
FACING = np.cos(np.pi / 4)


@dataclass(frozen=True, slots=True, eq=False)
class Thickness:
    """Thickness behind places of a surface.

    Parameters
    ----------
    places : array (n, 3)
        On the surface [m].
    through : array (n,)
        From there straight inward to the other side [m].
    middles : array (n, 3)
        Half-way through [m].
    areas : array (n,)
        Surface that each place stands for [m2].
    """

    places: Floats
    through: Floats
    middles: Floats
    areas: Floats

    def thinnest(self, share: float) -> int:
        """Index of the place that all but ``share`` of the surface is thicker than."""
        order = np.argsort(self.through, kind="stable")
        filled = np.cumsum(self.areas[order])
        return int(order[min(int(np.searchsorted(filled, share * filled[-1])), order.size - 1)])


@checked(rays=Range(1, 100_000))
def wall_thickness(mesh: Mesh, rays: int = MOST_RAYS) -> Thickness:
    """Look straight inward from places spread evenly over the surface.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, without faults.
    rays : int
        Places to look from.

    Returns
    -------
    Thickness
        Of every place whose ray finds another side that faces it, within 45 degrees; of all places where
        no two sides do.

    Notes
    -----
    Places lie at even steps of the summed area of the triangles, each at the middle of the step; within a
    triangle they follow the low-discrepancy sequence of the golden ratios, so the answer is the same every
    time. Near an edge a ray leaves through the face beside it, which says nothing about a section: only
    faces that look away from each other within 45 degrees count.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> plate = wall_thickness(box([0.2, 0.1, 0.01]))
    >>> plate.through[plate.thinnest(0.01)].round(6)
    np.float64(0.01)
    """
    normals = mesh.area_vectors
    lengths = np.linalg.norm(normals, axis=1)
    steps = (np.arange(rays) + 0.5) / rays
    chosen = np.searchsorted(np.cumsum(lengths) / lengths.sum(), steps)
    chosen = np.minimum(chosen, len(lengths) - 1)
    places = spread(mesh.triangles[chosen])
    inward = -normals[chosen] / lengths[chosen, None]
    tree = surface_tree(mesh)
    through, others = tree.hits(places, inward, NEAR * tree.size)
    facing = np.einsum("rk,rk->r", inward, tree.normals[others]) >= FACING
    found = np.isfinite(through)
    found = found & facing if (found & facing).any() else found
    places, inward, through = places[found], inward[found], through[found]
    areas = np.full(through.size, lengths.sum() / rays)
    return Thickness(places, through, places + 0.5 * through[:, None] * inward, areas)
