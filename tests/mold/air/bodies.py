"""Bodies that catch air, and how much of it by quadrature: code that knows no mesh."""

from functools import cache

import numpy as np
from scipy.integrate import dblquad, quad

from pourwright.geometry import Mesh, box, revolve
from pourwright.geometry.drawn.joining import as_manifold, as_mesh

FINE = 192
HIGH = 0.12


def bell(s):
    """Radius inside a bell over its mouth: drawn in at the mouth, a belly, a crown."""
    return np.sqrt(np.maximum(1 - s / HIGH, 0.0)) * (0.05 + 0.6 * s)


def cup(s):
    return 0.04 + 0.0 * s


OVER = np.diag([1.0, -1.0, -1.0, 1.0])
SHAPES = {"bell": (bell, HIGH), "cup": (cup, 0.08)}


def chamber(radius, high, steps=60):
    """The air's own room, with a plug below its mouth."""
    heights = high * (1 - (1 - np.linspace(0.0, 1.0, steps)) ** 2)
    rings = [[float(radius(s)), float(s)] for s in heights]
    return revolve([[float(radius(0.0)), -0.01], *rings], FINE)


def master_over(room: Mesh) -> Mesh:
    """A block on a post, with that room in its underside."""
    post = box([0.02, 0.02, 0.05]).moved([-0.09, 0.0, -0.03])
    return as_mesh(as_manifold(box([0.2, 0.2, 0.15])) + as_manifold(post) - as_manifold(room))


def cavity_over(room: Mesh) -> Mesh:
    """A flat cavity with that room over it, and a shaft to the mouth at its end towards +x."""
    slab = box([0.3, 0.2, 0.05]).moved([0.05, 0.0, -0.05])
    shaft = box([0.1, 0.2, 0.4]).moved([0.15, 0.0, -0.05])
    return as_mesh(as_manifold(slab) + as_manifold(shaft) + as_manifold(room))


@cache
def met(name, which):
    """Body that a liquid meets, z up as it is cast; made once."""
    room = chamber(*SHAPES[name])
    if which == "casting":
        return cavity_over(room)
    return master_over(room) if which == "hung" else master_over(room).transformed(OVER)


def caught_in(radius, high, angle):
    """Air over the level through the highest point of a round mouth, the +x side lifted [m3]."""
    rim = radius(0.0)

    def slice_area(s):
        r = radius(s)
        c = rim - s / np.tan(angle) if angle else -np.inf
        if c >= r:
            return 0.0
        if c <= -r:
            return np.pi * r**2
        return r**2 * np.arccos(c / r) - c * np.sqrt(r**2 - c**2)

    return quad(slice_area, 0.0, high, limit=200)[0]


def cone_holds(angle, radius, rise):
    """Cone cut by the level through the highest point of its rim: an oblique cone on an ellipse [m3]."""
    across = radius / rise
    deep = rise * np.cos(angle) - radius * np.sin(angle)
    narrowed = np.cos(angle) ** 2 - across**2 * np.sin(angle) ** 2
    return np.pi / 3 * deep**3 * across**2 / narrowed**1.5 if narrowed > 0 and deep > 0 else 0.0


AROUND, TUBE = 240, 96
"""Corners of a ring around its axis, and around its tube."""


@cache
def ring(major, minor, flat):
    """A ring that stands on its edge along x, a flat so far over its middle [m]."""
    a, t = np.meshgrid(
        np.linspace(0.0, 2 * np.pi, AROUND, endpoint=False),
        np.linspace(0.0, 2 * np.pi, TUBE, endpoint=False),
        indexing="ij",
    )
    out = major + minor * np.cos(t)
    points = np.stack([out * np.sin(a), minor * np.sin(t), out * np.cos(a)], axis=-1).reshape(-1, 3)
    number = np.arange(AROUND * TUBE).reshape(AROUND, TUBE)
    along, across = np.roll(number, -1, axis=0), np.roll(number, -1, axis=1)
    both = np.roll(along, -1, axis=1)
    faces = np.concatenate(
        [np.stack(c, axis=-1).reshape(-1, 3) for c in ((number, along, both), (number, both, across))]
    )
    whole = as_manifold(Mesh(points, faces))
    return as_mesh(whole.trim_by_plane((0.0, 0.0, -1.0), -flat * 1000))


def ring_above(major, minor, level):
    """Volume of a whole ring on its edge over a level, from the width of the tube at each place [m3]."""

    def width(x, z):
        return 2 * np.sqrt(max(minor**2 - (np.hypot(x, z) - major) ** 2, 0.0))

    outer, inner = major + minor, major - minor

    def outside(z):
        return np.sqrt(outer**2 - z**2)

    def inside(z):
        return np.sqrt(max(inner**2 - z**2, 0.0))

    return 2 * dblquad(width, level, outer, inside, outside, epsrel=1e-5)[0]
