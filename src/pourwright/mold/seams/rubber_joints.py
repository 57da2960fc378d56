"""The joints in the rubber itself, which what is cast reaches: cuts, parting lines, rods."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, pi

import numpy as np

from pourwright.geometry import Mesh, plane_section
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ways_up.around import Cuboid, space_around
from pourwright.mold.seams.joint import CAST, Joint
from pourwright.mold.seams.strip import Strip
from pourwright.mold.way_out.cut import Cut

CLOSE_CUT = (
    "put back mark to mark, both faces clean and dry, the box clamped tight round it: its panels press the "
    "cut shut; never caulk or rubber in it, they bond for good"
)
CLOSE_LINE = "keys home, faces clean, halves clamped all round between boards"
CLOSE_SKIN = "edges put together in the shell before it is bolted; its bolts press them"
CLOSE_SHELL = "flange scraped clean, a thin string of clay along it, bolted every hand's width"
CLOSE_ROD = "hole punched a third thinner than the rod, or a collar of clay under the floor"
SURE = 1e-6
"""Edges this close to the open face lie in it [m]."""
FINE = 0.002
"""Longest piece of an outline whose way out counts as even [m]."""


def cut_joint(
    mesh: Mesh, inside: tuple[float, float], cut: Cut, name: str, gap: float, filled: Sequence[Cuboid] = ()
) -> Joint:
    """A cut through a block of rubber, with the rubber at each height as its way out.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast, its floor at 0.
    inside : tuple of float
        Of the box along x and y [m].
    cut : Cut
        Where.
    name : str
        As the maker calls it.
    gap : float
        That one expects [m].
    filled : sequence of pairs of corners
        Space blocks, which take rubber away [m].

    Returns
    -------
    Joint
    """
    around = space_around(mesh, inside, np.array([cut.angle]), filled=filled)
    ends, half = cut.ends_at, around.step / 2
    strips = tuple(
        Strip(z + half - max(z - half, ends), float(path), max(z - half, ends), z + half)
        for z, path in zip(around.heights.tolist(), around.free[0], strict=True)
        if z + half > ends + SURE
    )
    return _cast(kind="cut", name=name, strips=strips, level=_top(mesh), gap=gap, closed_by=CLOSE_CUT)


def line_joint(mesh: Mesh, inside: tuple[float, float], base: float, opens: int, gap: float) -> Joint:
    """The line where two halves of a mold meet, in the upright plane through the middle.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast.
    inside : tuple of float
        Of the box along x and y [m].
    base : float
        Rubber under the piece [m].
    opens : int
        Axis across which the halves part: 0 or 1.
    gap : float
        That one expects [m].

    Returns
    -------
    Joint
        The way out from each place is the shorter one of sideways and down.
    """
    half = inside[1 - opens] / 2

    def out(across: float, height: float) -> float:
        return min(half - abs(across), height + base)

    strips = tuple(
        Strip(length, out(across, (low + high) / 2), low, high)
        for length, across, low, high in _outline(mesh, opens)
    )
    return _cast(
        kind="line", name="parting line of the halves", strips=strips, level=_top(mesh), gap=gap,
        closed_by=CLOSE_LINE,
    )  # fmt: skip


def skin_joints(mesh: Mesh, skin: float, flange: float, gap: float, *, cut: bool) -> tuple[Joint, ...]:
    """The cut in a skin, on one side, and the shell behind it.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast.
    skin : float
        Thickness of the rubber [m].
    flange : float
        Width of the rim along which the shell is bolted [m].
    gap : float
        That one expects [m].
    cut : bool
        Whether the skin is cut; a whole one leads nothing to the shell.

    Returns
    -------
    tuple of Joint
    """
    if not cut:
        return ()
    edges = [edge for edge in _outline(mesh, 1) if edge[1] > 0.0 and edge[3] > SURE]

    def strips(path: float) -> tuple[Strip, ...]:
        return tuple(Strip(length, path, low, high) for length, _, low, high in edges)

    level = _top(mesh)
    return (
        _cast(
            kind="skin cut", name="cut in the skin", strips=strips(skin), level=level, gap=gap,
            closed_by=CLOSE_SKIN,
        ),
        _cast(
            kind="shell", name="rim of the shell, if the skin lets it through", strips=strips(skin + flange),
            level=level, gap=gap, closed_by=CLOSE_SHELL, supposed=True,
        ),
    )  # fmt: skip


def rod_joint(diameter: float, base: float, level: float, gap: float) -> Joint:
    """Round a rod that holds a core down through the mold's floor.

    Parameters
    ----------
    diameter : float
        Of the rod [m].
    base : float
        Rubber under the piece [m].
    level : float
        Of the liquid above the floor [m].
    gap : float
        Between rod and rubber [m].

    Returns
    -------
    Joint
    """
    return _cast(
        kind="rod", name="rod through the floor, if a core is held so",
        strips=(Strip(pi * diameter, base, 0.0, 0.0),), level=level, gap=gap, closed_by=CLOSE_ROD,
        supposed=True,
    )  # fmt: skip


def _cast(**values: object) -> Joint:
    return Joint(reached_by=CAST, **values)  # type: ignore[arg-type]


def _top(mesh: Mesh) -> float:
    return float(mesh.bounds[1, 2])


def _outline(mesh: Mesh, axis: int) -> list[tuple[float, float, float, float]]:
    """Short edges of the upright section: length, place across, lower and upper height [m]; not the mouth."""
    lines: list[Floats] = plane_section(mesh, "xy"[axis], 0.0)
    top = _top(mesh)
    found: list[tuple[float, float, float, float]] = []
    for line in lines:
        for one, other in zip(line, np.roll(line, -1, axis=0), strict=True):
            if min(one[1], other[1]) < top - SURE:
                found.extend(_split(one, other))
    return found


def _split(one: Floats, other: Floats) -> Iterator[tuple[float, float, float, float]]:
    count = max(ceil(float(np.hypot(*(other - one))) / FINE), 1)
    points = one + (other - one) * np.linspace(0.0, 1.0, count + 1)[:, None]
    for (x1, z1), (x2, z2) in pairwise(points.tolist()):
        yield float(np.hypot(x2 - x1, z2 - z1)), (x1 + x2) / 2, min(z1, z2), max(z1, z2)
