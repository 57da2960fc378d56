"""Bodies written in the job file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from pourwright.app.shaping.shaped import Shaped
from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, box, cone, refuse_faults, revolve
from pourwright.jobs.job import Job
from pourwright.jobs.shape import Shape


def _box(shape: Shape) -> Mesh:
    return box([side.si for side in shape.box or ()])


def _cone(shape: Shape) -> Mesh:
    given = shape.cone
    assert given is not None
    return cone(given.bottom_diameter.si / 2, given.top_diameter.si / 2, given.height.si)


def _profile(shape: Shape) -> Mesh:
    return revolve([[radius.si, height.si] for radius, height in shape.profile or ()])


FORMS: Mapping[str, Callable[[Shape], Mesh]] = MappingProxyType(
    {"box": _box, "cone": _cone, "profile": _profile}
)
"""Makers of a body, by key."""


def written(job: Job) -> Shaped:
    """Make the body that a job writes down.

    Parameters
    ----------
    job : Job
        With a shape that needs no file.

    Returns
    -------
    Shaped

    Raises
    ------
    UserError
        Where its sizes enclose no body, with the line.
    """
    kind = job.shape.given
    where = job.where(f"shape.{kind}")
    try:
        mesh = FORMS[kind](job.shape)
        refuse_faults(mesh, kind, "in" if job.units == "us" else "mm")
    except (UserError, ValueError) as error:
        raise UserError(f"this {kind} makes no solid: {error}", where=where, todo="mend its sizes") from None
    return Shaped(kind, mesh)
