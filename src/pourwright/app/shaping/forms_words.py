"""What is said about a written shape: how it was made, and where it went wrong."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_fine_length
from pourwright.geometry.outlines import StepError
from pourwright.geometry.outlines_arcs import CHORD_TOLERANCE
from pourwright.geometry.outlines_corners import NoRoomError
from pourwright.geometry.outlines_nesting import CrossingError
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.shape import Shape
from pourwright.jobs.shape_forms import Forms

_INCH = 0.0254


def described(shape: Shape) -> str:
    """Name a written shape.

    Parameters
    ----------
    shape : Shape
        Of a job.

    Returns
    -------
    str
        The key that gives it.
    """
    return "parts" if shape.given == "part" else shape.given


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
    number = getattr(error, "number", None)
    if isinstance(error, NoRoomError):
        return _no_room(job, path, error)
    if isinstance(error, StepError) and number is not None:
        return UserError(error.what, where=job.where(_step(job, path, number)), todo=error.todo)
    what = f"this {kind} makes no solid: {error.what}"
    if isinstance(error, CrossingError):
        unit, size = ("in", _INCH) if job.units == "us" else ("mm", 1e-3)
        first, second = ("x", "y") if kind == "outline" else ("radius", "height")
        x, y = error.place / size + 0.0
        what = f"the {kind} crosses or touches itself near {first} {x:.4g}, {second} {y:.4g} {unit}"
    elif error.where and error.where != kind:
        what = f"{error.where}: {error.what}"
    return UserError(what, where=job.where(path), allowed=error.allowed, todo=error.todo or "mend its sizes")


def _no_room(job: Job, path: KeyPath, error: NoRoomError) -> UserError:
    asked = format_fine_length(error.radius, job.units)
    place = path[:-1] if error.number is None else _step(job, path, error.number)
    steps = floor(error.largest / (_INCH / 64)) if job.units == "us" else floor(error.largest * 1e4)
    most = f"{steps}/64 in" if job.units == "us" else f"{steps / 10:g} mm"
    return UserError(
        f"a rounding of {asked} does not fit",
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
    bodies: list[Forms] = [shape, *(shape.part or ())]
    if any(map(_round_somewhere, bodies)):
        within = format_fine_length(CHORD_TOLERANCE.value, job.units)
        yield f"Arcs and circles are drawn as short straight pieces within {within} of the true line"
    for body in bodies:
        yield from _roundings(body)


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


def _roundings(body: Forms) -> Iterator[str]:
    if body.radius:
        yield f"All outer edges are rounded to {body.radius.text}"
    if body.inner_radius:
        yield f"All inner edges are rounded to {body.inner_radius.text}"
