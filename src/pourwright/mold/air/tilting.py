"""The least tilt at which caught air runs out of its place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, cos, inf, pi, radians, sin

import numpy as np

from pourwright.geometry import Pocket, level_volume
from pourwright.geometry.frames import turn_to
from pourwright.geometry.mesh import Floats, Integers
from pourwright.mold.air.defaults import AIR
from pourwright.mold.air.rising import Rising
from pourwright.mold.air.tilt import SIDES, Tilt

CORNERS = (pi / 4, 3 * pi / 4, 5 * pi / 4, 7 * pi / 4)
STEPS = 5
"""Angles that are tried on each side before halving."""
HALVINGS = 6
STEP = radians(1.0)
"""Tilts are told in whole degrees."""
NEAR = 1e-3
"""Whole degrees and limits written to four places differ by less [rad]."""
CLEAR = 1e-4
"""Least height of the edge above the last of the air [m]."""


@dataclass(frozen=True, eq=False)
class Tilting:
    """Tilts of one mold.

    Parameters
    ----------
    rising : Rising
        The liquid.
    least : float
        Air that counts [m3].
    footprint : tuple of float
        What is lifted, along x and y: the box, or a hung master [m].
    inside : tuple of float
        The box along x and y [m].
    """

    rising: Rising
    least: float
    footprint: tuple[float, float]
    inside: tuple[float, float]

    @cached_property
    def _known(self) -> dict[tuple[float, float], tuple[Pocket, ...]]:
        return {}

    def pockets(self, side: float, angle: float) -> tuple[Pocket, ...]:
        """Pockets with one side lifted; each tilt is reckoned once."""
        key = (side, angle)
        if key not in self._known:
            self._known[key] = self.rising.caught(self.rising.tilted(side, angle))
        return self._known[key]

    def left(self, corners: Integers, side: float, angle: float) -> float:
        """Air that stays on some walls.

        Parameters
        ----------
        corners : array (n,)
            Corners of the mesh on those walls.
        side, angle : float
            As in `Tilt` [rad].

        Returns
        -------
        float
            [m3]; infinite where the board would have to let air through, or the liquid would run over first.
        """
        own = np.zeros(len(self.rising.mesh.vertices), dtype=bool)
        own[corners] = True
        touched = [p for p in self.pockets(side, angle) if own[p.vertices].any()]
        if any(self.rising.blocked(pocket) for pocket in touched) or not self._fits(corners, side, angle):
            return inf
        return float(sum(pocket.volume for pocket in touched))

    def _fits(self, corners: Integers, side: float, angle: float) -> bool:
        """Whether the liquid covers a place before it runs over the edge that lies lower now."""
        edge = self.rising.edge
        if not len(edge):
            return True
        up = self.rising.tilted(side, angle)
        return float((edge @ up).min()) >= self._covered(corners, up) + CLEAR

    def _covered(self, corners: Integers, up: Floats) -> float:
        return float((self.rising.mesh.vertices[corners] @ up).max())

    def least_tilt(self, corners: Integers, start: float = 0.0) -> Tilt | None:
        """Find the least tilt, a side lifted before a corner.

        Parameters
        ----------
        corners : array (n,)
            Corners of the mesh on the walls of a place.
        start : float
            Least angle that is asked for [rad].

        Returns
        -------
        Tilt or None
            None where no tilt up to the most one does.
        """
        for ways in (SIDES, CORNERS):
            found = list(self._found(corners, ways, start))
            if found:
                return min(found, key=lambda tilt: (tilt.angle, round(tilt.chock, 4), tilt.side))
        return None

    def same_tilt(self, corners: Integers, tilt: Tilt) -> Tilt | None:
        """Tilt one place as another is tilted already.

        Parameters
        ----------
        corners : array (n,)
            Corners of the mesh on its walls.
        tilt : Tilt
            Of the other.

        Returns
        -------
        Tilt or None
            The same with its own level; None where it slopes too little for bubbles, or keeps air.
        """
        if tilt.angle < AIR["slope"].value:
            return None
        left = self.left(corners, tilt.side, tilt.angle)
        if left >= self.least:
            return None
        until = self._until(corners, tilt.side, tilt.angle)
        return Tilt(tilt.side, tilt.angle, tilt.least, tilt.chock, until, left)

    def _found(self, corners: Integers, ways: Sequence[float], start: float) -> Iterator[Tilt]:
        most = AIR["most_tilt"].value
        steps = [start + (most - start) * n / STEPS for n in range(0 if start else 1, STEPS + 1)]
        for low, high in zip([start, *steps], steps, strict=False):
            sides = [side for side in ways if self.left(corners, side, high) < self.least]
            for side in sides:
                tilt = self._told(corners, side, self._halved(corners, side, low, high))
                if tilt is not None:
                    yield tilt
            if sides:
                return

    def _halved(self, corners: Integers, side: float, low: float, high: float) -> float:
        """Angle from which on no air stays, between one that keeps some and one that does not."""
        if low == high:
            return high
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            if self.left(corners, side, middle) < self.least:
                high = middle
            else:
                low = middle
        return high

    def _told(self, corners: Integers, side: float, least: float) -> Tilt | None:
        """The next whole degree, if no air stays there either; else the angle itself."""
        whole = ceil(round(least / STEP, 3)) * STEP
        for angle in (whole, least):
            left = self.left(corners, side, angle)
            if left < self.least and angle <= AIR["most_tilt"].value + NEAR:
                return Tilt(
                    side, angle, least, self._chock(side, angle), self._until(corners, side, angle), left
                )
        return None

    def _chock(self, side: float, angle: float) -> float:
        """Height under the lifted side, or corner, while the far one stays down."""
        return _reach(self.footprint, side) * 2 * sin(angle)

    def _until(self, corners: Integers, side: float, angle: float) -> float | None:
        rising, up = self.rising, self.rising.tilted(side, angle)
        covered = self._covered(corners, up)
        if rising.which == "screwed":
            reach = _reach(self.inside, side)
            return (covered + reach * sin(angle)) / cos(angle) - rising.board
        if rising.which == "hung":
            return None
        matrix = np.eye(4)
        matrix[:3, :3] = turn_to(up)
        below = level_volume(rising.mesh.transformed(matrix)).volume(covered)
        levels = level_volume(rising.mesh)
        return levels.height(min(float(below), levels.total)) - levels.bottom


def _reach(size: tuple[float, float], side: float) -> float:
    """How far a rectangle reaches from its middle along a direction [m]."""
    x, y = size
    return abs(cos(side)) * x / 2 + abs(sin(side)) * y / 2
