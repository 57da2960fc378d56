"""Pockets of air that a rising liquid closes off, from how the regions above its level meet."""

from dataclasses import dataclass, replace

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.ways_up.pocket_kernels import (
    OUTSIDE,
    Truths,
    faces_above,
    highest,
    regions_met,
    volumes_above,
)

_LEVEL = 1e-6
"""Pockets less deep than this are the roundness of numbers [m]."""
_NO_HIGH = -3
"""What a vertex with a higher neighbour hangs on."""


@dataclass(frozen=True, slots=True, eq=False)
class Peak:
    """A local high of a pocket: where a vent would have to stand.

    Parameters
    ----------
    place : array (3,)
        Its highest point [m].
    volume : float
        What stays above the height where it parts from the rest of the pocket [m3].
    lip : float
        That height, along up [m].
    """

    place: Floats
    volume: float
    lip: float


@dataclass(frozen=True, slots=True, eq=False)
class Pocket:
    """Space from which a rising liquid lets no air out.

    Parameters
    ----------
    volume : float
        Above its lip [m3].
    lip : float
        Height along up where the liquid closes it off [m].
    top : float
        Its highest height along up [m].
    lip_place : array (3,)
        Where it is closed off last [m].
    peaks : tuple of Peak
        Local highs, the highest first; each needs a way out of its own.
    vertices : array (n,)
        Corners of the mesh that lie on its walls.
    """

    volume: float
    lip: float
    top: float
    lip_place: Floats
    peaks: tuple[Peak, ...]
    vertices: Integers

    @property
    def place(self) -> Floats:
        """Highest point, (3,) [m]."""
        return self.peaks[0].place


class Surface:
    """A closed surface made ready to be looked at from many sides.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    """

    def __init__(self, mesh: Mesh) -> None:
        self.mesh = mesh
        corners = mesh.faces.ravel()
        self.around: Integers = np.argsort(corners, kind="stable") // 3
        self.starts: Integers = np.concatenate(
            [[0], np.cumsum(np.bincount(corners, minlength=len(mesh.vertices)))]
        )
        self.normals = _corner_normals(mesh)

    def pockets(
        self, turn: Floats, *, outside: bool, least: float = 0.0, opened: Truths | None = None
    ) -> tuple[Pocket, ...]:
        """Find the pockets with +z of a turned frame up.

        Parameters
        ----------
        turn : array (3, 3)
            Rows are the axes of that frame.
        outside : bool
            Whether the liquid rises around the body; else in it.
        least : float
            Smaller pockets and peaks are left out [m3].
        opened : array of bool (n,), optional
            Vertices where air leaves, as those of a mouth that leans with its mold; the highest ones where
            left out and the liquid rises in the body.

        Returns
        -------
        tuple of Pocket
            The largest first; heights are along up, places in the frame of the mesh.
        """
        points = np.ascontiguousarray(self.mesh.vertices @ turn.T)
        order = np.argsort(-points[:, 2], kind="stable")
        rank = np.empty(order.size, dtype=np.int64)
        rank[order] = np.arange(order.size)
        leaves = _leaves(points, opened, outside=outside)
        hangs = self._hanging(points, rank, turn[2], outside=outside)
        hangs[leaves & (hangs != _NO_HIGH)] = OUTSIDE
        tops, into, where, own = regions_met(
            self.mesh.faces, self.starts, self.around, order, rank, hangs, leaves
        )
        vented = np.zeros(tops.size, dtype=bool)
        vented[0] = True
        return _told(
            self.mesh, points, rank, _Regions(tops, into, where, own, vented, -1.0 if outside else 1.0), least
        )

    def _hanging(self, points: Floats, rank: Integers, up: Floats, *, outside: bool) -> Integers:
        """Say for each local high what it hangs on: -3 is none, -2 a birth, -1 the outside, else a vertex."""
        faces = self.mesh.faces
        highs = highest(faces, self.starts, self.around, rank)
        hangs = np.full(rank.size, _NO_HIGH, dtype=np.int64)
        # at a high of the surface the body lies below where its outward normal points up
        below = self.normals[highs] @ up > 0
        born = ~below if outside else below
        hangs[highs[born]] = -2
        asking = highs[~born]
        above = faces_above(points, faces, asking)
        corners = faces[above]
        best = corners[np.arange(above.size), rank[corners].argmin(axis=1)]
        hangs[asking] = np.where(above >= 0, best, OUTSIDE)
        return hangs


@dataclass(frozen=True, slots=True, eq=False)
class _Regions:
    """Births and meetings as the compiled loop gives them; which regions air leaves; 1 in, -1 around."""

    tops: Integers
    into: Integers
    where: Integers
    own: Integers
    vented: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
    side: float


def pockets(mesh: Mesh, *, outside: bool = False) -> tuple[Pocket, ...]:
    """Find where a liquid that rises in a body, or around it, closes off air.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented, +z up.
    outside : bool
        Around the body, in a box wide enough; else in it, with air leaving at its highest level.

    Returns
    -------
    tuple of Pocket
        The largest first.

    Notes
    -----
    Regions of the space above a falling level are born at local highs and meet at saddles; the tree of it
    changes at vertices only. A region that meets one the air can leave is closed off there while the level
    rises. Two vertices belong together when an edge joins them; a high of the surface with space on its
    upper side hangs on the face straight above. Volumes by the divergence theorem over a region's faces, so
    both are exact for the mesh. That the head presses trapped air together, a few per cent, is left out.

    Source: merge trees with the elder rule, Edelsbrunner and Harer, Computational Topology, 2010 (from
    memory).

    Examples
    --------
    >>> from pourwright.geometry import revolve
    >>> cup = revolve([[0.05, 0.0], [0.05, 0.1], [0.04, 0.1], [0.04, 0.01]], 256)
    >>> pockets(cup, outside=True)
    ()
    >>> found = pockets(cup.transformed(np.diag([1.0, -1.0, -1.0, 1.0])), outside=True)
    >>> [round(pocket.volume / (np.pi * 0.04**2 * 0.09), 3) for pocket in found]
    [1.0]
    """
    return Surface(mesh).pockets(np.eye(3), outside=outside)


def _leaves(points: Floats, opened: Truths | None, *, outside: bool) -> Truths:
    """Vertices where air leaves: those that are given, or the highest of a body that liquid rises in."""
    if opened is not None:
        return opened
    if outside:
        return np.zeros(len(points), dtype=bool)
    return np.asarray(points[:, 2] >= points[:, 2].max() - _LEVEL)


def _corner_normals(mesh: Mesh) -> Floats:
    """Normals of the vertices, each face weighted by its angle there.

    At a local high their sign along up tells on which side the body is: Baerentzen and Aanaes, IEEE Trans.
    Vis. Comput. Graph. 11 (2005) 243 (from memory).
    """
    units = mesh.area_vectors
    units = units / np.maximum(np.linalg.norm(units, axis=1), 1e-300)[:, None]
    sums = np.zeros((len(mesh.vertices), 3))
    for corner in range(3):
        here, ahead, behind = (mesh.vertices[mesh.faces[:, (corner + n) % 3]] for n in range(3))
        one, other = ahead - here, behind - here
        angle = np.arctan2(np.linalg.norm(np.cross(one, other), axis=1), (one * other).sum(axis=1))
        for axis in range(3):
            sums[:, axis] += np.bincount(
                mesh.faces[:, corner], angle * units[:, axis], minlength=len(mesh.vertices)
            )
    return sums


def _told(mesh: Mesh, points: Floats, rank: Integers, regions: _Regions, least: float) -> tuple[Pocket, ...]:
    heights = points[:, 2]
    lips = np.where(regions.where >= 0, heights[regions.where], -np.inf)
    depths = np.where(regions.vented, np.inf, heights[regions.tops] - lips)
    above = _collapsed(regions, depths)
    depth = _generations(above, regions.vented)
    heads = _ancestors(above, depth, 1)
    found: dict[int, Pocket] = {}
    peaks: dict[int, list[Peak]] = {}
    for generation in range(1, int(depth.max(initial=0)) + 1):
        label = _ancestors(above, depth, generation)
        members = np.where(regions.own >= 0, label[regions.own], -1)
        floors = np.where(np.isfinite(lips), lips, heights.min())
        volumes = regions.side * volumes_above(points, mesh.faces, rank, members, floors)
        for region in np.flatnonzero((depth == generation) & (depths > _LEVEL) & (volumes > least)):
            peak = Peak(mesh.vertices[regions.tops[region]], float(volumes[region]), float(lips[region]))
            head = int(heads[region])
            if generation == 1:
                place = mesh.vertices[regions.where[region]] if regions.where[region] >= 0 else peak.place
                top = float(heights[regions.tops[region]])
                found[head] = Pocket(peak.volume, peak.lip, top, place, (), np.flatnonzero(members == region))
            if head in found:
                peaks.setdefault(head, []).append(peak)
    whole = [replace(pocket, peaks=tuple(peaks[head])) for head, pocket in found.items()]
    return tuple(sorted(whole, key=lambda pocket: -pocket.volume))


def _collapsed(regions: _Regions, depths: Floats) -> Integers:
    """Region each is part of; one that is no deeper than round-off counts as the one it met."""
    above = regions.into.copy()
    flat = ~(depths > _LEVEL)
    for region in range(1, above.size):
        # an elder has the lower number, so its own way up is already short
        elder = above[region]
        if elder >= 0 and flat[elder]:
            above[region] = above[elder]
    return above


def _generations(above: Integers, vented: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> Integers:
    """How many pockets deep each region lies; 0 for what the air can leave."""
    depth = np.zeros(above.size, dtype=np.int64)
    for region in range(1, above.size):
        if not vented[region]:
            depth[region] = depth[above[region]] + 1 if above[region] >= 0 else 1
    return depth


def _ancestors(above: Integers, depth: Integers, generation: int) -> Integers:
    """Region of a generation that each lies in; -1 for those that lie in none."""
    found = np.full(above.size, -1, dtype=np.int64)
    for region in range(above.size):
        if depth[region] == generation:
            found[region] = region
        elif depth[region] > generation:
            found[region] = found[above[region]]
    return found


@checked(least=Range(0, unit="m3"))
def trapped_volume(found: tuple[Pocket, ...], least: float = 0.0) -> float:
    """Add up pockets.

    Parameters
    ----------
    found : tuple of Pocket
        As found.
    least : float
        Smaller ones do not count [m3].

    Returns
    -------
    float
        [m3]

    Examples
    --------
    >>> trapped_volume(())
    0.0
    """
    return float(sum(pocket.volume for pocket in found if pocket.volume >= least))
