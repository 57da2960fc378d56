"""Round bodies as fine meshes of their exact volume, and their cells on a grid."""

from __future__ import annotations

import math

import numpy as np

from pourwright.geometry import Grid, Mesh, cell_fractions, measure, revolve, surface_areas
from pourwright.solver import CutCells, cut_cells

Array = np.ndarray


def ball(radius: float, lines: int = 96) -> Mesh:
    """A sphere about the origin."""
    angle = np.linspace(0.0, math.pi, lines + 1)
    profile = np.stack([np.sin(angle), 1.0 - np.cos(angle)], axis=1)
    profile[[0, -1], 0] = 0.0
    mesh = revolve(profile, 2 * lines)
    size = (4.0 * math.pi / 3.0 / measure(mesh).volume) ** (1.0 / 3.0)
    return Mesh((mesh.vertices - [0.0, 0.0, 1.0]) * size * radius, mesh.faces)


def bar(radius: float, length: float, tilt: tuple[float, float], sides: int = 128) -> Mesh:
    """A round bar about the origin, turned about x and then y [deg]."""
    mesh = revolve([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]], sides)
    size = radius * math.sqrt(math.pi / measure(mesh).volume)
    upright = (mesh.vertices - [0.0, 0.0, 0.5]) * [size, size, length]
    return Mesh(upright @ turn(*tilt).T, mesh.faces)


def turn(about_x: float, about_y: float) -> Array:
    """Rotation about x after one about y [deg]."""
    a, b = math.radians(about_x), math.radians(about_y)
    first = np.array([[math.cos(b), 0.0, math.sin(b)], [0.0, 1.0, 0.0], [-math.sin(b), 0.0, math.cos(b)]])
    return (
        np.array([[1.0, 0.0, 0.0], [0.0, math.cos(a), -math.sin(a)], [0.0, math.sin(a), math.cos(a)]]) @ first
    )


def grid_around(mesh: Mesh, spacing: float, seed: int) -> Grid:
    """Cubes that hold the mesh with room to spare, at a place drawn by the seed."""
    lower, upper = mesh.bounds
    offset = np.random.default_rng(seed).uniform(1.0, 2.0, 3) * spacing
    counts = np.ceil((upper - lower) / spacing).astype(int) + 3
    return Grid(*[lower[axis] - offset[axis] + np.arange(counts[axis] + 1) * spacing for axis in range(3)])


def cut_by(mesh: Mesh, grid: Grid) -> CutCells:
    """The mesh's cells."""
    surface = surface_areas(mesh, grid)
    return cut_cells((grid.x, grid.y, grid.z), cell_fractions(mesh, grid), surface.area, surface.vector)
