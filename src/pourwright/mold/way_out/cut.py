"""Where a block of rubber is cut open, and how much rubber that goes through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, pi

import numpy as np

from pourwright.geometry import Mesh, edge_lines
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ways_up.around import Around
from pourwright.mold.way_out.defaults import WAY_OUT

UPRIGHT, SHARP = np.cos(np.radians(20.0)), 0.002
"""Cosine of the lean up to which an edge is upright, and radius up to which it hides a line [m]."""
MOST_OF_CUT = 0.6
"""Share of the cut that an edge must run beside, to hide its line."""
NEARLY = 1.1
"""Sides that differ by less open equally well."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One upright cut from the cavity to the outside of a block.

    Parameters
    ----------
    angle : float
        From the x axis, as the mold lies [rad].
    length : float
        Along the wall, from the rim down to where it ends [m].
    land : float
        Least thickness of rubber along it [m]; what a leak has to pass.
    depth : float
        Most thickness of rubber along it [m].
    ends_at : float
        Height where it ends, above the cavity's floor [m].
    area : float
        Rubber cut through [m2].
    width : float
        Of the piece across the cut [m]: so far the block must open.
    on_edge : bool
        Whether an edge of the piece hides its line.
    waves, wave : int and float
        How often it runs to and fro, and how far [m].
    """

    angle: float
    length: float
    land: float
    depth: float
    ends_at: float
    area: float
    width: float
    on_edge: bool = False
    waves: int = 0
    wave: float = 0.0


def every_cut(mesh: Mesh, around: Around, base: float) -> tuple[Cut, ...]:
    """Measure a cut at each of the angles that were looked along.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast.
    around : Around
        Rubber round it.
    base : float
        Rubber under it [m].

    Returns
    -------
    tuple of Cut
        In the order of the angles.
    """
    top = float(mesh.bounds[1, 2])
    # a low piece is cut down to its floor at most
    ends = min(max(WAY_OUT["hinge"].value - base, 0.0), top / 2)
    edges = _edge_angles(mesh, top - ends)
    half = pi / max(around.angles.size, 1) + 1e-9
    return tuple(
        _cut(n, mesh, around, ends, any(_apart(angle, edge) <= half for edge in edges))
        for n, angle in enumerate(around.angles.tolist())
    )


def _cut(n: int, mesh: Mesh, around: Around, ends: float, on_edge: bool) -> Cut:
    angle = float(around.angles[n])
    cut = around.heights > ends
    free = around.free[n, cut]
    across = mesh.vertices[:, :2] @ np.array([-np.sin(angle), np.cos(angle)])
    length = float(mesh.bounds[1, 2]) - ends
    waves = int(length // WAY_OUT["key_spacing"].value)
    wave = min(WAY_OUT["key_size"].value, float(free.min()) / 2) if waves else 0.0
    return Cut(
        angle, length, float(free.min()), float(free.max()), ends, float(free.sum() * around.step),
        float(np.ptp(across)), on_edge, waves, wave,
    )  # fmt: skip


def chosen_cut(cuts: Sequence[Cut]) -> Cut:
    """Choose where to cut.

    Parameters
    ----------
    cuts : sequence of Cut
        At least one.

    Returns
    -------
    Cut
        Of those across which the piece is nearly narrowest: along an edge, else the least rubber to cut.
    """
    narrow = NEARLY * min(cut.width for cut in cuts)
    good = [cut for cut in cuts if cut.width <= narrow]
    return min(good, key=lambda cut: (not cut.on_edge, round(cut.area, 5), cut.angle))


def opposite(cuts: Sequence[Cut], first: Cut) -> Cut:
    """The cut that lies opposite to another."""
    return min(cuts, key=lambda cut: (round(_apart(cut.angle, first.angle + pi), 6), cut.angle))


def _apart(one: float, other: float) -> float:
    """Angle between two directions round an axis [rad]."""
    turn = abs(one - other) % (2 * pi)
    return min(turn, 2 * pi - turn)


def _edge_angles(mesh: Mesh, height: float) -> list[float]:
    """Directions of upright outer edges that run beside most of a cut."""
    found = []
    for line in edge_lines(mesh, inner=False, below=SHARP):
        along = line.ends[:, 1] - line.ends[:, 0]
        lengths = np.linalg.norm(along, axis=1)
        rises = np.abs(along[:, 2]) > UPRIGHT * lengths
        if lengths[rises].sum() >= MOST_OF_CUT * height:
            x, y, _ = line.ends.reshape(-1, 3).mean(axis=0)
            found.append(float(np.arctan2(y, x)))
    return found


def sides_to_look_at(step: float = 5.0) -> Floats:
    """Angles at which a cut is thought of [rad].

    Parameters
    ----------
    step : float
        [deg]

    Returns
    -------
    array
        The whole way round.
    """
    return np.asarray(np.radians(np.arange(ceil(360.0 / step)) * step))
