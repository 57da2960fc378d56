"""Lay out: the site on a rectilinear grid, with lines on panel faces, bands and pours."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Grid, cell_fractions, graded_axis
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.films import tabulated_film
from pourwright.pour.pinned import surfaces_of
from pourwright.pour.site import Bed, Site, fill_properties
from pourwright.solver import Exchange, Surfaces

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
CAVITY_SHARE = 0.5
SKIN = 0.006


@dataclass(frozen=True, eq=False)
class Layout:
    """The site cut into cells.

    Parameters
    ----------
    site : Site
        What was laid out.
    grid : Grid
        Cells [m].
    cavity : array (nx, ny, nz)
        Share of the cell that lies in the cavity [-].
    shell_capacity, shell_conductivity : array (nx, ny, nz)
        Of rubber or wood, per volume of shell [J/(m3 K)], [W/(m K)].
    resin_capacity, glass_capacity, fill_conductivity, fill_heat : array (nz,)
        Of the bed in each layer, per volume of bed.
    surfaces : Surfaces
        Films and surroundings.
    """

    site: Site
    grid: Grid
    cavity: Array
    shell_capacity: Array
    shell_conductivity: Array
    resin_capacity: Array
    glass_capacity: Array
    fill_conductivity: Array
    fill_heat: Array
    surfaces: Surfaces

    @cached_property
    def inside(self) -> Mask:
        """Cells that lie in the cavity by at least half."""
        return self.cavity >= CAVITY_SHARE

    @property
    def filled(self) -> Mask:
        """Cells that take up resin: of a bare casting those that are its own."""
        return self.inside if self.site.bare else self.cavity > 0.0

    @cached_property
    def face(self) -> Mask:
        """Shell cells that touch the cavity: the face of the rubber."""
        near = np.zeros_like(self.inside)
        for axis in range(3):
            ahead = np.moveaxis(near, axis, 0)
            cells = np.moveaxis(self.inside, axis, 0)
            ahead[1:] |= cells[:-1]
            ahead[:-1] |= cells[1:]
        return near & ~self.inside

    @cached_property
    def full_capacity(self) -> Array:
        """Capacity of every cell once all is poured [J/(m3 K)]."""
        fill = self.cavity * (self.resin_capacity + self.glass_capacity)
        return fill + (1.0 - self.cavity) * self.shell_capacity

    @cached_property
    def full_conductivity(self) -> Array:
        """Conductivity of every cell once all is poured, geometric mean where two share it [W/(m K)]."""
        mixed: Array = self.fill_conductivity**self.cavity * self.shell_conductivity ** (1.0 - self.cavity)
        return mixed

    @cached_property
    def full_heat(self) -> Array:
        """Heat from mixed to cured in every cell once all is poured [J/m3]."""
        return self.cavity * self.fill_heat

    def layers(self, lower: float, upper: float) -> slice:
        """Layers of cells between two heights that are lines of the grid."""
        first, last = np.searchsorted(self.grid.z, [lower - 1e-9, upper - 1e-9])
        return slice(int(first), int(last))

    def place(self, index: tuple[int, int, int]) -> tuple[float, float, float]:
        """Centre of a cell [m]."""
        x, y, z = (float(axis[i]) for axis, i in zip(self.grid.centers, index, strict=True))
        return (x, y, z)


def lay_out(site: Site, spacing: float, levels: Iterable[float], *, across: float | None = None) -> Layout:
    """Cut a site into cells.

    Parameters
    ----------
    site : Site
        From set-up.
    spacing : float
        Widest cell [m].
    levels : iterable of float
        Heights at which a pour may end [m]; each becomes a line of the grid.
    across : float, optional
        Widest cell along x and y, where it differs [m].

    Returns
    -------
    Layout
        Arrays for the solver.
    """
    grid = Grid(*_axes(site, spacing, tuple(levels), across or spacing))
    cavity = cell_fractions(site.piece, grid)
    beds = [
        fill_properties(site.resin, site.glass, _bed_at(site, height).solid_fraction)
        for height in grid.centers[2]
    ]
    capacity, conductivity = _shell(site, grid, np.array([bed.conductivity for bed in beds]))
    return Layout(
        site,
        grid,
        cavity,
        capacity,
        conductivity,
        np.array([bed.resin_capacity for bed in beds]),
        np.array([bed.glass_capacity for bed in beds]),
        np.array([bed.conductivity for bed in beds]),
        np.array([bed.heat for bed in beds]),
        surfaces_of(site) or _surfaces(site),
    )


def _axes(site: Site, spacing: float, levels: tuple[float, ...], across: float) -> tuple[Array, Array, Array]:
    x, y, z = grid_lines(site, levels)
    sides = (graded_axis(lines, across, merge=across / 8) for lines in (x, y))
    return (*sides, graded_axis(z, spacing, merge=1e-6))  # type: ignore[return-value]


def grid_lines(site: Site, levels: tuple[float, ...]) -> tuple[list[float], list[float], list[float]]:
    """List the lines that every grid of a site has.

    Parameters
    ----------
    site : Site
        From set-up.
    levels : tuple of float
        Heights at which a pour may end [m].

    Returns
    -------
    tuple of list
        Along x, y and z [m]; in no order, some twice.
    """
    block = site.block
    lower, upper = site.piece.bounds
    sides = []
    for axis in (0, 1):
        half = block.inside[axis] / 2
        sides.append(
            [-half - block.board, -half, float(lower[axis]), float(upper[axis]), half, half + block.board]
        )
    lines = [-block.base - block.board, -block.base, 0.0, block.height, *site.borders, *levels]
    return sides[0], sides[1], [*lines, *_skins(lines, levels)]


def _skins(lines: list[float], levels: tuple[float, ...]) -> list[float]:
    """Lines just below each level: a top is judged by the same thin layer on every grid."""
    under = (level - SKIN for level in levels)
    return [skin for skin in under if min(abs(skin - line) for line in lines) > SKIN / 2]


def _bed_at(site: Site, height: float) -> Bed:
    return next((bed for bed in site.beds if height <= bed.upper), site.beds[-1])


def _shell(site: Site, grid: Grid, fill: Array) -> tuple[Array, Array]:
    if site.bare:
        return np.zeros(grid.shape), np.broadcast_to(fill, grid.shape)
    x, y, z = grid.centers
    width, depth = site.block.inside
    rubber = (
        (np.abs(x)[:, None, None] < width / 2)
        & (np.abs(y)[None, :, None] < depth / 2)
        & (z[None, None, :] > -site.block.base)
    )
    capacity = [record.density.value * record.heat_capacity.value for record in (site.rubber, site.board)]
    conductivity = [record.conductivity.value for record in (site.rubber, site.board)]
    return np.where(rubber, *capacity), np.where(rubber, *conductivity)


def _surfaces(site: Site) -> Surfaces:
    """Films by natural convection and radiation; the floor of the box stands on a bench."""
    air = site.climate.temperature
    mean = site.climate.mean
    width, depth = (side + 2 * site.block.board for side in site.block.inside)
    tall = site.block.height + site.block.base + site.block.board
    flat = width * depth / (2 * (width + depth))
    wood = site.board.emissivity.value
    side = Exchange(tabulated_film(mean, tall, "upright", wood), air)
    mouth = tabulated_film(mean, flat, "facing up", DEFAULTS["open_emissivity"].value)
    bench = DEFAULTS["bench_thickness"].value / site.board.conductivity.value
    below = Exchange(tabulated_film(mean, flat, "facing down", wood), air, resistance=bench)
    cavity = tabulated_film(mean, tall, "upright", 0.0)
    return Surfaces(
        side, side, side, side, below, Exchange(mouth, air), Exchange(mouth, air), Exchange(cavity, air),
        Exchange(cavity, air),
    )  # fmt: skip
