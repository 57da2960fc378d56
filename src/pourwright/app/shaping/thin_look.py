"""Thin parts, corners and edges of a shape as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import numpy.typing as npt

from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.thin import Spot, Thin, measure_thin
from pourwright.app.shaping.thin_words import ThinTeller
from pourwright.foundation.notation import UnitSystem
from pourwright.foundation.progress import Progress
from pourwright.geometry import PourFrame
from pourwright.pour.defaults import DEFAULTS as POUR

Array = npt.NDArray[np.float64]


def thin_look(looked: Looked, progress: Progress) -> dict[str, Any]:
    """Say what is thin or sharp about a shape.

    Parameters
    ----------
    looked : Looked
        The shape.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict
        Under ``places`` every one that is marked in the picture, and under ``square_edges_m`` the rest.
    """
    progress.step("thin and sharp", 0, 1)
    found = measure_thin(looked.shaped.mesh, looked.system)
    told = list(entries(found, teller_of(looked.piece.frame, looked.system)))
    progress.step("thin and sharp", 1, 1)
    square = teller_of(looked.piece.frame, looked.system).square(found.square) if found.square else ""
    return {"places": told, "square_edges_m": found.square, "square": square}


def teller_of(frame: PourFrame, system: UnitSystem) -> ThinTeller:
    """Say it in the maker's units.

    Parameters
    ----------
    frame : PourFrame
        From the file to the pour.
    system : UnitSystem
        Of what is printed.

    Returns
    -------
    ThinTeller
    """
    return ThinTeller(frame, system, POUR["thinnest"].value)


def entries(found: Thin, teller: ThinTeller) -> Iterator[dict[str, Any]]:
    """List what was found, numbered as in the picture.

    Parameters
    ----------
    found : Thin
        What is thin or sharp.
    teller : ThinTeller
        Its words.

    Yields
    ------
    dict
        Kind, level, sentence, place in the file and height in both readings, and its sizes.
    """
    for number, (kind, place, (level, text), sizes) in enumerate(_all(found, teller), 1):
        poured, standing = teller.heights(place)
        x, y, z = (float(value) for value in place)
        yield {
            "number": number,
            "kind": kind,
            "level": level,
            "text": text,
            "x_m": x,
            "y_m": y,
            "z_m": z,
            "height_m": poured,
            "height_standing_m": standing,
        } | sizes


Row = tuple[str, Array, tuple[str, str], dict[str, Any]]


def _all(found: Thin, teller: ThinTeller) -> Iterator[Row]:
    for number, spot in enumerate(found.walls):
        kind = "pin" if spot.part.pin else "wall"
        yield kind, spot.part.place, teller.wall(spot, first=number == 0), _spot_sizes(spot)
    for spot in found.spaces:
        kind = "hole" if spot.part.pin else "slot"
        yield kind, spot.part.place, teller.space(spot), _spot_sizes(spot)
    for corner in found.corners:
        yield "inner corner", corner.line.place, teller.corner(corner), {
            "angle_deg": float(np.degrees(corner.line.angle)),
            "length_m": corner.length,
            "radius_m": corner.line.radius,
            "proposed_m": corner.proposed,
            "stress": corner.now,
            "stress_then": corner.then,
        }  # fmt: skip
    for edge in found.knives:
        yield "outer edge", edge.line.place, teller.knife(edge), {
            "angle_deg": float(np.degrees(edge.line.angle)),
            "length_m": edge.length,
            "radius_m": edge.line.radius,
            "proposed_m": edge.proposed,
            "taken_m": edge.taken,
        }  # fmt: skip
    if found.points.angles.size:
        place, angle = found.points.places[0], float(found.points.angles[0])
        words = teller.point(place, angle, int(found.points.angles.size))
        yield "point", place, words, {"angle_deg": float(np.degrees(angle))}


def _spot_sizes(spot: Spot) -> dict[str, Any]:
    part = spot.part
    width = part.width if np.isfinite(part.width) else None
    sizes = {"thickness_m": part.thickness, "straight_m": part.ray, "width_m": width, "stands_m": part.stands}
    return sizes | {"count": spot.count}
