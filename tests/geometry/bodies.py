"""Bodies several tests ask for."""

import numpy as np
import trimesh

from pourwright.geometry import Mesh, revolve

HOURGLASS = [[0.16, 0.0], [0.15, 0.05], [0.09, 0.2], [0.1, 0.25], [0.14, 0.36], [0.15, 0.42]]


def ball(radius=0.1, subdivisions=3, center=(0.0, 0.0, 0.0)):
    t = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius)
    return Mesh(t.vertices + np.asarray(center), t.faces)


def torus(major=0.2, minor=0.05):
    t = trimesh.creation.torus(major, minor, major_sections=64, minor_sections=32)
    return Mesh(t.vertices, t.faces)


def hourglass(segments=64):
    return revolve(HOURGLASS, segments)


def turned(mesh, seed):
    """Turn a mesh by a random rotation."""
    rng = np.random.default_rng(seed)
    matrix = np.eye(4)
    matrix[:3, :3] = trimesh.transformations.random_rotation_matrix(rng.random(3))[:3, :3]
    return mesh.transformed(matrix)
