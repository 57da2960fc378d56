"""Answers about a job's view: parts, bodies, tints, and all of it in words."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from pourwright.app.molding.bodies import bodies_look, bodies_of
from pourwright.app.molding.bodies_files import DRAWN, body_drawing
from pourwright.app.viewing.asked import Asked, asked
from pourwright.app.viewing.bodies import COARSE, MOST, Scene, scene_of, shown_of
from pourwright.app.viewing.kept import Latest, kept_or_made
from pourwright.app.viewing.packed import packed
from pourwright.app.viewing.tints import TINTS, Tinting, tinted
from pourwright.app.viewing.told import scene_part
from pourwright.app.viewing.words import twin_part
from pourwright.foundation.errors import NotThereError
from pourwright.foundation.progress import SILENT
from pourwright.geometry import Mesh
from pourwright.geometry.welding import numbered
from pourwright.jobs import load_plan
from pourwright.jobs.plan import PlanDocument
from pourwright.runs import fingerprint

_SCENES, _TINTINGS = Latest[Scene](4), Latest[Tinting](2)
SURFACE = "surface"
"""Id of the piece's surface, whose triangles the values of a tint belong to."""


def view_of(path: Path, variant: str | None = None) -> dict[str, Any]:
    """List the parts of a job's view.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    dict
        Parts with kind, words, extents, volume, mass, tone, and how far each moves when all is pulled apart.

    Raises
    ------
    UserError
        For a job that no mold can be made for, with the line.
    """
    job = asked(path, variant)
    key = _key(job)
    told = kept_or_made(
        fingerprint(("view.json", key)), lambda: scene_part(job, _scene(job)) | {"fingerprint": key}
    )
    return {**told, "planned": job.plan_file.is_file(), "heat": job.heat_file.is_file()}


def view_key(path: Path, variant: str | None = None) -> str:
    """Name everything that the view of a job comes from.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    str
        64 hexadecimal digits; others as soon as anything shown may differ.
    """
    return _key(asked(path, variant))


def body_of(path: Path, part: str, variant: str | None = None, *, coarse: bool = False) -> bytes:
    """Give the body of a part.

    Parameters
    ----------
    path : Path
        Job file.
    part : str
        Its id, from `view_of`; "surface" for the piece's surface, cut as its tints are.
    variant : str, optional
        The variant; the first where left out.
    coarse : bool
        With few triangles, for what must be drawn quickly.

    Returns
    -------
    bytes
        Arrays, `packed`: ``positions`` (n, 3) in the pour frame [m], ``corners``
        (m, 3) with three numbers of positions for each triangle.

    Raises
    ------
    NotThereError
        For a part that the job does not have.
    """
    job = asked(path, variant)
    key = fingerprint(("body", _key(job), part, coarse))
    return kept_or_made(key, lambda: _packed(_body(job, part, coarse=coarse), part))


def tint_of(path: Path, tint: str, variant: str | None = None) -> bytes:
    """Give one tint of the piece.

    Parameters
    ----------
    path : Path
        Job file.
    tint : str
        draft [deg], undercut (how far the rubber reaches in [m]) or thickness [m].
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    bytes
        Arrays, `packed`: ``values``, one for each triangle of the body "surface".

    Raises
    ------
    NotThereError
        For a tint there is none of.
    """
    if tint not in TINTS:
        raise NotThereError(f"no tint '{tint}'", allowed=", ".join(TINTS), todo="name one of these")
    job = asked(path, variant)

    def make() -> bytes:
        tinting = _TINTINGS.get(job.shape_key, lambda: _tinting(job))
        return packed({"tint": tint}, {"values": tinting.values(tint)})

    return kept_or_made(fingerprint(("tint", job.shape_key, tint)), make)


def words_of(path: Path, variant: str | None = None) -> dict[str, Any]:
    """Say in words what the view shows.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    dict
        Parts with their extents; lean, undercuts with their places, thinnest places, hottest place.

    Raises
    ------
    UserError
        For a job that no mold can be made for, with the line.
    """
    job = asked(path, variant)
    plan = _plan(job)
    view = view_of(path, variant)
    key = fingerprint(("words", _key(job)))
    return kept_or_made(key, lambda: twin_part(job, view, plan))


def drawing_of(path: Path, drawing: str, variant: str | None = None) -> str:
    """Give a drawing in the place of the view, for a browser that shows none.

    Parameters
    ----------
    path : Path
        Job file.
    drawing : str
        mold-poured, mold-cast or parts.
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    str
        SVG document.

    Raises
    ------
    NotThereError
        For another drawing.
    """
    if drawing not in DRAWN:
        raise NotThereError(f"no drawing '{drawing}'", allowed=", ".join(DRAWN), todo="name one of these")
    job = asked(path, variant)

    def make() -> str:
        bodies = bodies_of(job.look)
        return body_drawing(drawing, job.look, bodies, bodies_look(job.look, SILENT), job.words)

    return kept_or_made(fingerprint(("drawing", job.key, drawing)), make)


def _key(job: Asked) -> str:
    plan = job.plan_file.read_bytes() if job.plan_file.is_file() else b""
    return fingerprint(("scene", job.key, plan))


def _plan(job: Asked) -> PlanDocument | None:
    return load_plan(job.plan_file) if job.plan_file.is_file() else None


def _scene(job: Asked, *, coarse: bool = False) -> Scene:
    most = COARSE if coarse else MOST
    return _SCENES.get(f"{_key(job)} {most}", lambda: scene_of(job.look, _plan(job), most))


def _body(job: Asked, part: str, *, coarse: bool) -> Mesh:
    if part == SURFACE:
        return _surface(job)
    scene = _scene(job, coarse=coarse)
    found = next((body for body in scene.bodies if body.id == part), None)
    if found is None:
        known = ", ".join(body.id for body in scene.bodies)
        raise NotThereError(f"no part '{part}'", allowed=known, todo="name one of these")
    return found.mesh


def _surface(job: Asked) -> Mesh:
    """The piece's surface cut fine for its tints, corners shared again."""
    mesh = _TINTINGS.get(job.shape_key, lambda: _tinting(job)).faces
    first, number = numbered(mesh.vertices)
    return Mesh(mesh.vertices[first], number[mesh.faces])


def _tinting(job: Asked) -> Tinting:
    shown = shown_of(job.piece.mesh)
    return Tinting(job.piece.mesh, tinted(shown.mesh), shown.off)


def _packed(mesh: Mesh, part: str) -> bytes:
    corners: npt.NDArray[np.uint32] = mesh.faces.astype(np.uint32)
    return packed({"id": part}, {"positions": mesh.vertices.astype(np.float32), "corners": corners})
