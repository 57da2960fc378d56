"""Where a cut may lie along each axis, in numbers and in words."""

from __future__ import annotations

from typing import Any

import numpy as np

from pourwright.app.heights import in_both
from pourwright.app.viewing.asked import Asked
from pourwright.app.viewing.bodies import Scene
from pourwright.foundation.notation import format_length

STOPS = 121
"""Places along an axis, the middle of piece and box among them."""
_WAYS = {"x": ("left", "right"), "y": ("in front", "behind")}
_LEVEL = 5e-5


def cuts_part(asked: Asked, scene: Scene) -> dict[str, Any]:
    """List the places of a cut along each axis.

    Parameters
    ----------
    asked : Asked
        The job.
    scene : Scene
        Its bodies.

    Returns
    -------
    dict
        By axis: ``at_m`` and ``text``, from the lowest on; ``first``, the number of the one to begin with.
    """
    low = np.min([body.mesh.bounds[0] for body in scene.bodies], axis=0)
    high = np.max([body.mesh.bounds[1] for body in scene.bodies], axis=0)
    return {axis: _along(asked, axis, low[place], high[place]) for place, axis in enumerate("xyz")}


def _along(asked: Asked, axis: str, low: float, high: float) -> dict[str, Any]:
    at = np.linspace(low, high, STOPS)
    middle = 0.0 if axis in _WAYS else asked.piece.size[2] / 2
    first = int(np.abs(at - middle).argmin())
    if axis in _WAYS:
        at[first] = middle
    texts = [_words(asked, axis, float(place)) for place in at]
    return {"at_m": [float(place) for place in at], "text": texts, "first": first}


def _words(asked: Asked, axis: str, place: float) -> str:
    system = asked.words.system
    if axis == "z":
        below = place < -_LEVEL
        height = format_length(-place, system) if below else in_both(asked.piece.frame, place, system)
        return f"{height} {'below' if below else 'above'} the mold's floor"
    if abs(place) < _LEVEL:
        return "through the middle"
    return f"{format_length(abs(place), system)} {_WAYS[axis][int(place > 0)]} of the middle".replace(
        "behind of", "behind"
    )
