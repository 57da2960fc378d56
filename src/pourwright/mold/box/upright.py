"""One upright panel of an open box, and the liquid against it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.plates import BentPlate, Edges, bent_plate

Array = NDArray[np.float64]
OPEN_TOP: Edges = ("supported", "supported", "supported", "free")
ALL_ROUND: Edges = ("supported", "supported", "supported", "supported")


@dataclass(frozen=True, kw_only=True)
class Upright:
    """One upright panel: width and height between its supports, height of the liquid [m], its density."""

    name: str
    width: float
    height: float
    wet: float
    density: float

    @property
    def foot(self) -> float:
        """Pressure at the foot [Pa]."""
        return self.density * STANDARD_GRAVITY * self.wet

    def pressure(self, height: float | Array) -> Array:
        """Pressure at a height above the foot [Pa]."""
        return np.asarray(self.density * STANDARD_GRAVITY * np.maximum(self.wet - height, 0.0))

    def bent(self, stiffness: float) -> BentPlate:
        """The panel bent, three edges held and the rim free; ``stiffness`` of the board [N m]."""
        level = min(self.wet / self.height, 1.0)
        return bent_plate(self.width, self.height, stiffness, OPEN_TOP, self.foot, level=level)

    def field(self, width: float, low: float, high: float, stiffness: float) -> BentPlate:
        """A field of the panel that is held all round, so wide, from a height up to a height [m]."""
        tall = high - low
        level = min(max(self.wet - low, 0.0) / tall, 1.0)
        above = float(self.pressure(high)) if level == 1.0 else 0.0
        return bent_plate(width, tall, stiffness, ALL_ROUND, float(self.pressure(low)), above, level)
