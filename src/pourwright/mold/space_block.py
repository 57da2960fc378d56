"""One space block."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Wall = Literal["left", "right", "front", "back", "base"]
Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class SpaceBlock:
    """A cuboid of wood in the box, in the pour frame: z = 0 at the cavity's floor, x and y centred.

    Parameters
    ----------
    lower, upper : tuple of float
        Its corners [m].
    wall : str
        The panel that it is screwed to: left (low x), right, front (low y), back, or the base board.
    layers : int
        Boards of the stock that it is glued up from.
    """

    lower: Point
    upper: Point
    wall: Wall
    layers: int = 1

    @property
    def size(self) -> Point:
        """Along x, y, z [m]."""
        x, y, z = (high - low for low, high in zip(self.lower, self.upper, strict=True))
        return (x, y, z)

    @property
    def volume(self) -> float:
        """[m3]."""
        x, y, z = self.size
        return x * y * z
