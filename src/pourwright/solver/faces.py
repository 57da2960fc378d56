"""Bare faces of the cells: which there are, how large, and what goes on there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.solver.coefficients import face_areas, half_resistances
from pourwright.solver.problem import Array, Exchange, Mask, Problem

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


def _neighbour(active: Mask, axis: int, side: int) -> tuple[Mask, Mask]:
    """Tell for every cell whether its neighbour on a side is empty, and whether it is off the grid."""
    here = np.moveaxis(active, axis, 0)
    empty = np.zeros_like(here)
    outside = np.zeros_like(here)
    if side > 0:
        empty[:-1] = here[:-1] & ~here[1:]
        outside[-1] = here[-1]
    else:
        empty[1:] = here[1:] & ~here[:-1]
        outside[0] = here[0]
    return np.moveaxis(empty, 0, axis), np.moveaxis(outside, 0, axis)


def _patch(
    problem: Problem, exchange: Exchange, axis: int, where: Mask, factor: Array | None
) -> Patch | None:
    if exchange.insulated or not where.any():
        return None
    cells = np.flatnonzero(where)
    _, ny, nz = problem.shape
    i, rest = np.divmod(cells, ny * nz)
    j, k = np.divmod(rest, nz)
    places = cells if axis < 2 else (i * nz + k) * ny + j
    areas = np.broadcast_to(face_areas(problem, axis), problem.shape).ravel()[cells]
    if factor is not None:
        areas = areas * factor.ravel()[cells]
    half = half_resistances(problem, axis).ravel()[cells]
    return Patch(exchange, axis, cells, places, np.ascontiguousarray(areas), half)


def find_patches(problem: Problem) -> tuple[Patch, ...]:
    """List the bare faces of a problem, insulated ones left out.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.

    Returns
    -------
    tuple of Patch
        In fixed order: axis, side, inner before outer.
    """
    surfaces = problem.surfaces
    outer = (
        (surfaces.x_low, surfaces.x_high),
        (surfaces.y_low, surfaces.y_high),
        (surfaces.z_low, surfaces.z_high),
    )
    found = []
    for axis in range(3):
        factor = problem.area_factor
        if factor is not None and factor.ndim == 4:
            factor = factor[axis]
        for number, side in enumerate((-1, 1)):
            empty, outside = _neighbour(problem.active, axis, side)
            vertical = (surfaces.down, surfaces.up)[number]
            inner = vertical if axis == 2 else surfaces.side
            found.append(_patch(problem, inner, axis, empty, factor))
            found.append(_patch(problem, outer[axis][number], axis, outside, None))
    return tuple(patch for patch in found if patch is not None)
