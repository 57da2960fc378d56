"""What is thin or sharp about a body, and the roundings that are proposed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, pi, sin
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from pourwright.app.shaping.thin_defaults import THIN
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import (
    EdgeLine,
    Mesh,
    Spikes,
    ThicknessMap,
    ThinPart,
    beside_edges,
    edge_lines,
    spikes,
    thickness_map,
    thin_parts,
)
from pourwright.geometry.kept import kept
from pourwright.geometry.thin.inscribed import ball_through
from pourwright.physics.notch import DEEP, shoulder_in_bending

Array = npt.NDArray[np.float64]
T = TypeVar("T")
STEPS = {UnitSystem.METRIC: 0.0005, UnitSystem.US: 0.0254 / 16}
"""In which roundings are proposed [m]."""
MOST_PARTS, MOST_TOLD = 16, 5
"""Thin parts that are measured, and how many kinds are told."""
MOST_LINES = 400
"""Corners that are looked at more closely, the longest first."""
BLUNT, ALIKE = np.radians(100.0), np.radians(10.0)
"""Points up to this angle are no walls, and so much apart they are taken together."""
SQUARE = np.radians(100.0)
"""Outer edges up to this angle are sharp to the hand."""


@dataclass(frozen=True)
class Spot:
    """A thin part of the piece, or of the rubber, and how many there are of its kind.

    Parameters
    ----------
    part : ThinPart
        The first of them.
    count : int
        How many.
    """

    part: ThinPart
    count: int


@dataclass(frozen=True, eq=False)
class Corner:
    """An inner corner that wants a rounding.

    Parameters
    ----------
    line : EdgeLine
        The longest of its kind.
    ends : array (n, 2, 3)
        Of the edges of all of them [m].
    length : float
        Of all of them [m].
    thickness : float
        Of the thinner part that meets there [m].
    proposed : float
        Radius [m].
    now, then : float
        Stress beside it by that of a part without a corner [-].
    at_least : bool
        Whether it is sharper now than anything that was measured.
    """

    line: EdgeLine
    ends: Array
    length: float
    thickness: float
    proposed: float
    now: float
    then: float
    at_least: bool


@dataclass(frozen=True)
class Edge:
    """A sharp outer edge.

    Parameters
    ----------
    line : EdgeLine
        The longest of its kind.
    length : float
        Of all of them [m].
    proposed : float
        Radius [m].
    taken : float
        What that takes off its tip [m].
    """

    line: EdgeLine
    length: float
    proposed: float
    taken: float


@dataclass(frozen=True, eq=False)
class Thin:
    """All that is thin or sharp about a body, the worst first.

    Parameters
    ----------
    walls, spaces : tuple of Spot
        Of the piece, and of the rubber between its parts.
    corners : tuple of Corner
        Inner ones.
    knives : tuple of Edge
        Outer edges below the angle that chips.
    square : float
        Length of the other sharp outer edges [m].
    points : Spikes
        Where it comes to a point, apart from its edges.
    map : ThicknessMap
        Of the piece.
    apart : array
        Places of the map that belong to a sharp edge or point.
    """

    walls: tuple[Spot, ...]
    spaces: tuple[Spot, ...]
    corners: tuple[Corner, ...]
    knives: tuple[Edge, ...]
    square: float
    points: Spikes
    map: ThicknessMap
    apart: npt.NDArray[np.bool_]


@kept
def measure_thin(mesh: Mesh, system: UnitSystem) -> Thin:
    """Look for thin parts, corners, edges and points.

    Parameters
    ----------
    mesh : Mesh
        Without faults.
    system : UnitSystem
        Roundings are proposed in its steps.

    Returns
    -------
    Thin
    """
    outer = edge_lines(mesh, inner=False, below=THIN["sharp"].value)
    inner = edge_lines(mesh, inner=True, below=THIN["most_round"].value)
    knives = [line for line in outer if line.angle < THIN["knife"].value]
    tips = spikes(mesh, BLUNT)
    sharp = tips.angles < THIN["knife"].value
    points = _alone(Spikes(tips.places[sharp], tips.angles[sharp]), knives)
    thickness = thickness_map(mesh, thick=3 * THIN["told"].value)
    apart = _apart(thickness, knives, points, tips)
    told = thin_parts(thickness, THIN["told"].value, most=MOST_PARTS, apart=apart)
    return Thin(
        _counted(told),
        _counted(_spaces(mesh, inner)),
        tuple(_corners(mesh, thickness, inner[:MOST_LINES], STEPS[system])),
        tuple(_edges(knives, STEPS[system])),
        float(sum(line.length for line in outer if THIN["knife"].value <= line.angle < SQUARE)),
        points,
        thickness,
        apart,
    )


def _apart(
    thickness: ThicknessMap, knives: Sequence[EdgeLine], points: Spikes, tips: Spikes
) -> npt.NDArray[np.bool_]:
    """Places that are thin because they lie at a sharp edge or point, or right at a blunt one."""
    edges = [(line.ends, line.angle) for line in knives[:MOST_LINES]]
    sharp = beside_edges(thickness, [*edges, *_by_angle(points)])
    thin = thickness.balls < THIN["told"].value
    both = sharp | (thin & beside_edges(thickness, _by_angle(tips)))
    # of a die nothing is left
    return sharp if both.all() else both


def _by_angle(tips: Spikes) -> Iterator[tuple[Array, float]]:
    """Points as edges of no length, those alike together."""
    kind = np.floor(tips.angles / ALIKE)
    for each in np.unique(kind):
        rows = kind == each
        yield np.repeat(tips.places[rows][:, None], 2, axis=1), float(tips.angles[rows].mean())


def _alone(found: Spikes, knives: Sequence[EdgeLine]) -> Spikes:
    """Points that are no end of a knife edge."""
    if not knives or not len(found.places):
        return found
    ends = np.concatenate([line.ends.reshape(-1, 3) for line in knives])
    on_edge = (np.abs(found.places[:, None] - ends).max(axis=2) < 1e-9).any(axis=1)
    return Spikes(found.places[~on_edge], found.angles[~on_edge])


def _spaces(mesh: Mesh, inner: Sequence[EdgeLine]) -> tuple[ThinPart, ...]:
    """Slots and holes whose rubber is too thin, or too thin for its depth."""
    between = thickness_map(mesh.reversed(), thick=3 * THIN["rubber_told"].value)
    grooves = [(line.ends, line.angle) for line in inner[:MOST_LINES] if line.angle < THIN["knife"].value]
    beside = beside_edges(between, grooves)
    found = thin_parts(between, THIN["rubber_told"].value, most=MOST_PARTS, apart=beside)
    return tuple(part for part in found if part.thickness <= THIN["rubber_told"].value and _tears(part))


def _tears(part: ThinPart) -> bool:
    narrow = part.thickness < THIN["rubber_wall"].value
    return narrow or part.slenderness >= THIN["rubber_slender"].value


def _counted(parts: Iterable[ThinPart]) -> tuple[Spot, ...]:
    groups = _grouped(parts, lambda one, other: one.alike(other))
    return tuple(Spot(group[0], len(group)) for group in groups)[:MOST_TOLD]


def _grouped(things: Iterable[T], alike: Callable[[T, T], bool]) -> list[list[T]]:
    groups: list[list[T]] = []
    for thing in things:
        group = next((group for group in groups if alike(group[0], thing)), None)
        if group is None:
            groups.append([thing])
        else:
            group.append(thing)
    return groups


def _corners(mesh: Mesh, thickness: ThicknessMap, lines: Sequence[EdgeLine], step: float) -> list[Corner]:
    """Corners whose rounding is smaller than what is proposed, grouped by kind."""
    if not lines:
        return []
    faces = np.array([line.faces for line in lines]).ravel()
    vectors = mesh.area_vectors[faces]
    inward = -vectors / np.maximum(np.linalg.norm(vectors, axis=1, keepdims=True), 1e-300)
    through = ball_through(thickness.tree, np.concatenate([line.sides for line in lines]), inward)
    found = (
        _corner(line, sides, step) for line, sides in zip(lines, through.reshape(-1, 2).tolist(), strict=True)
    )
    groups = _grouped((corner for corner in found if corner is not None), _same_corner)
    joined = [_joined(group) for group in groups]
    return sorted(joined, key=lambda corner: (-round(corner.now, 3), -corner.length))[:MOST_TOLD]


def _corner(line: EdgeLine, sides: Sequence[float], step: float) -> Corner | None:
    thickness = float(min(sides))
    # a step that stands out by more than the wall is thick adds nothing more
    high = min(line.legs[int(np.argmax(sides))], thickness)
    if not (np.isfinite(thickness) and high > 0):
        return None
    least = high / DEEP

    def stress(radius: float) -> float:
        return shoulder_in_bending(max(radius, least), thickness, high)

    now = stress(line.radius)
    room = min(THIN["most_round"].value, min(line.legs) / 2)
    goal = 1.0 + THIN["left"].value * (now - 1.0)
    radius = step * ceil(max(THIN["least_round"].value, line.radius + 1e-9) / step - 1e-6)
    while stress(radius) > goal and radius + step <= room:
        radius += step
    # a line shorter than its rounding is a nick of the mesh
    if radius > room or line.length < radius:
        return None
    if radius < line.radius + step / 2 or now - stress(radius) < 0.05:
        return None
    return Corner(line, line.ends, line.length, thickness, radius, now, stress(radius), line.radius < least)


def _same_corner(one: Corner, other: Corner) -> bool:
    near = abs(one.line.turn - other.line.turn) < np.radians(5.0)
    return near and one.proposed == other.proposed and abs(one.line.radius - other.line.radius) < 2.5e-4


def _joined(group: Sequence[Corner]) -> Corner:
    worst = max(group, key=lambda corner: corner.now)
    total = sum(corner.length for corner in group)
    ends = np.concatenate([corner.ends for corner in group])
    return Corner(
        group[0].line, ends, total, worst.thickness, worst.proposed, worst.now, worst.then, worst.at_least
    )


def _edges(knives: Sequence[EdgeLine], step: float) -> list[Edge]:
    """Knife edges by kind, the sharpest first."""
    radius = step * ceil(THIN["least_round"].value / step - 1e-6)
    groups = _grouped(knives, lambda one, other: abs(one.turn - other.turn) < np.radians(5.0))
    found = [
        Edge(
            group[0],
            sum(line.length for line in group),
            radius,
            radius * (1 / sin(max(pi - group[0].turn, 0.02) / 2) - 1),
        )
        for group in groups
    ]
    return sorted(found, key=lambda edge: (round(edge.line.angle, 6), -edge.length))[:MOST_TOLD]
