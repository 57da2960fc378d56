"""Where a space block sits on its panel, as one marks it: from foot and left edge, seen from inside."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.mold.result import MoldResult
from pourwright.mold.space_block import Point, SpaceBlock, Wall

Array = NDArray[np.float64]
PANELS: dict[Wall, str] = {
    "left": "left end",
    "right": "right end",
    "front": "front side",
    "back": "back side",
    "base": "base board",
}
"""What each panel is called in the shop."""
INWARD: dict[Wall, Point] = {
    "left": (1.0, 0.0, 0.0),
    "right": (-1.0, 0.0, 0.0),
    "front": (0.0, 1.0, 0.0),
    "back": (0.0, -1.0, 0.0),
}


@dataclass(frozen=True, slots=True)
class PanelFace:
    """One panel seen from inside the box, as the box stands while the rubber is poured.

    Parameters
    ----------
    wall : str
        Which.
    corner : tuple of float
        Its lower left corner as it is seen, lap and all, in the frame of the pour [m].
    right, up : tuple of float
        Directions in that frame, of length 1.
    width, height : float
        Of the panel [m].
    lap : float
        From its left and right edge to the inside of the box [m].
    """

    wall: Wall
    corner: Point
    right: Point
    up: Point
    width: float
    height: float
    lap: float

    @property
    def name(self) -> str:
        """As in the shop."""
        return PANELS[self.wall]


@dataclass(frozen=True, slots=True)
class Mark:
    """A block on its panel.

    Parameters
    ----------
    left, foot : float
        From the panel's left edge and from its foot to the block [m].
    size : tuple of float
        Of the block along the panel, up it, off it [m].
    """

    left: float
    foot: float
    size: Point


def panel_face(mold: MoldResult, wall: Wall) -> PanelFace:
    """Look at a panel from inside.

    Parameters
    ----------
    mold : MoldResult
        With its box.
    wall : str
        Which panel; "base" is the board that the box stands on while the rubber is poured.

    Returns
    -------
    PanelFace
        The base board as seen from above, the back side up.

    Notes
    -----
    A screwed master's box stands on its mouth: up is down in the frame of the pour. Sides lap the ends.
    """
    lap = mold.choices.thickness
    up, inward = _directions(wall, turned=mold.method == "screwed")
    right = np.cross(-inward, up)
    aside = 0.0 if wall in ("left", "right") else lap
    below = lap if wall == "base" else 0.0
    corner = (
        right * (_least(mold, right) - aside)
        + up * (_least(mold, up) - below)
        + inward * _least(mold, inward)
    )
    wide = -2 * _least(mold, right) + 2 * aside
    high = -2 * _least(mold, up) + 2 * below if wall == "base" else mold.inside[2] + mold.choices.freeboard
    return PanelFace(wall, _point(corner), _point(right), _point(up), wide, high, aside)


def _directions(wall: Wall, *, turned: bool) -> tuple[Array, Array]:
    """Up and inward as the box stands while the rubber is poured."""
    upward = np.array([0.0, 0.0, -1.0 if turned else 1.0])
    if wall == "base":
        return np.array([0.0, 1.0, 0.0]), upward
    return upward, np.array(INWARD[wall])


def _least(mold: MoldResult, along: Array) -> float:
    """How far the inside of the box begins along a direction [m]."""
    x, y, z = mold.inside
    low, high = np.array([-x / 2, -y / 2, -mold.base]), np.array([x / 2, y / 2, z - mold.base])
    return float(np.minimum(low * along, high * along).sum())


def mark_of(block: SpaceBlock, face: PanelFace) -> Mark:
    """Measure a block on its panel.

    Parameters
    ----------
    block : SpaceBlock
        Screwed to it.
    face : PanelFace
        The panel from inside.

    Returns
    -------
    Mark
    """
    ends = np.array([block.lower, block.upper]) - np.array(face.corner)
    right, up = np.array(face.right), np.array(face.up)
    across, high = ends @ right, ends @ up
    off = np.abs(np.diff(ends, axis=0)[0]) @ np.abs(np.cross(right, up))
    size = (float(np.ptp(across)), float(np.ptp(high)), float(off))
    return Mark(float(across.min()), float(high.min()), size)


def _point(place: Array) -> Point:
    x, y, z = (float(each) + 0.0 for each in place)
    return (x, y, z)
