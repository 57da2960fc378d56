"""Lay out: the site on a rectilinear grid, with lines on panel faces, bands and pours."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Grid, cell_fractions, graded_axis
from pourwright.pour.body import CAVITY_SHARE, WHOLE, cut_body
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.films import tabulated_film
from pourwright.pour.inside import with_bodies
from pourwright.pour.pinned import surfaces_of
from pourwright.pour.site import Bed, Site
from pourwright.solver import CutFaces, CutSurface, Exchange, Surfaces, WallParts, in_series

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
SKIN = 0.006
THINNEST = 0.25e-3


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
        Share of the cell that lies in the cavity [-]; of a bare casting what it holds of it, which may be
        above 1 where a neighbour's sliver was joined to it.
    shell_capacity, shell_conductivity : array (nx, ny, nz)
        Of rubber or wood, per volume of shell [J/(m3 K)], [W/(m K)].
    resin_capacity, glass_capacity, fill_conductivity, fill_heat : array (nz,)
        Of the bed in each layer, per volume of bed.
    surfaces : Surfaces
        Films and surroundings.
    wall : CutSurface
        The cavity's wall as the rubber shows it to air, or a bare casting's own surface.
    parts : WallParts
        Which part of the wall lies in which cell.
    body : CutFaces or None
        Of a bare casting.
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
    wall: CutSurface
    parts: WallParts
    body: CutFaces | None = None

    @cached_property
    def inside(self) -> Mask:
        """Cells that lie in the cavity by at least half; of a bare casting those that hold it."""
        return self.cavity > 0.0 if self.site.bare else self.cavity >= CAVITY_SHARE

    @property
    def filled(self) -> Mask:
        """Cells that take up resin."""
        return self.cavity > 0.0

    @cached_property
    def face(self) -> Mask:
        """Shell cells that touch the cavity and are no core: the face of the rubber."""
        near = np.zeros_like(self.inside)
        for axis in range(3):
            ahead = np.moveaxis(near, axis, 0)
            cells = np.moveaxis(self.inside, axis, 0)
            ahead[1:] |= cells[:-1]
            ahead[:-1] |= cells[1:]
        return near & ~self.inside & ~self.core

    @cached_property
    def core(self) -> Mask:
        """Cells that lie in the core of a hollow piece by at least half."""
        if self.site.core is None:
            return np.zeros(self.grid.shape, dtype=bool)
        return cell_fractions(self.site.core, self.grid) >= CAVITY_SHARE

    @cached_property
    def box(self) -> Mask:
        """Cells of the box: boards, glue, sealed seams; none around a bare casting."""
        cells = (
            np.ones(self.grid.shape, dtype=bool) if not self.site.bare else np.zeros(self.grid.shape, bool)
        )
        return cells & ~_inside_box(self.site, self.grid)

    @property
    def bed_capacity(self) -> Array:
        """Capacity of the bed full of resin in each layer (nz,) [J/(m3 K)]."""
        return self.resin_capacity + self.glass_capacity

    @cached_property
    def shell_held(self) -> Array:
        """Capacity of rubber or wood in every cell, over the whole cell [J/(m3 K)]."""
        return (1.0 - self.cavity) * self.shell_capacity

    @cached_property
    def full_conductivity(self) -> Array:
        """Conductivity of every cell once all is poured [W/(m K)]."""
        return in_series(self.cavity, self.fill_conductivity, self.shell_conductivity)

    @cached_property
    def full_heat(self) -> Array:
        """Heat from mixed to cured in every cell once all is poured [J/m3]."""
        return self.cavity * self.fill_heat

    def wet(self, level: float) -> Array:
        """Share of each layer of cells below a level (nz,) [-]; 0 or 1 where the level is a line."""
        z = self.grid.z
        share = np.clip((level - z[:-1]) / np.diff(z), 0.0, 1.0)
        share[share < WHOLE] = 0.0
        share[share > 1.0 - WHOLE] = 1.0
        return np.where(z[1:] > 0.0, share, 0.0)

    def cut_at(self, level: float) -> CutFaces:
        """Say what is open and what is bare once it is filled to a level."""
        wet = self.wet(level)
        half = 0.5 * np.diff(self.grid.z)
        # a surface inside a layer may lie below the cell's middle: then this is negative
        above = np.where((wet > 0.0) & (wet < 1.0), (2.0 * wet - 1.0) * half, half)
        shown = wet[self.parts.cells % wet.size]
        # rising resin takes a mold's wall from the air; a bare casting shows its own as far as it is poured
        wall = self.parts.of(self.wall, shown if self.body is not None else 1.0 - shown)
        if self.body is None:
            return CutFaces(*self._open_in_mold(wet), wall, above)
        return CutFaces(self.body.open_x * wet, self.body.open_y * wet, self.body.open_z, wall, above)

    def _open_in_mold(self, wet: Array) -> tuple[Array, Array, Array]:
        """Beside resin as far as it reaches, elsewhere the rubber's wall counts by its true area."""
        opened = []
        for axis in range(3):
            inside = np.moveaxis(self.inside, axis, 0)
            faces = np.ones((inside.shape[0] + 1, *inside.shape[1:]), dtype=np.float32)
            if axis < 2:
                faces[1:-1] = np.where(inside[1:] | inside[:-1], wet, 1.0)
            else:
                ceiling, floor = inside[:-1] & ~inside[1:], ~inside[:-1] & inside[1:]
                share = wet[:, None, None]
                faces[1:-1] = np.where(ceiling, share[:-1] == 1.0, np.where(floor, share[1:] > 0.0, 1.0))
            opened.append(np.ascontiguousarray(np.moveaxis(faces, 0, axis)))
        return opened[0], opened[1], opened[2]

    def layers(self, lower: float, upper: float) -> slice:
        """Layers of cells between two heights; one that a height runs through counts as below it."""
        first, last = np.searchsorted(self.grid.z, [lower - 1e-9, upper - 1e-9])
        return slice(int(first), int(last))

    def place(self, index: tuple[int, int, int]) -> tuple[float, float, float]:
        """Centre of a cell [m]."""
        x, y, z = (float(axis[i]) for axis, i in zip(self.grid.centers, index, strict=True))
        return (x, y, z)


def lay_out(
    site: Site,
    spacing: float,
    levels: Iterable[float],
    *,
    across: float | None = None,
    layers: Iterable[float] = (),
) -> Layout:
    """Cut a site into cells.

    Parameters
    ----------
    site : Site
        From set-up.
    spacing : float
        Widest cell [m].
    levels : iterable of float
        Heights at which a pour may end [m]; each becomes a line of the grid. A pour may end elsewhere too:
        its uppermost cells then hold a share of it.
    across : float, optional
        Widest cell along x and y, where it differs [m].
    layers : iterable of float
        Further heights that become lines of the grid [m], where layers are to be thinner.

    Returns
    -------
    Layout
        Arrays for the solver.
    """
    x, y, z = grid_lines(site, tuple(levels))
    wide = across or spacing
    across_x, across_y = (graded_axis(lines, wide, merge=wide / 8) for lines in (x, y))
    grid = Grid(across_x, across_y, graded_axis([*z, *_apart(layers, z)], spacing, merge=1e-6))
    cavity, wall, parts, body = cut_body(site.piece, site.block.height, grid, bare=site.bare)
    mixed = {bed: site.properties(bed) for bed in site.beds}
    beds = [mixed[_bed_at(site, height)] for height in grid.centers[2]]
    capacity, conductivity = _shell(site, grid, cavity, np.array([bed.conductivity for bed in beds]))
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
        wall,
        parts,
        body,
    )


def _apart(layers: Iterable[float], lines: list[float]) -> list[float]:
    """Leave out layers that all but touch a line which must be there: no cell is to be microns thin."""
    fixed = np.array(lines)
    return [height for height in layers if np.abs(fixed - height).min() > THINNEST]


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


def _inside_box(site: Site, grid: Grid) -> Mask:
    x, y, z = grid.centers
    width, depth = site.block.inside
    inside: Mask = (
        (np.abs(x)[:, None, None] < width / 2)
        & (np.abs(y)[None, :, None] < depth / 2)
        & (z[None, None, :] > -site.block.base)
    )
    return inside


def _shell(site: Site, grid: Grid, cavity: Array, fill: Array) -> tuple[Array, Array]:
    if site.bare:
        return np.zeros(grid.shape), np.broadcast_to(fill, grid.shape)
    rubber = _inside_box(site, grid)
    capacity = [record.density.value * record.heat_capacity.value for record in (site.rubber, site.board)]
    conductivity = [record.conductivity.value for record in (site.rubber, site.board)]
    return with_bodies(site, grid, cavity, np.where(rubber, *capacity), np.where(rubber, *conductivity))


def _surfaces(site: Site) -> Surfaces:
    """Films by natural convection and radiation; the floor of the box stands on a bench."""
    air = site.climate.temperature
    typical = site.climate.typical
    width, depth = (side + 2 * site.block.board for side in site.block.inside)
    tall = site.block.height + site.block.base + site.block.board
    flat = width * depth / (2 * (width + depth))
    wood = site.board.emissivity.value
    side = Exchange(tabulated_film(typical, tall, "upright", wood, site.film_factor), air)
    mouth = tabulated_film(typical, flat, "facing up", DEFAULTS["open_emissivity"].value, site.film_factor)
    bench = DEFAULTS["bench_thickness"].value / site.board.conductivity.value
    below = Exchange(
        tabulated_film(typical, flat, "facing down", wood, site.film_factor), air, resistance=bench
    )
    cavity = tabulated_film(typical, tall, "upright", 0.0, site.film_factor)
    return Surfaces(
        side, side, side, side, below, Exchange(mouth, air), Exchange(mouth, air), Exchange(cavity, air),
        Exchange(cavity, air),
    )  # fmt: skip
