"""Each written form as a body, its edges rounded in the plane where that is exact."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, box, outline_area
from pourwright.geometry.drawn.outline_files import read_outline
from pourwright.geometry.drawn.outlines import Step, closed_outline, flattened
from pourwright.geometry.drawn.outlines_nesting import nested
from pourwright.geometry.drawn.outlines_prism import extruded
from pourwright.geometry.drawn.profiles import half_section, spun
from pourwright.geometry.drawn.rounding import rounded_box, rounded_outline, rounded_section
from pourwright.geometry.mesh import Floats
from pourwright.jobs.shape_forms import Forms, Hole, Outline, Step as WrittenStep


def _box(forms: Forms, _folder: Path) -> Mesh:
    size = [side.si for side in forms.box or ()]
    radius, inner = _radii(forms)
    if inner:
        raise UserError("a box has no inner edges", todo="leave round_inner out")
    return rounded_box(size, radius) if radius else box(size)


def _cone(forms: Forms, _folder: Path) -> Mesh:
    given = forms.cone
    assert given is not None
    bottom, top, height = given.bottom_diameter.si / 2, given.top_diameter.si / 2, given.height.si
    if height <= 0:
        raise UserError(f"a height of {given.height.text}", allowed="above 0", todo="mend it")
    return _turned(forms, [Step((bottom, 0.0)), Step((top, height))])


def _sphere(forms: Forms, _folder: Path) -> Mesh:
    given = forms.sphere
    assert given is not None
    _refuse_rounding(forms, "a ball has no edges")
    radius = given.diameter.si / 2
    return _turned(forms, [Step((0.0, 0.0)), Step((0.0, 2 * radius), (radius, radius))])


def _torus(forms: Forms, _folder: Path) -> Mesh:
    given = forms.torus
    assert given is not None
    _refuse_rounding(forms, "a ring of round section has no edges")
    outer, radius = given.outer_diameter.si / 2, given.thickness.si / 2
    inner, middle = outer - 2 * radius, outer - radius
    way = [
        Step((inner, radius)),
        Step((outer, radius), (middle, 0.0)),
        Step((inner, radius), (middle, 2 * radius)),
    ]
    return _turned(forms, way)


def _profile(forms: Forms, _folder: Path) -> Mesh:
    return _turned(forms, _steps(forms.profile or ()))


def _turned(forms: Forms, steps: Sequence[Step]) -> Mesh:
    section = half_section(steps)
    radius, inner = _radii(forms)
    return spun(rounded_section(section, radius, inner) if radius or inner else section)


def _outline(forms: Forms, folder: Path) -> Mesh:
    given = forms.outline
    assert given is not None
    drawn, holes = _drawn(given, folder), [_hole(hole) for hole in given.hole]
    _refuse_large(drawn, holes)
    loops = nested([*drawn, *holes])
    radius, inner = _radii(forms)
    if radius or inner:
        loops = rounded_outline(loops, radius, inner)
    bottom = given.round_bottom.si if given.round_bottom else radius
    top = given.round_top.si if given.round_top else radius
    return extruded(loops, given.height.si, bottom, top)


def _refuse_large(drawn: Sequence[Floats], holes: Sequence[Floats]) -> None:
    """A hole around the outline would take its place."""
    largest = max((abs(outline_area(loop)) for loop in drawn), default=0.0)
    for number, hole in enumerate(holes, 1):
        if abs(outline_area(hole)) >= largest:
            raise UserError(f"hole {number} is larger than the outline", todo="mend its sizes or its place")


def _drawn(given: Outline, folder: Path) -> list[Floats]:
    if given.file is None:
        return [flattened(closed_outline(_steps(given.points or ())))]
    return read_outline(folder / given.file, given.unit, layer=given.layer)


def _hole(hole: Hole) -> Floats:
    if hole.points is not None:
        return flattened(closed_outline(_steps(hole.points)))
    assert hole.at is not None
    assert hole.diameter is not None
    (x, y), radius = (along.si for along in hole.at), hole.diameter.si / 2
    left, right = (x - radius, y), (x + radius, y)
    halves = [Step(left, (x, y + radius)), Step(right, (x, y - radius))]
    return flattened(closed_outline(halves))


def _steps(steps: Sequence[WrittenStep]) -> list[Step]:
    return [
        Step(
            step.end,
            None if step.through is None else (step.through[0].si, step.through[1].si),
            step.radius.si if step.radius else 0.0,
        )
        for step in steps
    ]


def _radii(forms: Forms) -> tuple[float, float]:
    outer, inner = forms.radius, forms.inner_radius
    return outer.si if outer else 0.0, inner.si if inner else 0.0


def _refuse_rounding(forms: Forms, why: str) -> None:
    if any(_radii(forms)):
        raise UserError(why, todo="leave round and round_inner out")


BODIES: Mapping[str, Callable[[Forms, Path], Mesh]] = MappingProxyType(
    {"box": _box, "cone": _cone, "sphere": _sphere, "torus": _torus, "profile": _profile, "outline": _outline}
)
"""Makers of a body by key; each takes what is written, and the folder its drawings lie in."""


def turn_matrix(angles: Sequence[float], shift: Sequence[float]) -> Floats:
    """Turn about x, then y, then z, and move.

    Parameters
    ----------
    angles : sequence of three float
        About x, y and z, counter-clockwise seen from the tip of the axis [rad].
    shift : sequence of float
        Afterwards [m].

    Returns
    -------
    array (4, 4)

    Examples
    --------
    >>> turned = turn_matrix([np.pi / 2, 0.0, 0.0], [0.0, 0.0, 1.0]) @ [0.0, 0.0, 1.0, 1.0]
    >>> turned.round(12).tolist()
    [0.0, -1.0, 1.0, 1.0]
    """
    matrix = np.eye(4)
    for axis, angle in enumerate(angles):
        c, s = np.cos(angle), np.sin(angle)
        # right angles stay exact, so that faces meant to be flush are
        c, s = (0.0 if abs(value) < 1e-15 else float(value) for value in (c, s))
        one = np.eye(4)
        i, j = (axis + 1) % 3, (axis + 2) % 3
        one[i, i], one[i, j], one[j, i], one[j, j] = c, -s, s, c
        matrix = one @ matrix
    matrix[:3, 3] = shift
    return matrix
