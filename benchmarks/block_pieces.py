"""Pieces whose molds have room for space blocks."""

from pathlib import Path

import numpy as np

from pourwright.geometry import Mesh, box, read_mesh, revolve
from pourwright.geometry.drawn.joining import Joining

STOOL = Path(__file__).parents[1] / "examples" / "hourglass-stool" / "stool.stl"


def pedestal() -> Mesh:
    """A ribbed pedestal: plinth, drum with eight ribs, cap; 340 x 340 x 500 mm."""
    joining = Joining()
    joining.add(box([0.34, 0.34, 0.06]))
    joining.add(revolve([[0.08, 0.0], [0.08, 0.48]], 64))
    joining.add(box([0.30, 0.30, 0.04]).moved([0.0, 0.0, 0.46]))
    for number in range(8):
        turn = np.eye(4)
        angle = np.pi * number / 4
        turn[:2, :2] = [[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]]
        joining.add(box([0.06, 0.02, 0.44]).moved([0.10, 0.0, 0.04]).transformed(turn))
    return joining.body()


def hourglass() -> Mesh:
    """The stool of the example, as it is poured; 310 x 310 x 440 mm."""
    return standing(read_mesh(STOOL, "mm").transformed(np.diag([1.0, -1.0, -1.0, 1.0])))


def bracket() -> Mesh:
    """A shelf bracket: two plates and a sloping gusset; 320 x 160 x 280 mm."""
    joining = Joining()
    joining.add(box([0.32, 0.16, 0.03]))
    joining.add(box([0.03, 0.16, 0.28]).moved([-0.145, 0.0, 0.0]))
    for step in range(12):
        joining.add(box([0.02, 0.03, 0.25 * (1 - step / 12)]).moved([-0.125 + 0.02 * step, 0.0, 0.01]))
    return joining.body()


def bowl() -> Mesh:
    """A bowl on a foot, rim up; 400 x 400 x 180 mm."""
    outer = [[0.05, 0.0], [0.05, 0.03], [0.10, 0.05], [0.15, 0.09], [0.185, 0.14], [0.20, 0.18]]
    inner = [[0.185, 0.18], [0.17, 0.14], [0.135, 0.10], [0.09, 0.07], [0.0, 0.055]]
    return revolve([[0.0, 0.0], *outer, *inner], 96)


def standing(mesh: Mesh) -> Mesh:
    """Put a mesh in the middle, its lowest point at 0."""
    low, high = mesh.bounds
    middle = (low + high) / 2
    return mesh.moved([-middle[0], -middle[1], -low[2]])


PIECES = {"ribbed pedestal": pedestal, "hourglass": hourglass, "bracket": bracket, "bowl": bowl}
