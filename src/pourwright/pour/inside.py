"""Bodies in the mold that are neither rubber nor casting: space blocks and a core."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Grid, cell_fractions
from pourwright.materials import Board, Core
from pourwright.pour.site import Site, Space

Array = NDArray[np.float64]
FULL = 1e-12
"""Cells with less shell than this have none."""


def with_bodies(
    site: Site, grid: Grid, cavity: Array, capacity: Array, conductivity: Array
) -> tuple[Array, Array]:
    """Put wood and core into the shell's cells, each by its share of the shell's volume.

    Parameters
    ----------
    site : Site
        With its space blocks and core.
    grid : Grid
        Cells [m].
    cavity : array (nx, ny, nz)
        Share of the cell that lies in the cavity [-].
    capacity, conductivity : array (nx, ny, nz)
        Of rubber and box, per volume of shell [J/(m3 K)], [W/(m K)].

    Returns
    -------
    tuple of array
        Both with the bodies; the very same arrays where there are none.
    """
    bodies: list[tuple[Array, Board | Core]] = []
    if site.spaces:
        bodies.append((space_shares(site.spaces, grid), site.space_board or site.board))
    if site.core is not None:
        bodies.append((cell_fractions(site.core, grid), site.core_material or site.space_board or site.board))
    for share, record in bodies:
        capacity, conductivity = _mixed(capacity, conductivity, cavity, share, record)
    return capacity, conductivity


def space_shares(spaces: tuple[Space, ...], grid: Grid) -> Array:
    """Share of every cell that space blocks fill.

    Parameters
    ----------
    spaces : tuple of Space
        None of them overlap.
    grid : Grid
        Cells [m].

    Returns
    -------
    array (nx, ny, nz)
        From 0 to 1: products of overlaps along x, y and z, exact for cuboids.
    """
    found = np.zeros(grid.shape)
    for space in spaces:
        x, y, z = (
            np.clip(np.minimum(line[1:], high) - np.maximum(line[:-1], low), 0.0, None) / np.diff(line)
            for line, low, high in zip(grid.axes, space.lower, space.upper, strict=True)
        )
        found += x[:, None, None] * y[None, :, None] * z[None, None, :]
    return np.minimum(found, 1.0)


def _mixed(
    capacity: Array, conductivity: Array, cavity: Array, share: Array, record: Board | Core
) -> tuple[Array, Array]:
    shell = 1.0 - cavity
    taken = np.where(shell > FULL, np.minimum(share / np.maximum(shell, FULL), 1.0), 0.0)
    held = record.density.value * record.heat_capacity.value
    return (
        capacity + taken * (held - capacity),
        conductivity + taken * (record.conductivity.value - conductivity),
    )
