"""The rubber pour in its own frame: who displaces what at which level.

Frame of the rubber pour: z = 0 on the inside of the box's floor, z up while the rubber is poured.

hung
    The box stands as it will stand for casting. The master hangs from bars across the rim,
    its lowest point ``base`` above the floor, its open face up. Cavity height c is at
    z = base + c. The rubber ends level with the open face, so the face stays bare and becomes
    the mouth. Rubber goes in first, up to the fill mark; then the master is lowered into it.
screwed
    The master stands on the box's floor, open face down, and the rubber goes ``base`` above
    its highest point. Cavity height c is at z = H - c. For casting the box is turned over: the
    floor board comes off the mouth, and the ``base`` of rubber is the mold's floor.
Either way the block is base + H high and holds box area * (base + H) less the piece and the space blocks.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from pourwright.foundation.errors import UserError
from pourwright.geometry.levels import LevelVolume, volume_at_levels
from pourwright.mold.choices import Method
from pourwright.mold.space_block import SpaceBlock

Array = NDArray[np.float64]


@dataclass(frozen=True)
class RubberPour:
    """One rubber pour around one master.

    Parameters
    ----------
    levels : LevelVolume
        V(z) of the piece as cast.
    method : str
        "hung" or "screwed".
    base : float
        Rubber under the piece as cast [m].
    box_area : float
        Inside area of the box [m2].
    blocks : tuple of SpaceBlock
        Wood that stands in the box from the start.
    """

    levels: LevelVolume
    method: Method
    base: float
    box_area: float
    blocks: tuple[SpaceBlock, ...] = ()

    @property
    def master_height(self) -> float:
        """Height of the master [m]."""
        return float(self.levels.top - self.levels.bottom)

    @property
    def level_wanted(self) -> float:
        """Level at which the rubber ends, above the box's floor [m]."""
        return self.base + self.master_height

    @property
    def volume(self) -> float:
        """Rubber that the box takes up to the wanted level [m3]."""
        return float(self.rubber_below(self.level_wanted))

    def immersed(self, level: float | Array) -> Array:
        """Volume of the master below a rubber level.

        Parameters
        ----------
        level : float or array
            Above the box's floor [m].

        Returns
        -------
        array
            Volume [m3].
        """
        height = np.asarray(level, dtype=float)
        if self.method == "hung":
            return self._cavity_below(self.levels.bottom + height - self.base)
        return self.levels.total - self._cavity_below(self.levels.top - height)

    def _cavity_below(self, height: Array) -> Array:
        if height.ndim == 0:
            return np.asarray(self.levels.volume(float(height)))
        return volume_at_levels(self.levels.mesh, height.ravel()).reshape(height.shape)

    def rubber_below(self, level: float | Array) -> Array:
        """Rubber in the box below a level, with the master in [m3]."""
        height = np.asarray(level, dtype=float)
        return np.asarray(self.box_area * height - self.immersed(level) - self.wood_below(height))

    def wood_below(self, level: float | Array) -> Array:
        """Space blocks below a level [m3]."""
        height = np.asarray(level, dtype=float)
        below = np.zeros(height.shape)
        for block in self.blocks:
            bottom, top = self.in_box(block)
            below += block.size[0] * block.size[1] * np.clip(height - bottom, 0.0, top - bottom)
        return below

    def in_box(self, block: SpaceBlock) -> tuple[float, float]:
        """Lower and upper end of a block above the box's floor as the rubber is poured [m]."""
        lower, upper = block.lower[2], block.upper[2]
        if self.method == "hung":
            return self.base + lower, self.base + upper
        return self.master_height - upper, self.master_height - lower

    @property
    def wood(self) -> float:
        """Volume of all space blocks [m3]."""
        return sum(block.volume for block in self.blocks)

    def level_after(self, volume: float) -> float:
        """Level that a volume of rubber reaches with the master in.

        Parameters
        ----------
        volume : float
            Rubber in the box [m3].

        Returns
        -------
        float
            Level above the box's floor [m]; may lie above the master.

        Raises
        ------
        UserError
            For a negative volume.
        """
        if volume < 0:
            raise UserError(f"a rubber volume of {volume:g} m3", allowed="0 or more")
        if volume == 0:
            return 0.0
        # above a drowned master this is the level itself, so it must not lose its sign to round-off
        highest = (volume + self.levels.total + self.wood) / self.box_area * (1.0 + 1e-9)
        return float(brentq(lambda z: float(self.rubber_below(z)) - volume, 0.0, highest, xtol=1e-14))

    def level_in_empty(self, volume: float) -> float:
        """Level that a volume of rubber [m3] reaches before a hung master goes in [m]."""
        if not self.blocks or volume == 0:
            return volume / self.box_area
        highest = (volume + self.wood) / self.box_area * (1.0 + 1e-9)

        def missing(level: float) -> float:
            return self.box_area * level - float(self.wood_below(level)) - volume

        return float(brentq(missing, 0.0, highest, xtol=1e-14))

    def fill_mark(self) -> float | None:
        """Level to pour to in the empty box before a hung master is lowered into the rubber.

        Returns
        -------
        float or None
            Where the rubber stands with the space blocks only [m]; None where the master stands in the box
            from the start.
        """
        return self.level_in_empty(self.volume) if self.method == "hung" else None

    @property
    def drowned_level(self) -> float:
        """Level at which the master is just wholly below the rubber [m]."""
        return self.level_wanted if self.method == "hung" else self.master_height

    def ledges(self) -> Array:
        """Levels of the master's horizontal faces, where its section jumps [m]."""
        heights = self.levels.ledges - self.levels.bottom
        return np.sort(self.base + heights if self.method == "hung" else self.master_height - heights)
