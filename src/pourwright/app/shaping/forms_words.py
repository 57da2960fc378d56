"""What is said about a written shape: how it was made, and where it went wrong."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_fine_length
from pourwright.geometry.drawn.outlines import StepError
from pourwright.geometry.drawn.outlines_arcs import CHORD_TOLERANCE
from pourwright.geometry.drawn.outlines_corners import NoRoomError
from pourwright.geometry.drawn.outlines_placed import PlacedError
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.shape_forms import Forms

_INCH = 0.0254
_TURNED = ("profile", "cone", "sphere", "torus")


def replaced(job: Job, path: KeyPath, kind: str, error: UserError) -> UserError:
    """Put a failure of the geometry on its line, in the maker's unit.

    Parameters
    ----------
    job : Job
        Where the body is written.
    path : tuple
        The key that gives it.
    kind : str
        What it is called.
    error : UserError
        As the geometry gave it.

    Returns
    -------
    UserError
        To be raised.
    """
    if isinstance(error, NoRoomError):
        return _no_room(job, path, error)
    if isinstance(error, StepError):
        return UserError(error.what, where=job.where(_step(job, path, error.number)), todo=error.todo)
    what = error.what
    if isinstance(error, PlacedError):
        names = "rh" if kind in _TURNED else "xyz"
        what = error.sentence("in" if job.units == "us" else "mm", names)
    if error.where and error.where != kind:
        what = f"{error.where}: {what}"
    elif kind != "part":
        what = f"this {kind} makes no solid: {what}"
    return UserError(what, where=job.where(path), allowed=error.allowed, todo=error.todo or "mend its sizes")


def _no_room(job: Job, path: KeyPath, error: NoRoomError) -> UserError:
    whole = next(
        (key for key in ((*path[:-1], "round"), (*path[:-1], "round_inner")) if key in job.lines), path
    )
    place = whole if error.number is None else _step(job, path, error.number)
    step = _INCH / 64 if job.units == "us" else 1e-4
    # half of a side is the end of what works, and does not work itself
    steps = floor(min(error.largest, error.radius - step) / step + 1e-9)
    most = f"{Fraction(steps, 64)} in" if job.units == "us" else f"{steps / 10:g} mm"
    return UserError(
        f"a rounding of {format_fine_length(error.radius, job.units)} does not fit",
        where=job.where(place),
        allowed=f"up to {most}" if steps > 0 else "no rounding",
        todo="take a smaller radius, or move the points apart",
    )


def _step(job: Job, path: KeyPath, number: int) -> KeyPath:
    """The step of a profile or an outline; its table where it is not written step by step."""
    for inner in (path, (*path, "points")):
        if (*inner, number) in job.lines:
            return (*inner, number)
    return path


def told_of(job: Job) -> Iterator[str]:
    """Say what was taken for granted in making the body round.

    Parameters
    ----------
    job : Job
        With a written shape.

    Yields
    ------
    str
        A sentence each.
    """
    shape = job.shape
    parts: list[tuple[str, Forms]] = [
        (f"of part {number}, ", part) for number, part in enumerate(shape.part or (), 1)
    ]
    if any(_round_somewhere(body) for _, body in [("", shape), *parts]):
        within = format_fine_length(CHORD_TOLERANCE.value, job.units)
        yield f"arcs and circles are drawn as short straight pieces within {within} of the true line"
    for whose, body in parts or [("", shape)]:
        if not getattr(body, "file", None):
            yield from _roundings(body, whose, "exactly")


def rounding_told(job: Job, body: Forms, whose: str, tolerance: float) -> Iterator[str]:
    """Say how near the rounded edges of a joined body, or one read from a file, come to true ones.

    Parameters
    ----------
    job : Job
        Where it is written.
    body : Forms
        The shape or a part.
    whose : str
        Which part, in words; empty for the whole.
    tolerance : float
        [m]

    Yields
    ------
    str
        A sentence each.
    """
    yield from _roundings(body, whose, f"within {format_fine_length(tolerance, job.units)}")


def _roundings(body: Forms, whose: str, how: str) -> Iterator[str]:
    for size, edges in ((body.radius, "outer"), (body.inner_radius, "inner")):
        if size:
            yield f"{whose}all {edges} edges are rounded to {size.text}, {how}"


def _round_somewhere(body: Forms) -> bool:
    if body.radius or body.inner_radius or body.cone or body.sphere or body.torus or body.profile:
        return True
    outline = body.outline
    return outline is not None and bool(
        outline.file
        or outline.hole
        or outline.round_top
        or outline.round_bottom
        or any(step.through or step.radius for step in outline.points or ())
    )
