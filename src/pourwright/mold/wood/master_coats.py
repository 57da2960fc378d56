"""What of a wooden master is sealed before rubber comes on it, and how much sealer that takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from pourwright.foundation.sources import Kind, Sourced
from pourwright.geometry import Mesh, measure, open_face
from pourwright.materials.contact import Coat, load_contact
from pourwright.mold.sticking import default_sealer

Held = Literal["top", "bottom", "none"]
FILM = Sourced(
    1.0e-4, "m", 0.8e-4, 1.25e-4, Kind.PRACTICE, "common-practice",
    "wet, one brushed coat: a litre covers about 10 m2 of a closed face",
)  # fmt: skip
"""Sealer in one coat [m3 per m2]."""
_LEVEL = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealing:
    """The sealing of a master.

    Parameters
    ----------
    area : float
        All of the surface but the face it is held by [m2].
    edges : float
        How much of it shows the boards' edges, straight or sanded slanting [m2].
    coat : Coat or None
        What it is sealed with; None where the wood needs none or nothing is known of the sealer.
    amount, least, most : float
        Sealer for all coats [m3]: as usual, and the usual range.
    """

    area: float
    edges: float
    coat: Coat | None
    amount: float = 0.0
    least: float = 0.0
    most: float = 0.0


def sealing(mesh: Mesh, axis: str, board: str, *, held: Held = "top", sealer: str | None = None) -> Sealing:
    """Reckon what is to be sealed.

    Parameters
    ----------
    mesh : Mesh
        The master in the frame of the pour [m].
    axis : str
        What the boards lie across.
    board : str
        Id of the board.
    held : str
        The level face it is screwed on or hung by, which stays bare; "none": all is sealed.
    sealer : str, optional
        Id of a sealer; else what the board needs.

    Returns
    -------
    Sealing

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = sealing(box([0.3, 0.2, 0.054]), "z", "mdf")
    >>> round(found.area, 6), round(found.edges, 6), found.coat.coats
    (0.114, 0.054, 3)
    """
    coat = load_contact().sealer.get(sealer or default_sealer(board))
    area = float(measure(mesh).area) - _held(mesh, held)
    edges = _edges(mesh, axis)
    if coat is None or not coat.coats:
        return Sealing(area=area, edges=edges, coat=None)
    # the table of coats says where edges drink twice as much
    film = coat.coats * (area + edges * ("edges twice" in coat.how))
    least, most = FILM.low or FILM.value, FILM.high or FILM.value
    return Sealing(
        area=area, edges=edges, coat=coat, amount=film * FILM.value, least=film * least, most=film * most
    )


def _held(mesh: Mesh, held: Held) -> float:
    if held == "none":
        return 0.0
    turned = mesh if held == "top" else mesh.transformed(np.diag([1.0, 1.0, -1.0, 1.0]))
    return open_face(turned).area


def _edges(mesh: Mesh, axis: str) -> float:
    """Area of all that does not lie along the boards' faces."""
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    across = np.delete(vectors, "xyz".index(axis), axis=1)
    return float(areas[np.linalg.norm(across, axis=1) > _LEVEL * areas].sum())
