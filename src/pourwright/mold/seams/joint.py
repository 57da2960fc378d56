"""One seam of a mold: who reaches it, where it runs, what closes it."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from pourwright.mold.seams.liquid import Poured
from pourwright.mold.seams.strip import Strip, drive, head_at, mean_head

Kind = Literal["foot", "corners", "bed", "cut", "line", "skin cut", "shell", "rod"]
RUBBER: tuple[Poured, ...] = ("rubber",)
CAST: tuple[Poured, ...] = ("resin", "mineral", "water")


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A seam that a liquid reaches.

    Parameters
    ----------
    kind, name : str
        What it is; as the maker calls it.
    reached_by : tuple of str
        Kinds of liquid.
    strips : tuple of Strip
        Its straight pieces, heights above the floor of that liquid.
    level : float
        How high the liquid stands in the end [m].
    gap : float
        Gap that one expects [m].
    closed_by : str
        What closes it.
    supposed : bool
        Whether it is there only if the maker chooses so.
    """

    kind: Kind
    name: str
    reached_by: tuple[Poured, ...]
    strips: tuple[Strip, ...]
    level: float
    gap: float
    closed_by: str
    supposed: bool = False

    @property
    def length(self) -> float:
        """Of all its pieces [m]."""
        return sum(strip.length for strip in self.strips)

    @property
    def least_path(self) -> float:
        """Shortest way out [m]."""
        return min(strip.path for strip in self.strips)

    @property
    def mean_path(self) -> float:
        """Path of an even joint that would lose as much [m]."""
        depths = sum(strip.length * mean_head(strip, self.level) for strip in self.strips)
        return depths / self.drive() if depths else self.least_path

    def head(self, layer: float = inf) -> float:
        """Most liquid over it anywhere [m]; see `head_at`."""
        return max(head_at(strip.low, self.level, layer) for strip in self.strips)

    def drive(self, layer: float = inf) -> float:
        """Depth over path, summed along it [m]; see `strip.drive`."""
        return drive(self.strips, self.level, layer)
