"""The thin parts of a body: where each is thinnest, whether plate or pin, and how far it stands out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.ray_tree import SurfaceTree, surface_tree
from pourwright.geometry.thin.inscribed import ThicknessMap
from pourwright.geometry.thin.thin_regions import GROWN, least_of_regions

PIN = 2.5
"""A part that is less than so many times wider than thick is a pin or a bar."""
DIRECTIONS, FINER = 12, 3
BULK = 1.5
"""What is so many times thicker is what a fin stands on."""
FITS = 0.999
STEP, NUDGES = 0.1, 3
"""Least step on the way there, by the radius, and how often a ball is pushed off what it meets."""
FAR = 1e3
"""Farther than anything [m]."""
MOST_STEPS = 400
"""Along the longest way that there is."""
FARTHEST = 40
"""Places of a part from which it is looked how far it stands out."""


@dataclass(frozen=True, slots=True, eq=False)
class ThinPart:
    """One thin part of a body.

    Parameters
    ----------
    thickness : float
        Largest ball at its thinnest place [m].
    ray : float
        Straight through there [m].
    place : array (3,)
        In the middle of it [m].
    inward : array (3,)
        Across it [-].
    width : float
        Least way through at right angles to that; infinite where it ends nowhere [m].
    stands : float or None
        Farthest that it stands out of what is half as thick again; None where nothing is, or where the part
        is thicker than the limit [m].
    """

    thickness: float
    ray: float
    place: Floats
    inward: Floats
    width: float
    stands: float | None

    @property
    def pin(self) -> bool:
        """Whether it is thin both ways."""
        return self.width <= PIN * self.thickness

    @property
    def slenderness(self) -> float:
        """How far it stands out by its thickness [-]; 0 where it stands out of nothing."""
        return 0.0 if self.stands is None else self.stands / self.thickness

    def alike(self, other: ThinPart) -> bool:
        """Whether another part has the same sizes to a twentieth."""
        one, two = ((part.thickness, part.stands or 0.0, float(part.pin)) for part in (self, other))
        return bool(np.allclose(one, two, rtol=0.05, atol=1e-9))


@checked(limit=Range(0, unit="m", open_low=True), most=Range(1, 1000))
def thin_parts(
    thickness: ThicknessMap, limit: float, *, most: int = 40, apart: npt.NDArray[np.bool_] | None = None
) -> tuple[ThinPart, ...]:
    """Gather the thin places of a body into parts.

    Parameters
    ----------
    thickness : ThicknessMap
        Of the body, or of the space between its parts.
    limit : float
        Thickness below which a part is told; the thinnest of all is told always [m].
    most : int
        Parts, thinnest first.
    apart : array (n,), optional
        Places that belong to a sharp edge and are no section.

    Returns
    -------
    tuple of ThinPart
        Thinnest first; parts that go over into each other without growing by a third in between are one.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> from pourwright.geometry.thin.inscribed import thickness_map
    >>> (plate,) = thin_parts(thickness_map(box([0.2, 0.1, 0.01])), 0.02)
    >>> round(plate.thickness, 6), plate.pin, plate.stands, plate.place.round(2).tolist()
    (0.01, False, None, [0.0, 0.0, 0.01])
    """
    kept = np.ones(thickness.balls.size, dtype=bool) if apart is None else ~apart
    if not kept.any():
        return ()
    reach = max(limit, GROWN * float(thickness.balls[kept].min()))
    rows = np.flatnonzero(kept & (thickness.balls <= reach))
    regions = least_of_regions(thickness.middles[rows], thickness.balls[rows], thickness.spacings[rows])
    parts = [rows[region] for region in regions[:most]]
    thin = [part for part in parts if thickness.balls[part[0]] <= limit]
    return tuple(_part(thickness, part, limit) for part in thin or parts[:1])


def _part(thickness: ThicknessMap, rows: Integers, limit: float) -> ThinPart:
    """Tell of one region, whose first place is its middle at its thinnest."""
    here = rows[0]
    middle, inward = thickness.middles[here], thickness.inward[here]
    least = float(thickness.balls[rows].min())
    return ThinPart(
        least,
        float(thickness.rays[here]),
        middle,
        inward,
        _width(thickness, middle, inward),
        _stands(thickness, rows, BULK * least / 2) if least <= limit else None,
    )


def _ways(tree: SurfaceTree, middles: Floats, inward: Floats) -> tuple[Floats, Floats]:
    """Directions at right angles to some, (n, k, 3), and the way through along each, (n, k) [m].

    Evenly round, and more finely where it is longest: a ray that leans leaves a pin by its side.
    """
    off = np.eye(3)[np.argmin(np.abs(inward), axis=1)]
    one = np.cross(inward, off)
    one /= np.linalg.norm(one, axis=1, keepdims=True)
    other = np.cross(inward, one)
    step = np.pi / DIRECTIONS
    angles = np.tile(step * np.arange(DIRECTIONS), (len(middles), 1))
    found = []
    while True:
        ways = np.cos(angles)[..., None] * one[:, None] + np.sin(angles)[..., None] * other[:, None]
        found.append((ways, _through(tree, middles, ways)))
        if len(found) == FINER:
            break
        best = np.take_along_axis(angles, found[-1][1].argmax(axis=1)[:, None], axis=1)
        angles = best + step * np.linspace(-0.75, 0.75, 7)
        step /= 4
    return np.concatenate([way for way, _ in found], axis=1), np.concatenate(
        [all_ for _, all_ in found], axis=1
    )


def _through(tree: SurfaceTree, middles: Floats, ways: Floats) -> Floats:
    """Way through places along each of their directions, both ways together."""
    starts, flat = np.repeat(middles, ways.shape[1], axis=0), ways.reshape(-1, 3)
    free = tree.hits(starts, flat, 0.0)[0] + tree.hits(starts, -flat, 0.0)[0]
    return np.asarray(free.reshape(ways.shape[:2]))


def _width(thickness: ThicknessMap, middle: Floats, inward: Floats) -> float:
    """Least way through a place at right angles to a direction."""
    return float(_ways(thickness.tree, middle[None], inward[None])[1].min())


def _stands(thickness: ThicknessMap, rows: Integers, radius: float) -> float | None:
    """Farthest of some places, along the part that they are in, from where a ball of a radius fits."""
    rows = rows[_far_apart(thickness.middles[rows])]
    middles = thickness.middles[rows]
    ways, _ = _ways(thickness.tree, middles, thickness.inward[rows])
    ways = np.concatenate([ways, -ways], axis=1)
    away = _to_bulk(thickness.tree, middles, ways, radius)
    found = away[np.isfinite(away)]
    # the first ball that fits where a part stands on a flat side touches the corners on both sides of it
    sunk = radius * np.sqrt(1 - 1 / BULK**2)
    return max(float(found.max()) - sunk, 0.0) if found.size else None


def _to_bulk(tree: SurfaceTree, middles: Floats, ways: Floats, radius: float) -> Floats:
    """Distance from each place to the first ball of a radius that fits beside one of its ways."""
    owner = np.repeat(np.arange(len(middles)), ways.shape[1])
    ways = ways.reshape(-1, 3)
    ends = np.minimum(tree.hits(middles[owner], ways, 0.0)[0], tree.size)
    along, found = np.zeros(len(ways)), np.full(len(middles), np.inf)
    going = np.arange(len(ways))
    # across a foil even small steps are many balls wide
    least = max(STEP * radius, tree.size / MOST_STEPS)
    while going.size:
        starts = middles[owner[going]]
        centres = starts + along[going, None] * ways[going]
        short = np.full(going.size, np.inf)
        for _ in range(NUDGES):
            off = tree.from_surface(centres, radius)
            free = np.linalg.norm(off, axis=1)
            short = np.minimum(short, radius - free)
            fits = free >= FITS * radius
            centres += (1.0001 * (radius - free) / np.maximum(free, 1e-30))[:, None] * off
        np.minimum.at(found, owner[going[fits]], np.linalg.norm(centres - starts, axis=1)[fits])
        # the way to the surface grows by no more than the way walked
        along[going] += np.maximum(short, least)
        open_ = ~fits & (along[going] <= np.minimum(ends[going], found[owner[going]]))
        going = going[open_]
    return found


def _far_apart(places: Floats) -> Integers:
    """Some of many places, each as far as can be from those before it."""
    chosen = [0]
    away = np.linalg.norm(places - places[0], axis=1)
    while len(chosen) < min(FARTHEST, len(places)):
        chosen.append(int(np.argmax(away)))
        away = np.minimum(away, np.linalg.norm(places - places[chosen[-1]], axis=1))
    return np.array(chosen)


@checked(close=Range(0.0, 1.0))
def beside_edges(
    thickness: ThicknessMap, edges: Iterable[tuple[Floats, float]], close: float = 0.5
) -> npt.NDArray[np.bool_]:
    """Say which places are as thin as they are because they lie beside a sharp edge.

    Parameters
    ----------
    thickness : ThicknessMap
        Of the body.
    edges : iterable of array (n, 2, 3) and float
        Ends of each sharp edge, twice the same for a point [m], and its angle [rad].
    close : float
        Least thickness by that of the wedge there [-].

    Returns
    -------
    array (m,)
        A ball whose centre lies s from an edge of the angle a has the diameter 2 s sin(a / 2).

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> from pourwright.geometry.thin.inscribed import thickness_map
    >>> found = thickness_map(cone(0.02, 0.0, 0.1, 128))
    >>> tip = np.array([[[0.0, 0.0, 0.1], [0.0, 0.0, 0.1]]])
    >>> bool(beside_edges(found, [(tip, 2 * np.arctan(0.2))]).mean() > 0.5)
    True
    """
    beside = np.zeros(thickness.balls.size, dtype=bool)
    for ends, angle in edges:
        corners = np.arange(2 * len(ends)).reshape(-1, 2)[:, [0, 1, 1]]
        off = surface_tree(Mesh(ends.reshape(-1, 3), corners)).from_surface(thickness.middles, FAR)
        wedge = 2 * np.linalg.norm(off, axis=1) * np.sin(angle / 2)
        beside |= thickness.balls >= close * wedge
    return beside
