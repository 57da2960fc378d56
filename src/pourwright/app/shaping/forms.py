"""Bodies written in the job file."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TypeVar

from pourwright.app.shaping.forms_bodies import BODIES, turn_matrix
from pourwright.app.shaping.forms_words import replaced, rounding_told, told_of
from pourwright.app.shaping.shaped import Shaped
from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, read_shape_file, refuse_faults
from pourwright.geometry.drawn.joining import Joining
from pourwright.geometry.drawn.rounding_bodies import rounded_body
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.shape_forms import Forms, Part
from pourwright.runs import do_apart

Made = TypeVar("Made")


def written(job: Job) -> Shaped:
    """Make the body that a job writes down.

    Parameters
    ----------
    job : Job
        With a shape that needs no mesh file, or is made of parts.

    Returns
    -------
    Shaped

    Raises
    ------
    UserError
        Where its sizes enclose no body, with the line.
    """
    shape, kind = job.shape, job.shape.given
    unit = "in" if job.units == "us" else "mm"
    told = list(told_of(job))
    if kind == "part":
        mesh = _joined(job, told)
        mesh = _located(
            job, ("shape", _rounding_key(shape)), "part", lambda: _rounded(job, shape, mesh, told)
        )
    else:
        mesh = _located(job, ("shape", kind), kind, lambda: BODIES[kind](shape, job.path.parent))
    _located(job, ("shape", kind), kind, lambda: refuse_faults(mesh, kind, unit))
    return Shaped("parts" if kind == "part" else kind, mesh, noted=tuple(told))


def _joined(job: Job, told: list[str]) -> Mesh:
    joining = Joining()
    for number, part in enumerate(job.shape.part or ()):
        path: KeyPath = ("shape", "part", number)
        mesh = _located(job, (*path, part.given), part.given, partial(_part, job, part, told))
        _located(job, path, "part", partial(joining.cut if part.cut else joining.add, mesh))
    return joining.body()


def _part(job: Job, part: Part, told: list[str]) -> Mesh:
    """One part in its place."""
    if part.file is None:
        mesh = BODIES[part.given](part, job.path.parent)
    else:
        mesh = read_shape_file(job.path.parent / part.file, part.unit, do_apart).mesh
        refuse_faults(mesh, part.file, part.unit or "mm")
        mesh = _rounded(job, part, mesh, told, f"of {part.file}, ")
    turn = part.turn
    angles = [angle.si if angle else 0.0 for angle in ((turn.x, turn.y, turn.z) if turn else (None,) * 3)]
    shift = [along.si for along in part.at] if part.at else [0.0] * 3
    return mesh.transformed(turn_matrix(angles, shift))


def _rounded(job: Job, forms: Forms, mesh: Mesh, told: list[str], whose: str = "") -> Mesh:
    outer, inner = forms.radius, forms.inner_radius
    if not (outer or inner):
        return mesh
    found, tolerance = rounded_body(mesh, outer.si if outer else 0.0, inner.si if inner else 0.0)
    told.extend(rounding_told(job, forms, whose, tolerance))
    return found


def _rounding_key(forms: Forms) -> str:
    return "round" if forms.radius else "round_inner" if forms.inner_radius else "part"


def _located(job: Job, path: KeyPath, kind: str, make: Callable[[], Made]) -> Made:
    """Do something, and say on which line it failed."""
    try:
        return make()
    except UserError as error:
        raise replaced(job, path, kind, error) from None
