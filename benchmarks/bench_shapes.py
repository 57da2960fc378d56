"""How long a written shape takes, from its line to a body, and how far its volume lies off.

A written shape should be there in well under a second; one that is joined and rounded on a lattice in a few.
Each is made twice and the second time is told, so that no compiling is in it.
"""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

import numpy as np

from pourwright.geometry import Mesh, box, cone, measure
from pourwright.geometry.drawn.joining import Joining
from pourwright.geometry.drawn.outlines import Step
from pourwright.geometry.drawn.profiles import half_section, spun
from pourwright.geometry.drawn.rounding import rounded_box
from pourwright.geometry.drawn.rounding_bodies import rounded_body, step_for

SIZE, RADIUS = (0.1, 0.06, 0.05), 0.006


def steiner(radius: float) -> float:
    """Volume of the box with all edges rounded."""
    a, b, c = (side - 2 * radius for side in SIZE)
    edges = np.pi * radius**2 * (a + b + c)
    return a * b * c + 2 * radius * (a * b + b * c + c * a) + edges + 4 / 3 * np.pi * radius**3


def tray() -> Mesh:
    """A box with a recess."""
    joining = Joining()
    joining.add(box([0.3, 0.2, 0.04]))
    joining.cut(box([0.26, 0.16, 0.04]).moved([0, 0, 0.01]))
    return joining.body()


def plate_and_pin() -> Mesh:
    """A box with a cylinder through it."""
    joining = Joining()
    joining.add(box([0.2, 0.1, 0.05]))
    joining.add(cone(0.03, 0.03, 0.2))
    return joining.body()


BODIES: dict[str, tuple[Callable[[], Mesh], float | None]] = {
    "ball, by an arc": (
        lambda: spun(half_section([Step((0.0, 0.0)), Step((0.0, 0.2), (0.1, 0.1))])),
        4 / 3 * np.pi * 1e-3,
    ),
    "box, rounded 6 mm": (lambda: rounded_box(SIZE, RADIUS), steiner(RADIUS)),
    "tray of two parts": (tray, 0.3 * 0.2 * 0.04 - 0.26 * 0.16 * 0.03),
    "box, rounded 6 mm by a ball": (lambda: rounded_body(box(SIZE), RADIUS)[0], steiner(RADIUS)),
    "tray, rounded 4 mm by a ball": (lambda: rounded_body(tray(), 0.004)[0], None),
    "plate and pin, 4 mm out, 5 mm in": (lambda: rounded_body(plate_and_pin(), 0.004, 0.005)[0], None),
}


def main() -> None:
    """Print the table."""
    print(f"{'shape':34}{'time':>8}{'triangles':>11}{'volume off':>12}")
    for name, (make, exact) in BODIES.items():
        make()
        begun = perf_counter()
        mesh = make()
        seconds = perf_counter() - begun
        off = "" if exact is None else f"{measure(mesh).volume / exact - 1:+.1e}"
        print(f"{name:34}{seconds:7.2f}s{len(mesh.faces):11}{off:>12}", flush=True)
    step = step_for(tray(), 0.004)
    print(f"step of the lattice for the tray: {1000 * step:.2f} mm")
