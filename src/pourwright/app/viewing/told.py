"""The list of parts with everything about them in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pourwright.app.heights import in_both
from pourwright.app.viewing.asked import Asked
from pourwright.app.viewing.bodies import Scene, Shown
from pourwright.app.viewing.cuts import cuts_part
from pourwright.app.viewing.legends import legends

KINDS = {
    "piece": "piece",
    "core": "core",
    "band": "bands",
    "pour": "pours",
    "master": "master",
    "rubber": "rubber",
    "block": "space blocks",
    "panel": "box",
    "bar": "bars",
}
"""Kinds of parts in the maker's words, from the inside out."""
INSIDE = ("piece", "band", "pour", "master")
"""Kinds that take the same room: one of them is shown at a time."""


def scene_part(asked: Asked, scene: Scene) -> dict[str, Any]:
    """Tell every part of a scene.

    Parameters
    ----------
    asked : Asked
        The job.
    scene : Scene
        Its bodies.

    Returns
    -------
    dict
        As JSON: lengths in m, volumes in m3, masses in kg, each with its text.
    """
    present = [kind for kind in KINDS if any(body.kind == kind for body in scene.bodies)]
    return {
        "title": asked.job.title,
        "units": asked.job.units,
        "up": "as poured",
        "kinds": [{"kind": kind, "words": KINDS[kind], "inside": kind in INSIDE} for kind in present],
        "parts": [_part(asked, body) for body in scene.bodies],
        "cuts": cuts_part(asked, scene),
        "tints": legends(asked.words.system),
        "shown": _shown(asked, scene),
        "shown_off_m": scene.off,
    }


def _part(asked: Asked, body: Shown) -> dict[str, Any]:
    words = asked.words
    low, high = body.mesh.bounds.tolist()
    sides = tuple(top - bottom for bottom, top in zip(low, high, strict=True))
    return {
        "id": body.id,
        "kind": body.kind,
        "words": body.words,
        "low_m": low,
        "high_m": high,
        "size": words.size(sides),
        "volume_m3": body.volume,
        "volume": "" if body.volume is None else words.volume(body.volume),
        "mass_kg": body.mass,
        "mass": "" if body.mass is None else words.mass(body.mass),
        "heights": _heights(asked, body),
        "moved_m": list(body.moved),
        "tone": body.tone,
        "pattern": body.pattern,
        "triangles": len(body.mesh.faces),
    }


def _heights(asked: Asked, body: Shown) -> str:
    if body.heights is None:
        return ""
    frame, system = asked.piece.frame, asked.words.system
    low, high = (in_both(frame, height, system) for height in body.heights)
    return f"from {low} to {high}"


def _shown(asked: Asked, scene: Scene) -> str:
    if scene.off == 0.0:
        return f"All {scene.triangles:,} triangles of the piece are shown."
    piece = next(body for body in scene.bodies if body.kind == "piece")
    off = asked.words.gap(scene.off)
    return (
        f"The piece has {scene.triangles:,} triangles; {len(piece.mesh.faces):,} are shown, nowhere more "
        f"than {off} off. All numbers are reckoned with the whole piece."
    )


def extents(view: dict[str, Any]) -> Iterator[dict[str, str]]:
    """Tell size, volume and mass of every part, for the table beside the picture.

    Parameters
    ----------
    view : dict
        From `scene_part`.

    Yields
    ------
    dict
        Part, size, volume, mass, heights; texts.
    """
    for part in view["parts"]:
        yield {key: part[key] for key in ("words", "size", "volume", "mass", "heights")}
