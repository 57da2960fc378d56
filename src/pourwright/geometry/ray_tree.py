"""A tree of boxes around the triangles of a surface, for rays and nearest places."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.tree_kernels import shrunk_balls, tree_hits, tree_nearest

LEAF = 4
"""Triangles in a box that is not halved any more."""
BITS = 16
FACING = float(np.cos(np.pi / 4)) - 1e-6
"""Cosine of the angle within which two sides face away from each other."""
PADDING = 1e-9
"""Boxes are wider by this share of the body, so that none is missed by round-off."""


@dataclass(frozen=True, slots=True, eq=False)
class SurfaceTree:
    """Triangles in the order of a space-filling curve, with the boxes of a binary tree over them.

    Parameters
    ----------
    triangles : array (m, 3, 3)
        Sorted [m].
    normals : array (m, 3)
        Outward, of length 1; zero for a triangle without area [-].
    faces : array (m,)
        Number of each sorted triangle in the mesh.
    boxes : array (n, 2, 3)
        Lowest and highest corner of each node; the children of node i are 2 i + 1 and 2 i + 2 [m].
    cones : array (n, 4)
        Mean normal of each node, and the cosine that a way has with it at least where any of the node's
        triangles faces along the way [-].
    size : float
        Longest side of the whole [m].
    """

    triangles: Floats
    normals: Floats
    faces: Integers
    boxes: Floats
    cones: Floats
    size: float

    def hits(self, starts: Floats, ways: Floats, least: float) -> tuple[Floats, Integers]:
        """Follow rays to the first triangle beyond ``least``: distance, infinite for none, and its row."""
        return tree_hits(self.triangles, self.faces, self.boxes, LEAF, starts, ways, least)

    def balls(self, places: Floats, inward: Floats, radii: Floats) -> tuple[Floats, Integers, Floats]:
        """Shrink balls at places of the surface; radius, row of what stops each (-1: nothing), and where."""
        return shrunk_balls(
            self.triangles, self.normals, self.boxes, self.cones, LEAF, places, inward, radii, FACING
        )

    def from_surface(self, points: Floats, most: float) -> Floats:
        """Way to points (n, 3) from the nearest place of the surface; as long as ``most`` at most."""
        return tree_nearest(self.triangles, self.boxes, LEAF, points, most)


def surface_tree(mesh: Mesh, creases: tuple[Floats, Floats, Integers] | None = None) -> SurfaceTree:
    """Put the triangles of a mesh into a tree of boxes.

    Parameters
    ----------
    mesh : Mesh
        With at least one face.
    creases : tuple of array (n, 2, 3), array (n, 3) and array (n,), optional
        Ends [m], normals and faces of inner corners that a ball may touch; no ray meets them.

    Returns
    -------
    SurfaceTree

    Notes
    -----
    Triangles are sorted by the Morton code of their middles and halved in that order: Lauterbach et al.,
    Comput. Graph. Forum 28 (2009) 375 (from memory).

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> tree = surface_tree(box([0.2, 0.2, 0.2]))
    >>> tree.hits(np.array([[0.01, 0.02, 0.05]]), np.array([[0.0, 0.0, 1.0]]), 0.0)[0].round(6).tolist()
    [0.15]
    """
    triangles, vectors, faces = mesh.triangles, mesh.area_vectors, np.arange(len(mesh.faces))
    if creases is not None:
        # a triangle whose third corner is the second has no area
        triangles = np.concatenate([triangles, creases[0][:, [0, 1, 1]]])
        vectors, faces = np.concatenate([vectors, creases[1]]), np.concatenate([faces, creases[2]])
    lower, upper = mesh.bounds
    extent = float((upper - lower).max()) or 1.0
    order = np.argsort(_morton((triangles.mean(axis=1) - lower) / extent), kind="stable")
    lengths = np.linalg.norm(vectors, axis=1)[order, None]
    normals = np.divide(vectors[order], lengths, out=np.zeros_like(vectors), where=lengths > 0)
    sorted_ = np.ascontiguousarray(triangles[order])
    return SurfaceTree(
        sorted_, normals, faces[order], _boxes(sorted_, PADDING * extent), _cones(normals), extent
    )


def _morton(shares: Floats) -> Integers:
    """Weave the bits of three numbers from 0 to 1 into one."""
    whole = np.clip(shares * 2**BITS, 0, 2**BITS - 1).astype(np.int64)
    code = np.zeros(len(whole), dtype=np.int64)
    for bit in range(BITS):
        for axis in range(3):
            code |= ((whole[:, axis] >> bit) & 1) << (3 * bit + axis)
    return code


def _boxes(triangles: Floats, padding: float) -> Floats:
    """Boxes level by level from the leaves up; what holds nothing lies at infinity."""
    leaves = _leaves(len(triangles))
    level = np.full((leaves, 2, 3), np.inf)
    level[:, 1] = -np.inf
    starts = np.arange(0, len(triangles), LEAF)
    level[: starts.size, 0] = np.minimum.reduceat(triangles.min(axis=1), starts) - padding
    level[: starts.size, 1] = np.maximum.reduceat(triangles.max(axis=1), starts) + padding
    levels = [level]
    while len(level) > 1:
        pairs = level.reshape(-1, 2, 2, 3)
        level = np.stack([pairs[:, :, 0].min(axis=1), pairs[:, :, 1].max(axis=1)], axis=1)
        levels.append(level)
    boxes = np.concatenate(levels[::-1])
    boxes[boxes[:, 0, 0] > boxes[:, 1, 0]] = np.inf
    return boxes


def _cones(normals: Floats) -> Floats:
    """Cones of normals level by level from the leaves up; what holds nothing faces nowhere."""
    leaves = _leaves(len(normals))
    padded = np.zeros((leaves * LEAF, 3))
    padded[: len(normals)] = normals
    level, half = padded.reshape(leaves, LEAF, 3), np.zeros((leaves, LEAF))
    held = (level != 0).any(axis=2)
    parts = []
    while True:
        axis = level.sum(axis=1)
        length = np.linalg.norm(axis, axis=1)
        # where normals cancel, any way may face one of them
        plain, any_way = length > 1e-9, held.any(axis=1) & (length <= 1e-9)
        axis = np.divide(axis, length[:, None], out=np.zeros_like(axis), where=plain[:, None])
        lean = np.arccos(np.clip(np.einsum("nlk,nk->nl", level, axis), -1.0, 1.0))
        half = np.where(any_way, np.pi, np.where(held, lean + half, 0.0).max(axis=1))
        bound = np.where(plain | any_way, np.cos(np.minimum(np.pi / 4 + half + 1e-6, np.pi)), 2.0)
        parts.append(np.concatenate([axis, bound[:, None]], axis=1))
        if len(axis) == 1:
            return np.concatenate(parts[::-1])
        level, half, held = axis.reshape(-1, 2, 3), half.reshape(-1, 2), held.any(axis=1).reshape(-1, 2)


def _leaves(count: int) -> int:
    """Boxes at the bottom of the tree, a power of two."""
    return 1 << max(int(np.ceil(count / LEAF)) - 1, 0).bit_length()
