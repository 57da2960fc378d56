"""How thick a body is behind each place of its surface, as a caliper would read it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ray_kernels import first_hits

MOST_RAYS = 600
FACING = np.cos(np.pi / 4)
LEAST_SHARE = 1e-9
"""Hits nearer than this share of the body's size are the surface the ray starts from."""


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
    places = _spread(mesh.triangles[chosen])
    inward = -normals[chosen] / lengths[chosen, None]
    reach = float(np.ptp(mesh.bounds, axis=0).max())
    through, others = first_hits(mesh.triangles, places, inward, LEAST_SHARE * reach)
    facing = np.einsum("rk,rk->r", inward, normals[others] / lengths[others, None]) >= FACING
    found = np.isfinite(through)
    found = found & facing if (found & facing).any() else found
    places, inward, through = places[found], inward[found], through[found]
    areas = np.full(through.size, lengths.sum() / rays)
    return Thickness(places, through, places + 0.5 * through[:, None] * inward, areas)


def _spread(triangles: Floats) -> Floats:
    """One place in each triangle, by the sequence of the plastic number folded into it."""
    number = np.arange(len(triangles))[:, None]
    u, v = np.mod(0.5 + number * np.array([0.7548776662466927, 0.5698402909980532]), 1.0).T
    folded = u + v > 1.0
    u, v = np.where(folded, 1.0 - u, u)[:, None], np.where(folded, 1.0 - v, v)[:, None]
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    return np.asarray(a + u * (b - a) + v * (c - a))
