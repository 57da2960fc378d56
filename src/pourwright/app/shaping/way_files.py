"""The picture of the ways up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np
import numpy.typing as npt

from pourwright.app.shaping.looked import Looked
from pourwright.foundation.notation import (
    UnitSystem,
    format_area,
    format_length,
    format_share,
    format_volume,
)
from pourwright.geometry import Mesh, Pocket, Up, direction, measure_ways, pour_frame
from pourwright.sheets.body_view import Mark
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.ways_drawing import PullMap, WayPicture, ways_drawing

Part = Mapping[str, Any]
Array = npt.NDArray[np.float64]
LEAST = 0.005
"""Share of the surface that locks no mold: the columns tell no less."""
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
FACING = 0.0175
"""Sine of the angle from which on a face looks up enough to have rubber over it."""


def way_files(looked: Looked, told: Part) -> Iterator[tuple[str, bytes]]:
    """Draw the best ways up and the map of pulls.

    Parameters
    ----------
    looked : Looked
        The shape.
    told : mapping
        All that was told of it.

    Yields
    ------
    tuple of str and bytes
        ``ways.svg`` and ``ways.png``.
    """
    ways = told["ways"]
    pictures = [_picture(number, way, looked) for number, way in enumerate(ways["best"], 1)]
    svg = ways_drawing(looked.shaped.name, pictures, _pull_map(ways["parting"], ways["hint"]))
    yield "ways.svg", svg.encode()
    yield "ways.png", png_of(svg)


def _picture(number: int, way: Part, looked: Looked) -> WayPicture:
    mesh, frame = pour_frame(looked.shaped.mesh, up_of(way["up"]))
    turn = frame.matrix[:3, :3]
    pockets, ups = _caught(way, looked.shaped.mesh, turn[2])
    vectors = mesh.area_vectors
    upward = vectors[:, 2] > FACING * np.linalg.norm(vectors, axis=1)
    opened = upward & (mesh.triangles[:, :, 2] >= frame.height - 1e-6).all(axis=1)
    caught = np.zeros(len(mesh.faces), dtype=bool)
    middles = looked.shaped.mesh.triangles.mean(axis=1)
    for pocket, rising in zip(pockets, ups, strict=True):
        caught |= np.isin(mesh.faces, pocket.vertices).any(axis=1) & (middles @ rising >= pocket.lip)
    places = [np.asarray(turn @ pocket.place + frame.matrix[:3, 3]) for pocket in pockets]
    marks = tuple(Mark(place, letter) for place, letter in zip(places, LETTERS, strict=False))
    pull = None if way["grade"] == "not as it is" else turn @ np.array(way["pull"])
    up = way["up"] if isinstance(way["up"], str) else "askew"
    title = f"{number}  {up}: {way['words'].split(',')[0]}"
    lines = tuple(_lines(way, looked.system))
    return WayPicture(title, lines, mesh, opened, upward & ~opened, caught, marks, pull)


def _caught(way: Part, mesh: Mesh, up: Array) -> tuple[list[Pocket], list[Array]]:
    """The pockets that are told, found again with their walls, and which way their liquid rises."""
    least = min((each["volume_m3"] for each in way["caught"]), default=0.0)
    if not way["caught"]:
        return [], []
    measured = measure_ways(mesh, [up], 0.999 * least)[0]
    hung = way["hold"] == "hung"
    pockets = [*measured.casting, *(measured.hung if hung else measured.screwed)]
    ups = [up if hung or n < len(measured.casting) else -up for n in range(len(pockets))]
    return pockets, ups


def _lines(way: Part, system: UnitSystem) -> Iterator[str]:
    deep = f"{format_length(way['head_m'], system)} deep"
    yield f"{deep}, open face {format_area(way['open_face_m2'], system)}" if way["open_face_m2"] else deep
    yield way["reason"]
    for letter, each in zip(LETTERS, way["caught"], strict=False):
        up, standing = (
            format_length(each["height_m"], system),
            format_length(each["height_standing_m"], system),
        )
        height = up if up == standing else f"{up} up, {standing} as it stands"
        yield f"{letter}: {format_volume(each['volume_m3'], system)} of air, {height}; {each['todo']}"
    for words in way["against"]:
        yield f"Against it: {words}"


def _pull_map(parting: Part, hint: str) -> PullMap:
    rows = np.array([[each["x"], each["y"], each["z"], each["share"]] for each in parting["map"]])
    best = direction(up_of(parting["along"]))
    most = format_share(parting["most_share"])
    along = parting["along"] if isinstance(parting["along"], str) else str(parting["along"])
    locks = "nothing locks" if parting["share"] < LEAST else f"{format_share(parting['share'])} of it locks"
    sentence = f"Opened along {along.lstrip('+-')}, both ways: {locks}; the worst way {most} of the surface."
    return PullMap(rows[:, :3], rows[:, 3], best, f"{sentence} {hint}".strip())


def up_of(told: str | list[float]) -> Up:
    """A direction as it is told: a name or three numbers."""
    return told if isinstance(told, str) else [float(value) for value in told]
