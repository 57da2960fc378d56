"""What a mold holds a body back with: regions of it that lie in front of the body, each with its volume."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import numpy.typing as npt
from scipy.ndimage import distance_transform_edt
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.columns import Columns, shoot_columns
from pourwright.geometry.frames import turn_to
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.ways_up.spread import SLIDES

LATTICE = 256
LEAST = 1e-5
"""Regions smaller than this share of the body's box are the steps of the columns."""
MOST_IN_COLUMN = 6
"""Places where one column leaves the body that are told apart."""


@dataclass(frozen=True, slots=True, eq=False)
class Footprint:
    """Columns along a pull that a region stands in.

    Parameters
    ----------
    turn : array (3, 3)
        Into the frame whose third axis is the pull.
    first, second : array (n,)
        Places of the columns in that frame [m].
    inside : array (n, n) of bool
        Whether the region stands in each.
    """

    turn: Floats
    first: Floats
    second: Floats
    inside: npt.NDArray[np.bool_]

    def over(self, places: npt.ArrayLike) -> npt.NDArray[np.bool_]:
        """Whether places (n, 3) [m] lie in the columns."""
        turned = np.asarray(places) @ self.turn.T
        at = []
        for axis, lines in enumerate((self.first, self.second)):
            nearest = np.rint((turned[:, axis] - lines[0]) / _step(lines)).astype(int)
            at.append(np.clip(nearest, 0, len(lines) - 1))
        return np.asarray(self.inside[at[0], at[1]])


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """A part of the mold that hangs together and lies in front of the body along the pull.

    Parameters
    ----------
    volume : float
        Of the mold in front of it, up to the next part of the body or to the open face [m3].
    depth : float
        How far it reaches in behind the body, across the pull [m].
    place : array (3,)
        Where it reaches in deepest, on the body [m].
    lowest, highest : float
        Where it starts and ends along the pull [m].
    roofed : bool
        Whether the body closes above some of it: it cannot go out along the pull at all.
    loose : bool
        Whether it hangs together with nothing beside the body: it fills a hollow, and goes out with it.
    footprint : Footprint
        Where it stands.
    """

    volume: float
    depth: float
    place: Floats
    lowest: float
    highest: float
    roofed: bool
    loose: bool
    footprint: Footprint


@dataclass(frozen=True, slots=True, eq=False)
class _Gaps:
    """Spaces above the body, column by column."""

    column: Integers
    low: Floats
    high: Floats
    roofed: npt.NDArray[np.bool_]


@checked(count=Range(16, 2048))
def held_regions(mesh: Mesh, pull: Floats, count: int = LATTICE) -> tuple[Held, ...]:
    """Find the parts of a mold, open at the foremost face, that lie in front of the body along a pull.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    pull : array (3,)
        Unit vector out of the open face.
    count : int
        Columns along each side of the shadow.

    Returns
    -------
    tuple of Held
        The largest first; none where the body comes straight out.

    Notes
    -----
    Columns along the pull; what lies above the body in one of them, up to the body again or to the height of
    the foremost face, is held. Neighbours that overlap are one region. How far it reaches in is the distance,
    across the pull, to the nearest column that meets no body. Walls less steep than a degree slide.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> up = np.array([0.0, 0.0, 1.0])
    >>> held_regions(cone(0.1, 0.2, 0.4), up)
    ()
    >>> (ring,) = held_regions(cone(0.2, 0.1, 0.4), up)
    >>> round(ring.depth, 2), bool(abs(ring.volume / (np.pi * 0.4 * (0.04 - 0.07 / 3)) - 1) < 0.01)
    (0.1, True)
    """
    turn = turn_to(np.asarray(pull, dtype=np.float64))
    columns = shoot_columns(Mesh(mesh.vertices @ turn.T, mesh.faces), 2, count)
    gaps = _gaps(columns)
    if not gaps.column.size:
        return ()
    labels = _joined(gaps, count)
    reach, beside = _reach(columns, count), _beside(columns, count)
    least = LEAST * np.prod(np.ptp(mesh.bounds, axis=0))
    found = (_held(columns, gaps, labels == label, turn, reach, beside) for label in range(labels.max() + 1))
    kept = [region for region in found if region.volume > least and not _slides(region)]
    kept.sort(key=lambda region: -region.volume)
    return tuple(_turned_back(region, turn) for region in kept)


def _slides(region: Held) -> bool:
    return not region.roofed and region.depth < SLIDES * (region.highest - region.lowest)


def _gaps(columns: Columns) -> _Gaps:
    """What lies above each place where a column leaves the body."""
    leaving = columns.signs < 0
    column = np.repeat(np.arange(columns.starts.size - 1), np.diff(columns.starts))
    last = np.zeros(column.size, dtype=bool)
    last[columns.starts[1:][np.diff(columns.starts) > 0] - 1] = True
    top = float(columns.heights.max()) if columns.heights.size else 0.0
    above = np.append(columns.heights[1:], top)
    high = np.where(last, top, above)
    kept = leaving & (high - columns.heights > 1e-6)
    return _Gaps(column[kept], columns.heights[kept], high[kept], ~last[kept])


def _joined(gaps: _Gaps, count: int) -> Integers:
    """Number of the region of each gap: neighbours that overlap in height hang together."""
    total = count * count
    uses = np.bincount(gaps.column, minlength=total)
    first = np.concatenate([[0], np.cumsum(uses)])
    column = np.arange(total)
    pairs = []
    for step, inside in ((1, column % count < count - 1), (count, column < total - count)):
        here = column[inside]
        for one, other in product(range(MOST_IN_COLUMN), repeat=2):
            both = here[(uses[here] > one) & (uses[here + step] > other)]
            a, b = first[both] + one, first[both + step] + other
            touch = np.minimum(gaps.high[a], gaps.high[b]) > np.maximum(gaps.low[a], gaps.low[b])
            pairs.append(np.stack([a[touch], b[touch]]))
    ends = np.concatenate(pairs, axis=1)
    size = gaps.column.size
    links = coo_array((np.ones(ends.shape[1], dtype=np.int8), (ends[0], ends[1])), shape=(size, size))
    return np.asarray(connected_components(links, directed=False)[1], dtype=np.int64)


def _reach(columns: Columns, count: int) -> Floats:
    """Distance of every column from the nearest one that meets no body [m]."""
    meets = (np.diff(columns.starts) > 0).reshape(count, count)
    steps = (_step(columns.first), _step(columns.second))
    return np.asarray(distance_transform_edt(np.pad(meets, 1), sampling=steps)[1:-1, 1:-1]).ravel()


def _beside(columns: Columns, count: int) -> Floats:
    """Height below which one of the four columns beside each is free, from outside or from below [m]."""
    meets = np.diff(columns.starts) > 0
    enters = np.full(meets.size, np.inf)
    enters[meets] = columns.heights[columns.starts[:-1][meets]]
    free = np.pad(enters.reshape(count, count), 1, constant_values=np.inf)
    beside = np.stack([free[:-2, 1:-1], free[2:, 1:-1], free[1:-1, :-2], free[1:-1, 2:]])
    return np.asarray(beside.max(axis=0)).ravel()


def _held(
    columns: Columns,
    gaps: _Gaps,
    here: npt.NDArray[np.bool_],
    turn: Floats,
    reach: Floats,
    beside: Floats,
) -> Held:
    column, low, high = gaps.column[here], gaps.low[here], gaps.high[here]
    deepest = int(np.argmax(reach[column]))
    place = columns.place(int(column[deepest]), float(low[deepest]))
    volume = float((high - low).sum() * _step(columns.first) * _step(columns.second))
    roofed = bool(gaps.roofed[here].any())
    loose = not bool((low < beside[column]).any())
    inside = np.zeros(beside.size, dtype=bool)
    inside[column] = True
    count = len(columns.first)
    footprint = Footprint(turn, columns.first, columns.second, inside.reshape(count, count))
    return Held(
        volume,
        float(reach[column].max()),
        place,
        float(low.min()),
        float(high.max()),
        roofed,
        loose,
        footprint,
    )  # fmt: skip


def _turned_back(region: Held, turn: Floats) -> Held:
    return replace(region, place=region.place @ turn)


def _step(places: Floats) -> float:
    return float(places[1] - places[0])
