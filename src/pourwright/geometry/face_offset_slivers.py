"""Small triangles that stand in the way of moving faces are closed up; the surface stays where it is."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from pourwright.geometry.mesh import Floats, Integers, Mesh

TURN = 0.9
"""Cosine of the most that a triangle may turn when one of its corners is closed up."""
SMOOTH = 0.98
"""Where triangles turn by less, the surface is round and no true shape to begin with."""


class Slivers:
    """One round of closing up triangles.

    Parameters
    ----------
    mesh : Mesh
        Closed, welded.
    sharpness : array (n,)
        Of each vertex: 1 on a smooth surface, 2 on an edge, 3 at a corner.
    ridges : array (n, 3)
        Unit vector along the edge that a vertex of sharpness 2 lies on.
    tolerance : float
        How far a round surface may move by it, others a quarter of that [m].
    """

    def __init__(self, mesh: Mesh, sharpness: Integers, ridges: Floats, tolerance: float) -> None:
        self._points, self._faces = mesh.vertices, mesh.faces.copy()
        self._sharpness, self._ridges, self._tolerance = sharpness, ridges, tolerance
        order = np.argsort(mesh.faces.ravel(), kind="stable")
        self._around = order // 3
        self._starts = np.searchsorted(mesh.faces.ravel()[order], np.arange(len(mesh.vertices) + 1))
        self._busy = np.zeros(len(mesh.faces), dtype=bool)
        self._gone = np.zeros(len(mesh.faces), dtype=bool)

    def closed(self, folded: Integers) -> tuple[Mesh, Integers]:
        """Close up one edge of each triangle that allows it.

        Parameters
        ----------
        folded : array of int
            Triangles that stand in the way, the most urgent first.

        Returns
        -------
        tuple of Mesh and array of int
            The rest, and which of the triangles they were.
        """
        for face in folded:
            if not self._busy[face]:
                self._close(int(face))
        left = np.flatnonzero(~self._gone)
        return Mesh(self._points, self._faces[left]), left

    def _close(self, face: int) -> None:
        for gone, kept in self._edges(face):
            changed = self._changed(gone, kept)
            if changed is not None:
                mine, others = self._ring(gone), self._ring(kept)
                self._busy[mine] = self._busy[others] = True
                self._gone[np.setdiff1d(mine, changed)] = True
                ring = self._faces[changed]
                ring[ring == gone] = kept
                self._faces[changed] = ring
                return

    def _edges(self, face: int) -> Iterator[tuple[int, int]]:
        """Corners that may be closed into another, the shortest way first."""
        corners = self._faces[face].tolist()
        ways = [(one, other) for one in corners for other in corners if one != other]
        ways.sort(key=lambda way: float(np.linalg.norm(self._points[way[0]] - self._points[way[1]])))
        yield from (way for way in ways if self._allowed(*way))

    def _allowed(self, gone: int, kept: int) -> bool:
        """Corners stay, and what lies on an edge closes along it only: a slot has its other side near."""
        sharp = self._sharpness[gone]
        if sharp != 2 or self._sharpness[kept] < 2:
            return bool(sharp < 2)
        way = self._points[kept] - self._points[gone]
        return bool(abs(way @ self._ridges[gone]) >= TURN * np.linalg.norm(way))

    def _ring(self, vertex: int) -> Integers:
        return self._around[self._starts[vertex] : self._starts[vertex + 1]]

    def _changed(self, gone: int, kept: int) -> Integers | None:
        """Triangles that would get another corner; None where the surface would not stay as it is."""
        mine, others = self._ring(gone), self._ring(kept)
        if self._busy[mine].any() or self._busy[others].any():
            return None
        shared = np.intersect1d(np.unique(self._faces[mine]), np.unique(self._faces[others]))
        # the edge's two ends, and the two corners across it: else the surface would touch itself
        if shared.size != 4:
            return None
        changed = mine[~(self._faces[mine] == kept).any(axis=1)]
        before = self._points[self._faces[changed]]
        ring = self._faces[changed]
        after = self._points[np.where(ring == gone, kept, ring)]
        return changed if self._stays(before, after, self._points[kept]) else None

    def _stays(self, before: Floats, after: Floats, kept: Floats) -> bool:
        old, new = (np.cross(each[:, 1] - each[:, 0], each[:, 2] - each[:, 0]) for each in (before, after))
        lengths, sizes = np.linalg.norm(old, axis=1), np.linalg.norm(new, axis=1)
        whole = lengths > 0
        cosines = (old * new).sum(axis=1)[whole] / np.maximum(lengths * sizes, 1e-300)[whole]
        if not (sizes > 0).all() or (cosines < TURN).any():
            return False
        off = np.abs(((kept - before[:, 0]) * old).sum(axis=1)[whole] / lengths[whole]).max(initial=0.0)
        smooth = bool((cosines >= SMOOTH).all())
        return bool(off <= (self._tolerance if smooth else self._tolerance / 4.0))
