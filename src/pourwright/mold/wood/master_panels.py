"""Shapes that come out of the saw true: prisms, and prisms stacked on each other."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from pourwright.geometry import Mesh, measure
from pourwright.geometry.drawn.joining import as_manifold
from pourwright.geometry.mesh import Floats
from pourwright.mold.wood.master_cuts import TRUE, Cut, heights, turned

_SQUARE = 1e-3
_NOTHING = 1e-6
_SAME = 1e-5
_SMOOTH = 1e-4


def stacked(mesh: Mesh, thickness: float) -> tuple[str, list[Cut]] | None:
    """Find which way boards lie so that all of the shape is their faces and their sawn edges.

    Parameters
    ----------
    mesh : Mesh
        In the frame of the pour [m].
    thickness : float
        Of a board [m].

    Returns
    -------
    tuple or None
        The axis that the boards lie across and the layers; of several ways the one with the fewest boards,
        where one that is planed counts as two. None where no way is true, or where the steps are so fine
        that slices need less than half as many boards.
    """
    found = [(axis, _prisms(mesh, axis, thickness)) for axis in "zxy"]
    possible = [(axis, cuts) for axis, cuts in found if cuts]
    return min(possible, key=lambda each: _work(each[1], thickness), default=None)


def _work(cuts: list[Cut], thickness: float) -> int:
    return len(cuts) + sum(cut.high - cut.low < thickness - TRUE for cut in cuts)


def _prisms(mesh: Mesh, axis: str, thickness: float) -> list[Cut]:
    body = turned(mesh, axis)
    levels = _levels(body)
    if levels is None or len(levels) > 2 * len(heights(levels[0], levels[-1], thickness)):
        return []
    shape = as_manifold(body)
    prisms: list[Cut] = []
    for low, high in pairwise(levels):
        section = shape.slice(500.0 * float(low + high)).simplify(_SMOOTH)
        if prisms and _same(prisms[-1].section, section):
            low = prisms.pop().low  # noqa: PLW2901 - a face inside the walls parts nothing
        prisms.append(Cut(float(low), float(high), section))
    return _boards(prisms, thickness) if _fill(prisms, measure(mesh).volume) else []


def _boards(prisms: list[Cut], thickness: float) -> list[Cut]:
    cuts = []
    for prism in prisms:
        ends = heights(prism.low, prism.high, thickness)
        cuts += [Cut(low, high, prism.section) for low, high in pairwise(ends)]
    slices = len(heights(prisms[0].low, prisms[-1].high, thickness)) - 1
    return cuts if len(cuts) <= 2 * slices else []


def _levels(body: Mesh) -> Floats | None:
    """Heights of the flat faces [m]; None where a face is neither flat nor upright."""
    vectors = body.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    flat = np.hypot(vectors[:, 0], vectors[:, 1]) <= _SQUARE * areas
    upright = np.abs(vectors[:, 2]) <= _SQUARE * areas
    if areas[~(flat | upright)].sum() > _NOTHING * areas.sum():
        return None
    found = np.sort(body.triangles[flat & (areas > 0), :, 2].mean(axis=1))
    low, high = body.bounds[:, 2]
    inner = found[(found > low + TRUE) & (found < high - TRUE)]
    apart = inner[np.diff(inner, prepend=-np.inf) > TRUE]
    return np.array([low, *apart, high])


def _same(one: object, other: object) -> bool:
    both = (one ^ other).area()  # type: ignore[operator]
    return bool(max(one.area(), other.area()) - both <= _SAME * both)  # type: ignore[attr-defined]


def _fill(prisms: list[Cut], volume: float) -> bool:
    """Whether the prisms are all of the body."""
    found = sum(prism.section.area() * 1e-6 * (prism.high - prism.low) for prism in prisms)
    return bool(abs(found - volume) <= _SAME * abs(volume))
