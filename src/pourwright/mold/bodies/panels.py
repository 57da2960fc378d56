"""The panels of the box, each a body in its place."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from pourwright.geometry import Mesh, box
from pourwright.geometry.drawn.outlines_prism import extruded
from pourwright.mold.bodies.body import Body
from pourwright.mold.result import MoldResult, Panel


def panel_bodies(mold: MoldResult, low: float, high: float) -> tuple[Body, ...]:
    """Put every panel where it is screwed.

    Parameters
    ----------
    mold : MoldResult
        With its panels; the sides lap the ends, both stand on the base.
    low, high : float
        Lower and upper edge of sides and ends, z up as cast [m].

    Returns
    -------
    tuple of Body
        The base of a screwed master lies on the mouth, where it was while the rubber was poured.
    """
    return tuple(body for panel in mold.panels for body in _placed(panel, mold, low, high))


def _placed(panel: Panel, mold: MoldResult, low: float, high: float) -> Iterator[Body]:
    x, y = mold.inside[0] / 2, mold.inside[1] / 2
    t = panel.thickness
    # the upright edges of a screwed box end at its base board, whichever way it lies
    foot = low if mold.method == "hung" else high - panel.width
    flat, end = (box(size) for size in ((panel.length, panel.width, t), (t, panel.length, panel.width)))
    if panel.name == "side":
        inner = mold.choices.joint.side_outline(mold.inside[0], t)
        for place, turn, shift in (("front", 1.0, -y - t / 2), ("back", -1.0, y + t / 2)):
            yield _at(panel, extruded([turn * np.array(inner)], panel.width), place, (0.0, shift, foot))
    elif panel.name == "end":
        yield _at(panel, end, "left", (-x - t / 2, 0.0, foot))
        yield _at(panel, end, "right", (x + t / 2, 0.0, foot))
    elif panel.name == "base" and mold.method == "screwed":
        yield _at(panel, flat, "above", (0.0, 0.0, high))
    elif panel.name in {"base", "floor for casting"}:
        yield _at(panel, flat, "below", (0.0, 0.0, low - t))


def _at(panel: Panel, mesh: Mesh, place: str, shift: tuple[float, float, float]) -> Body:
    return Body("panel", panel.name, mesh.moved(shift), place)
