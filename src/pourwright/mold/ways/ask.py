"""What every way is reckoned from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.foundation.notation import format_duration, format_length, format_share
from pourwright.materials.batches import Batch, largest_batch, split_batches, time_to_pour
from pourwright.mold.choices import MoldChoices
from pourwright.mold.result import MoldResult
from pourwright.mold.ways.defaults import LIMITS
from pourwright.mold.ways.facts import Facts
from pourwright.mold.ways.life import Cast


@dataclass(frozen=True, kw_only=True)
class Ask:
    """One piece and the shop's choices.

    Parameters
    ----------
    facts : Facts
        Of the piece.
    choices : MoldChoices
        Rubber, board, tools, units.
    cast : str
        Kind of the casting material.
    skin, skin_volume : float
        Thickness of a skin [m] and its volume around the piece [m3].
    shell, shell_volume : float
        The same of a shell around the skin.
    cuts : int, optional
        That open a block, where that was reckoned from its bending; else by how far it must stretch.
    """

    facts: Facts
    choices: MoldChoices
    cast: Cast
    skin: float
    skin_volume: float
    shell: float
    shell_volume: float
    cuts: int | None = None

    @property
    def bears(self) -> float:
        """How far the rubber may be lengthened in use."""
        return self.choices.rubber.elongation_at_break.value / LIMITS["margin"].value

    @property
    def goes_through(self) -> bool:
        """Whether a hole runs across the pull, so that rubber closes to a ring in it."""
        return self.facts.through > 0 and self.facts.blocked >= LIMITS["free"].value

    def batches(self, mass: float) -> tuple[Batch, ...]:
        """Split a pour [kg] by pail, scale and working time."""
        rubber, tools = self.choices.rubber, self.choices.tools
        largest = largest_batch(rubber.density.value, tools, self.choices.works_for)
        return split_batches(mass, (rubber.parts_a.value, rubber.parts_b.value), largest, tools.scale_step)

    def too_long(self, batches: Sequence[Batch]) -> tuple[str, ...]:
        """Why a pour is too much for one person; empty where it is not."""
        needed, most = time_to_pour(batches), LIMITS["pouring"].value
        if needed <= most:
            return ()
        told = f"{len(batches)} batches in one go take one person {format_duration(needed)}"
        return (f"{told}, more than {format_duration(most)}",)

    def length(self, metres: float) -> str:
        """A length in the maker's units."""
        return format_length(metres, self.choices.units)

    def standing(self) -> tuple[str, ...]:
        """Why the master cannot be screwed down on its open face; empty where it can."""
        least, width = LIMITS["screw_face"].value, self.facts.mouth_width
        if width >= least:
            return ()
        return (f"the open face is {self.length(width)} wide: four screws want {self.length(least)}",)


def panel_area(mold: MoldResult) -> float:
    """Board of a box [m2]."""
    return sum(panel.count * panel.length * panel.width for panel in mold.panels)


def panel_count(mold: MoldResult) -> int:
    """Panels of a box."""
    return sum(panel.count for panel in mold.panels)


def late_words(needed: float, works: float, batches: int) -> str:
    """Say that rubber sets before it is all in the box."""
    return (
        f"{batches} batches take one person {format_duration(needed)}, the rubber works for "
        f"{format_duration(works)}: the master would go down into setting rubber"
    )


def stretch_words(share: float, bears: float) -> str:
    """Say how far rubber has to stretch, against what it bears."""
    return f"lengthen by {format_share(share)} (it bears {format_share(bears)})"
