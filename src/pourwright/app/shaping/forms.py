"""Bodies written in the job file."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from pourwright.app.shaping.forms_bodies import BODIES, turn_matrix
from pourwright.app.shaping.forms_words import described, replaced, told_of
from pourwright.app.shaping.shaped import Shaped
from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, read_mesh, refuse_faults
from pourwright.geometry.joining import Joining
from pourwright.geometry.rounding_bodies import rounded_body
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.shape_forms import Forms, Part

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
    if kind == "part":
        mesh = _joined(job)
        mesh = _located(job, ("shape",), "shape", lambda: _rounded(shape, mesh))
    else:
        mesh = _located(job, ("shape", kind), kind, lambda: BODIES[kind](shape, job.path.parent))
    _located(job, ("shape", kind), kind, lambda: refuse_faults(mesh, kind, unit))
    return Shaped(described(shape), mesh, tuple(told_of(job)))


def _joined(job: Job) -> Mesh:
    joining = Joining()
    for number, part in enumerate(job.shape.part or ()):
        path: KeyPath = ("shape", "part", number)
        mesh = _located(job, (*path, part.given), part.given, lambda part=part: _part(job, part))
        _located(job, path, "part", lambda part=part, mesh=mesh: _fitted(joining, part, mesh))
    return joining.body()


def _fitted(joining: Joining, part: Part, mesh: Mesh) -> None:
    (joining.cut if part.cut else joining.add)(mesh)


def _part(job: Job, part: Part) -> Mesh:
    """One part in its place."""
    if part.file is None:
        mesh = BODIES[part.given](part, job.path.parent)
    else:
        mesh = read_mesh(job.path.parent / part.file, part.unit)
        refuse_faults(mesh, part.file, part.unit or "mm")
        mesh = _rounded(part, mesh)
    turn = part.turn
    angles = [angle.si if angle else 0.0 for angle in ((turn.x, turn.y, turn.z) if turn else (None,) * 3)]
    shift = [along.si for along in part.at] if part.at else [0.0] * 3
    return mesh.transformed(turn_matrix(*angles, shift))


def _rounded(forms: Forms, mesh: Mesh) -> Mesh:
    outer, inner = forms.radius, forms.inner_radius
    if not (outer or inner):
        return mesh
    return rounded_body(mesh, outer.si if outer else 0.0, inner.si if inner else 0.0)


def _located(job: Job, path: KeyPath, kind: str, make: Callable[[], Made]) -> Made:
    """Do something, and say on which line it failed."""
    try:
        return make()
    except UserError as error:
        raise replaced(job, path, kind, error) from None
