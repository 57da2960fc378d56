"""Bodies of revolution from steps along half of their section."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines import Step, StepError, closed_outline, flattened
from pourwright.geometry.drawn.outlines_arcs import CHORD_TOLERANCE, chord_count
from pourwright.geometry.drawn.outlines_corners import NoRoomError
from pourwright.geometry.drawn.outlines_nesting import meeting
from pourwright.geometry.drawn.outlines_placed import PlacedError
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.primitives import revolve
from pourwright.geometry.sections import outline_area

FEWEST_AROUND = 256
"""Flat strips around, at least: they keep the volume to one part in ten thousand."""
_ON_AXIS = 1e-9


def half_section(steps: Sequence[Step], tolerance: float = CHORD_TOLERANCE.value) -> Floats:
    """Close a profile of radius and height, round its corners and turn its arcs into chords.

    Parameters
    ----------
    steps : sequence of Step
        From the bottom up or from the top down. Where the first and the last point are the same, the profile
        is that of a ring; else its ends are joined to the axis by flat discs.
    tolerance : float
        Farthest a chord may leave its arc [m].

    Returns
    -------
    array (n, 2)
        Closed, radius and height [m].

    Raises
    ------
    UserError
        `StepError` or `NoRoomError` with the number of the step, or where radii lie beyond the axis.

    Examples
    --------
    >>> section = half_section([Step((0.1, 0.0)), Step((0.1, 0.2), radius=0.05)])
    >>> round(outline_area(section), 9) == round(0.1 * 0.2 - (1 - np.pi / 4) * 0.05**2, 9)
    True
    """
    for number, step in enumerate(steps):
        if step.to[0] < 0:
            raise StepError.at(number, "a radius below zero", "measure radii from the axis outward")
        if step.radius > 0 and step.to[0] <= _ON_AXIS:
            raise StepError.at(
                number, "a point on the axis has no corner to round", "end it with an arc instead"
            )
    if len(steps) < 2:
        raise UserError("a profile needs two or more points", allowed="[radius, height], ...")
    closed, lead = _closed(steps)
    try:
        points = flattened(closed_outline(closed), tolerance)
    except (StepError, NoRoomError) as failure:
        raise _renumbered(failure, lead) from None
    if points[:, 0].min() < -tolerance / 10:
        raise UserError("an arc of the profile reaches over the axis", allowed="radius 0 or more")
    points[np.abs(points[:, 0]) <= _ON_AXIS, 0] = 0.0
    return np.asarray(np.maximum(points, [0.0, -np.inf]))


def _closed(steps: Sequence[Step]) -> tuple[list[Step], int]:
    """The steps with what leads to the axis, and how many of these come first."""
    first, last = steps[0], steps[-1]
    if len(steps) > 2 and first.to == last.to:
        radius = max(first.radius, last.radius)
        return [Step(first.to, last.through, radius), *steps[1:-1]], 0
    if first.through is not None:
        raise StepError.at(
            0, "the first point of a profile has no arc before it", "write it as [radius, height]"
        )
    if first.to[0] > 0 and last.to[0] > 0 and first.to[1] == last.to[1]:
        raise StepError.at(
            len(steps) - 1, "the profile ends at the height at which it begins",
            "end it at its first point to make a ring, or on the axis",
        )  # fmt: skip
    below = [Step((0.0, first.to[1]))] if first.to[0] > 0 else []
    above = [Step((0.0, last.to[1]))] if last.to[0] > 0 else []
    return [*below, *steps, *above], len(below)


def _renumbered(failure: StepError | NoRoomError, lead: int) -> UserError:
    failure.number = max(0, (failure.number or 0) - lead)
    return failure


def spun(section: npt.ArrayLike, tolerance: float = CHORD_TOLERANCE.value) -> Mesh:
    """Turn a closed half section around the z axis.

    Parameters
    ----------
    section : array (n, 2)
        Radius and height, closed; points on the axis have the radius 0 [m].
    tolerance : float
        Farthest a flat strip may leave its circle [m].

    Returns
    -------
    Mesh
        Its corners lie on the true circles, so sizes are exact and the volume is low by no more than one part
        in ten thousand.

    Raises
    ------
    UserError
        Where the section crosses itself or touches the axis in more than one stretch.

    Examples
    --------
    >>> from pourwright.geometry.solid import measure
    >>> ring = spun([[0.1, 0.0], [0.2, 0.0], [0.2, 0.1], [0.1, 0.1]])
    >>> exact = np.pi * (0.2**2 - 0.1**2) * 0.1
    >>> bool(abs(measure(ring).volume / exact - 1) < 1.1e-4)
    True
    """
    points = np.asarray(section, dtype=np.float64)
    points = points[np.any(points != np.roll(points, 1, axis=0), axis=1)]
    if len(points) < 3 or outline_area(points) == 0:
        raise UserError("the profile encloses no area", todo="lead it around what is to be solid")
    if (place := meeting([points])) is not None:
        raise PlacedError.at("the profile crosses or touches itself", place, "mend its points")
    segments = _around(float(points[:, 0].max()), tolerance)
    on_axis = points[:, 0] == 0
    if not on_axis.any():
        return _ring(points, segments)
    # the open profile runs from where it leaves the axis to where it comes back
    leaving = np.flatnonzero(on_axis & ~np.roll(on_axis, -1))
    if leaving.size != 1:
        raise UserError(
            "the profile touches the axis between its ends: it encloses no single body",
            todo="leave the axis after the first point",
        )
    turned = np.roll(points, -leaving[0], axis=0)
    off = np.flatnonzero(turned[:, 0] > 0)
    profile = turned[: off[-1] + 2] if off[-1] + 1 < len(turned) else np.concatenate([turned, turned[:1]])
    return revolve(profile, segments)


def _around(radius: float, tolerance: float) -> int:
    """Strips around: a multiple of four hits the outermost points on all sides."""
    count = max(FEWEST_AROUND, chord_count(radius, 2 * np.pi, tolerance))
    return -(-count // 4) * 4


def _ring(points: Floats, segments: int) -> Mesh:
    """Strips around an axis that the section does not touch."""
    section = points if outline_area(points) > 0 else points[::-1]
    angles = 2 * np.pi * np.arange(segments) / segments
    circle = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    circle[np.abs(circle) < 1e-15] = 0.0
    vertices = np.empty((len(section), segments, 3))
    vertices[:, :, :2] = section[:, None, :1] * circle
    vertices[:, :, 2] = section[:, 1:]
    around, ring = np.arange(segments), np.arange(len(section))[:, None]
    above = segments * ((ring + 1) % len(section))
    beside = (around + 1) % segments
    a, b, c, d = segments * ring + around, segments * ring + beside, above + beside, above + around
    faces = np.stack([np.stack([a, b, c], axis=-1), np.stack([a, c, d], axis=-1)], axis=2)
    return Mesh(vertices.reshape(-1, 3), faces.reshape(-1, 3))
