"""Shapes: reading, judging, measuring and cutting them, with no word of the trade."""

from pourwright.geometry.cells import cell_fractions
from pourwright.geometry.columns import Columns, WindingRange, shoot_columns, winding_range
from pourwright.geometry.distance import distance_grid, offset_bounds, offset_volume
from pourwright.geometry.faces import SurfaceAreas, surface_areas
from pourwright.geometry.faults import Fault, find_faults, refuse_faults
from pourwright.geometry.files.formats import LENGTHS
from pourwright.geometry.files.readers import ShapeFile, read_mesh, read_shape_file
from pourwright.geometry.frames import UP, PourFrame, Up, direction, direction_name, pour_frame
from pourwright.geometry.grid import Grid, graded_axis
from pourwright.geometry.levels import LevelVolume, level_volume, volume_at_levels
from pourwright.geometry.mesh import Mesh, joined
from pourwright.geometry.pieces import Pieces, split_surface
from pourwright.geometry.primitives import box, cone, revolve
from pourwright.geometry.repairs.mending import Mending
from pourwright.geometry.repairs.remesh import remeshed
from pourwright.geometry.repairs.repair import Repair, repaired
from pourwright.geometry.sections import outline_area, plane_section, simplified
from pourwright.geometry.seen import Seen, seen
from pourwright.geometry.solid import Solid, measure
from pourwright.geometry.thin.edge_lines import EdgeLine, edge_lines
from pourwright.geometry.thin.edge_spikes import Spikes, spikes
from pourwright.geometry.thin.fins import ThinPart, beside_edges, thin_parts
from pourwright.geometry.thin.inscribed import ThicknessMap, thickness_map
from pourwright.geometry.thin.thickness import Thickness, wall_thickness
from pourwright.geometry.warming import warm_up
from pourwright.geometry.ways_up.flats import Flat, levelled
from pourwright.geometry.ways_up.hollows import Hollow, hollows
from pourwright.geometry.ways_up.pockets import Peak, Pocket, pockets, trapped_volume
from pourwright.geometry.ways_up.release import OpenFace, Undercut, freest_pull, open_face, tunnels, undercut
from pourwright.geometry.ways_up.spread import half_sphere
from pourwright.geometry.ways_up.undercuts import (
    Pulls,
    Stretch,
    closer_look,
    locked_faces,
    neck_stretch,
    undercut_over,
)
from pourwright.geometry.ways_up.ways import Way, measure_ways, ways_up
from pourwright.geometry.welding import welded

__all__ = [
    "LENGTHS", "UP", "Columns", "EdgeLine", "Fault", "Flat", "Grid", "Hollow", "LevelVolume", "Mending",
    "Mesh", "OpenFace", "Peak", "Pieces", "Pocket", "PourFrame", "Pulls", "Repair", "Seen", "ShapeFile",
    "Solid", "Spikes", "Stretch", "SurfaceAreas", "Thickness", "ThicknessMap", "ThinPart", "Undercut",
    "Up", "Way", "WindingRange", "beside_edges", "box", "cell_fractions", "closer_look", "cone",
    "direction", "direction_name", "distance_grid", "edge_lines", "find_faults", "freest_pull",
    "graded_axis", "half_sphere", "hollows", "joined", "level_volume", "levelled", "locked_faces",
    "measure", "measure_ways", "neck_stretch", "offset_bounds", "offset_volume", "open_face",
    "outline_area", "plane_section", "pockets", "pour_frame", "read_mesh", "read_shape_file",
    "refuse_faults", "remeshed", "repaired", "revolve", "seen", "shoot_columns", "simplified", "spikes",
    "split_surface", "surface_areas", "thickness_map", "thin_parts", "trapped_volume", "tunnels",
    "undercut", "undercut_over", "volume_at_levels", "wall_thickness", "warm_up", "ways_up", "welded",
    "winding_range",
]  # fmt: skip
