"""Closed outlines in the plane, from steps that a tape can measure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines_arcs import CHORD_TOLERANCE, Edge, chords, edge_through
from pourwright.geometry.drawn.outlines_corners import rounded
from pourwright.geometry.mesh import Floats


@dataclass(frozen=True, slots=True)
class Step:
    """One step along an outline.

    Parameters
    ----------
    to : tuple of float
        Where it leads [m].
    through : tuple of float, optional
        A point on the way, where the way is an arc [m].
    radius : float
        Of the rounding of the corner at its end; 0 leaves it sharp [m].
    """

    to: tuple[float, float]
    through: tuple[float, float] | None = None
    radius: float = 0.0


class StepError(UserError):
    """A step that cannot be taken; `number` counts from 0."""

    number: int = 0

    @classmethod
    def at(cls, number: int, what: str, todo: str = "") -> StepError:
        """Make one for a step."""
        error = cls(what, todo=todo)
        error.number = number
        return error


def closed_outline(steps: Sequence[Step]) -> list[Edge]:
    """Walk the steps and go back to where the first one leads.

    Parameters
    ----------
    steps : sequence of Step
        Three or more, or two with an arc among them. The way from the last to the first is straight, or an
        arc where the first step goes through a point.

    Returns
    -------
    list of Edge
        With all roundings.

    Raises
    ------
    UserError
        For a step that leads nowhere or through no arc (`StepError`), and a rounding that does not fit
        (`NoRoomError`), with its number.

    Examples
    --------
    >>> from pourwright.geometry.sections import outline_area
    >>> steps = [Step((0.0, 0.0)), Step((0.2, 0.0)), Step((0.2, 0.1), radius=0.02), Step((0.0, 0.1))]
    >>> area = outline_area(flattened(closed_outline(steps)))
    >>> round(float(area), 9) == round(0.2 * 0.1 - (1 - np.pi / 4) * 0.02**2, 9)
    True
    """
    edges = [_edge(steps[number - 1], step, number) for number, step in enumerate(steps)]
    ahead = [*edges[1:], edges[0]]
    return rounded(ahead, [step.radius for step in steps])


def _edge(before: Step, step: Step, number: int) -> Edge:
    start, end = np.array(before.to), np.array(step.to)
    if (start == end).all():
        todo = "leave it out; an outline goes back to its first point by itself"
        raise StepError.at(number, "this point is the same as the one before", todo)
    if step.through is None:
        return Edge(start, end)
    try:
        return edge_through(start, step.through, end)
    except ValueError as failure:
        raise StepError.at(number, str(failure), "measure a point on the arc itself") from None


def flattened(edges: Sequence[Edge], tolerance: float = CHORD_TOLERANCE.value) -> Floats:
    """Turn the arcs of an outline into chords.

    Parameters
    ----------
    edges : sequence of Edge
        In their order, closed or not.
    tolerance : float
        Farthest a chord may leave its arc [m].

    Returns
    -------
    array (n, 2)
        The end of every edge and chord [m].
    """
    return np.concatenate([chords(edge, tolerance) for edge in edges])
