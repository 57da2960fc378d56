"""Bodies whose thin parts, corners and edges are known."""

import manifold3d
import numpy as np

from pourwright.geometry import Mesh, revolve

STEP = np.array([[0.0, 0.0], [0.1, 0.0], [0.1, 0.05], [0.04, 0.05], [0.04, 0.12], [0.0, 0.12]])
"""A foot of radius 100 mm, 50 mm high, and a narrower part of radius 40 mm on it."""


def block(size, at=(0.0, 0.0, 0.0)):
    return manifold3d.Manifold.cube(list(size)).translate(list(at))


def rod(radius, height, at, sides=32):
    return manifold3d.Manifold.cylinder(height, radius, radius, sides).translate(list(at))


def mesh_of(solid):
    found = solid.to_mesh()
    return Mesh(np.asarray(found.vert_properties)[:, :3].astype(float), np.asarray(found.tri_verts))


def finned():
    """120 x 80 x 40 mm, with a fin 4 mm thick and 60 mm tall, a pin of 5 x 30 mm, a slot of 3 x 25 mm."""
    body = block((0.12, 0.08, 0.04)) + block((0.004, 0.08, 0.06), (0.03, 0.0, 0.04))
    body += rod(0.0025, 0.03, (0.08, 0.04, 0.04))
    return mesh_of(body - block((0.003, 0.1, 0.025), (0.1, -0.01, 0.015)))


def filleted(radius, facets, segments=64):
    """The step with a rounding in its inner corner whose edges lie on the circle."""
    turn = np.linspace(0.0, np.pi / 2, facets + 1)
    corner = STEP[3] + radius
    arc = np.stack([corner[0] - radius * np.sin(turn), corner[1] - radius * np.cos(turn)], axis=1)
    return revolve(np.concatenate([STEP[:3], arc, STEP[4:]]), segments)


def wedge(degrees, length=0.1, width=0.06):
    """A knife: its edge along y at the origin, its faces open by an angle, cut off at a length."""
    high = length * np.tan(np.radians(degrees) / 2)
    ends = np.array([[0.0, 0.0], [length, -high], [length, high]])
    points = [[x, y, z] for y in (0.0, width) for x, z in ends]
    faces = [[0, 1, 2], [3, 5, 4], [0, 3, 4], [0, 4, 1], [1, 4, 5], [1, 5, 2], [2, 5, 3], [2, 3, 0]]
    return Mesh(points, faces)
