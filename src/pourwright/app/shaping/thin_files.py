"""The picture of thin and sharp places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np
import numpy.typing as npt

from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.thin import Thin, measure_thin
from pourwright.app.shaping.thin_defaults import THIN
from pourwright.foundation.notation import format_length
from pourwright.geometry import Mesh, PourFrame
from pourwright.geometry.shown import refined
from pourwright.geometry.thin.inscribed import ball_through
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.sheets.body_view import Mark
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.thin_drawing import SIDES, ThinPicture, thin_drawing

Array = npt.NDArray[np.float64]
CLASSES = (POUR["thinnest"].value, 0.006, THIN["told"].value, 0.020, 0.040)
"""Ends of the classes of thickness in the picture [m]."""
FINE, MOST_FACES = 120.0, 60_000
"""Faces are cut to this share of the size of the piece, while there are no more than so many."""


def thin_files(looked: Looked, told: Mapping[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Draw a shape tinted by its thickness.

    Parameters
    ----------
    looked : Looked
        The shape.
    told : mapping
        All that was told of it.

    Yields
    ------
    tuple of str and bytes
        ``thin.svg`` and ``thin.png``.
    """
    found = measure_thin(looked.shaped.mesh, looked.system)
    mesh = looked.shaped.mesh
    mesh = refined(mesh, float(np.ptp(mesh.bounds, axis=0).max()) / FINE, MOST_FACES)
    frame = looked.piece.frame
    names = [format_length(end, looked.system) for end in CLASSES]
    words = (f"under {names[0]}", *(f"to {name}" for name in names[1:]), "more")
    lines = [corner.ends for corner in found.corners] + [edge.line.ends for edge in found.knives]
    sentences = [place["text"] for place in told["thin"]["places"]]
    svg = thin_drawing(
        ThinPicture(
            looked.shaped.name,
            mesh.transformed(frame.matrix),
            _classes(found, mesh),
            words,
            tuple(_marks(found, frame, told["thin"]["places"])),
            tuple(_turned(frame, ends) for ends in lines),
            (*sentences, told["thin"]["square"]) if told["thin"]["square"] else tuple(sentences),
        )
    )
    yield "thin.svg", svg.encode()
    yield "thin.png", png_of(svg)


def _turned(frame: PourFrame, places: Array) -> Array:
    return np.asarray(places @ frame.matrix[:3, :3].T + frame.matrix[:3, 3])


def _classes(found: Thin, mesh: Mesh) -> npt.NDArray[np.intp]:
    vectors = mesh.area_vectors
    inward = -vectors / np.maximum(np.linalg.norm(vectors, axis=1), 1e-300)[:, None]
    through = ball_through(found.map.tree, mesh.triangles.mean(axis=1), inward, 2 * CLASSES[-1])
    return np.searchsorted(np.array(CLASSES), through, side="right")


def _marks(found: Thin, frame: PourFrame, places: list[dict[str, Any]]) -> Iterator[tuple[Mark, Mark]]:
    """Each place as it is pointed at from both sides: of a wall the face on that side."""
    for number, place in enumerate(places):
        middle = _turned(frame, np.array([place["x_m"], place["y_m"], place["z_m"]]))
        across = np.zeros(3)
        if number < len(found.walls):
            part = found.walls[number].part
            across = frame.matrix[:3, :3] @ part.inward * part.thickness / 2
        front, back = (middle + np.sign(across @ np.array(toward)) * across for toward, _ in SIDES)
        yield Mark(front, str(place["number"])), Mark(back, str(place["number"]))
