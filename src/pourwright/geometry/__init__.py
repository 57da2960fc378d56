"""Shapes: reading, judging, measuring and cutting them, with no word of the trade."""

from pourwright.geometry.cells import cell_fractions
from pourwright.geometry.frames import UP, PourFrame, pour_frame
from pourwright.geometry.grid import Grid, graded_axis
from pourwright.geometry.levels import LevelVolume, level_volume, volume_at_levels
from pourwright.geometry.mesh import Mesh, joined
from pourwright.geometry.pieces import Pieces, split_surface
from pourwright.geometry.primitives import box, cone, revolve
from pourwright.geometry.solid import Solid, measure

__all__ = [
    "UP", "Grid", "LevelVolume", "Mesh", "Pieces", "PourFrame", "Solid", "box", "cell_fractions", "cone",
    "graded_axis", "joined", "level_volume", "measure", "pour_frame", "revolve", "split_surface",
    "volume_at_levels",
]  # fmt: skip
