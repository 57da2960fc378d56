"""Bare faces of the cells: which there are, how large, and what goes on there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.solver.coefficients import face_areas, half_resistances
from pourwright.solver.problem import Array, CutSurface, Exchange, Mask, Problem

Indices = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Patch:
    """All bare faces of one kind across one axis.

    Parameters
    ----------
    exchange : Exchange
        What goes on there.
    axis : int
        0, 1 or 2: the axis the faces look along.
    cells : array of int (n,)
        Flat index of the cell behind each face.
    places : array of int (n,)
        The same in the layout of the sweep along this axis.
    areas : array (n,)
        [m2].
    half : array (n,)
        Resistance from the cell's middle to its face [m2 K/W].
    """

    exchange: Exchange
    axis: int
    cells: Indices
    places: Indices
    areas: Array
    half: Array


def bare_towards_empty(active: Mask, axis: int, side: int) -> Mask:
    """Tell which active cells have an empty neighbour on the grid.

    Parameters
    ----------
    active : array of bool (nx, ny, nz)
        Cells that hold matter.
    axis : int
        0, 1 or 2.
    side : int
        -1 for the neighbour before, 1 for the one after.

    Returns
    -------
    array of bool (nx, ny, nz)

    Examples
    --------
    >>> bare_towards_empty(np.array([[[True, True, False]]]), 2, 1)
    array([[[False,  True, False]]])
    """
    here = np.moveaxis(active, axis, 0)
    empty = np.zeros_like(here)
    if side > 0:
        empty[:-1] = here[:-1] & ~here[1:]
    else:
        empty[1:] = here[1:] & ~here[:-1]
    return np.moveaxis(empty, 0, axis)


def _at_the_rim(active: Mask, axis: int, side: int) -> Mask:
    """Tell which active cells lie at an outer face of the grid."""
    outside = np.zeros_like(active)
    rim: list[slice | int] = [slice(None)] * 3
    rim[axis] = -1 if side > 0 else 0
    outside[tuple(rim)] = active[tuple(rim)]
    return outside


def _patch(
    problem: Problem,
    exchange: Exchange,
    axis: int,
    where: Mask,
    opened: Array | None = None,
    *,
    up: bool = False,
) -> Patch | None:
    """Collect flat faces; `opened` is the share of each cell's face that is there."""
    if exchange.insulated or not where.any():
        return None
    cells = np.flatnonzero(where)
    areas = np.broadcast_to(face_areas(problem, axis), problem.shape).ravel()[cells]
    if opened is not None:
        areas = areas * opened.ravel()[cells]
    half = half_resistances(problem, axis).ravel()[cells]
    # under a level inside a layer the way out is not half the cell
    if up and problem.cut is not None and problem.cut.above is not None:
        above = np.broadcast_to(problem.cut.above, problem.shape).ravel()[cells]
        half = above / problem.conductivity.ravel()[cells]
    return Patch(exchange, axis, cells, _places(problem, axis, cells), np.ascontiguousarray(areas), half)


def _places(problem: Problem, axis: int, cells: Indices) -> Indices:
    _, ny, nz = problem.shape
    # only the sweep along z lies turned
    if axis < 2:
        return cells
    i, rest = np.divmod(cells, ny * nz)
    j, k = np.divmod(rest, nz)
    return np.asarray((i * nz + k) * ny + j)


def _slanting(
    problem: Problem, surface: CutSurface, exchange: Exchange, axis: int, where: Mask
) -> Patch | None:
    """Collect the part of a surface that belongs to an axis: the square of the normal's share in it."""
    there = where & problem.active.ravel()[surface.cells]
    if exchange.insulated or not there.any():
        return None
    cells = surface.cells[there]
    # the squares add up to 1: each axis takes its part, and the whole area counts once
    areas = surface.area[there] * surface.normal[axis, there] ** 2
    half = surface.distance[there] / problem.conductivity.ravel()[cells]
    return Patch(exchange, axis, cells, _places(problem, axis, cells), areas, half)


def _cut_patches(problem: Problem, axis: int) -> list[Patch | None]:
    if problem.cut is None:
        return []
    surface, kinds = problem.cut.surface, problem.surfaces
    if axis < 2:
        return [_slanting(problem, surface, kinds.side, axis, np.ones(surface.cells.size, dtype=bool))]
    upwards = surface.normal[2] > 0.0
    down = _slanting(problem, surface, kinds.down, axis, ~upwards)
    return [down, _slanting(problem, surface, kinds.up, axis, upwards)]


def _before_and_after(opened: Array, axis: int) -> tuple[Array, Array]:
    faces = np.moveaxis(opened, axis, 0)
    return np.moveaxis(faces[:-1], 0, axis), np.moveaxis(faces[1:], 0, axis)


def find_patches(problem: Problem) -> tuple[Patch, ...]:
    """List the bare faces of a problem, insulated ones left out.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.

    Returns
    -------
    tuple of Patch
        In fixed order: axis, side, inner before outer, then cut faces.
    """
    surfaces = problem.surfaces
    outer = (
        (surfaces.x_low, surfaces.x_high),
        (surfaces.y_low, surfaces.y_high),
        (surfaces.z_low, surfaces.z_high),
    )
    found = []
    for axis in range(3):
        opened: tuple[Array | None, Array | None] = (None, None)
        if problem.cut is not None:
            opened = _before_and_after(problem.cut.opened(axis), axis)
        for number, side in enumerate((-1, 1)):
            empty = bare_towards_empty(problem.active, axis, side)
            outside = _at_the_rim(problem.active, axis, side)
            vertical = (surfaces.down, surfaces.up)[number]
            inner = vertical if axis == 2 else surfaces.side
            up = axis == 2 and side > 0
            found.append(_patch(problem, inner, axis, empty, opened[number], up=up))
            found.append(_patch(problem, outer[axis][number], axis, outside, opened[number], up=up))
        found += _cut_patches(problem, axis)
    return tuple(patch for patch in found if patch is not None)
