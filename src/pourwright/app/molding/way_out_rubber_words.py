"""What the rubber does under the casting and round the piece, in plain words."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.heights import in_both
from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.way_out_numbers import OutNumbers
from pourwright.foundation.notation import (
    format_duration,
    format_temperature_difference,
    format_volume,
)
from pourwright.jobs.mold_way_out import ThickRubber
from pourwright.mold.way_out.inlets import Inlet
from pourwright.mold.way_out.places import side_words
from pourwright.mold.way_out.result import WayOut
from pourwright.mold.way_out.warm import WarmPlace

UNSEEN = 0.00005
"""Bulge that nobody measures [m]."""
EVEN = 0.001
"""Thicknesses that differ by less are one [m]."""


class RubberTeller(OutNumbers):
    """Says what the rubber does.

    Parameters
    ----------
    look : MoldLook
        The mold.
    out : WayOut
        What was decided.
    """

    def __init__(self, look: MoldLook, out: WayOut) -> None:
        super().__init__(look.system)
        self.look, self.out = look, out

    def bulge(self, panels: float | None) -> str:
        """How far the cavity's wall moves out in a box, in a shell and without."""
        found = self.out.bulge
        box = "" if panels is None else f"in its box {self._panels(panels + found.in_box)}; "
        alone = (
            f"by more than its own thickness ({self._fine(found.alone)} by the formula)"
            if found.gives_way
            else f"by up to {self._fine(found.alone)} ({self._fine(found.alone_low)} to "
            f"{self._fine(found.alone_high)}), and the piece takes up to "
            f"{format_volume(found.more, self.system)} more"
        )
        text = f"{box}a skin in a shell by its gap, {self._fine(found.in_shell)}; with neither {alone}. "
        return text[0].upper() + text[1:] + "Never fill it without its box."

    def _panels(self, bulge: float) -> str:
        if bulge < UNSEEN:
            return "by nothing that can be measured"
        return f"by {self._fine(bulge)}, all of it the panels'"

    def suction(self) -> str:
        """What holds the piece down, and what lets go of it."""
        found = self.out.suction
        follows = (
            "the rubber under it is too stiff to follow even with its board off"
            if found.floor_follows is None
            else f"with the floor's board off the rubber follows at {self._pull(found.floor_follows)}"
        )
        return (
            f"Up to {self._pull(found.force)} if no air gets under the piece; some "
            f"{format_duration(found.creeps_in)} of steady pull until it creeps in by itself; {follows}."
        )

    def air(self, inlet: Inlet) -> str:
        """Where one place is at which air is let in."""
        return {
            "mouth": "along the rim, all round",
            "cut": f"at the foot of {self._cut()}, {self._up(inlet.place)}",
            "floor": "from below, at the middle of the rubber's floor",
            "core": f"at the top of the rubber inside the piece, {self._up(inlet.place)}",
        }[inlet.kind]

    def _cut(self) -> str:
        return "the cut" if len(self.out.cuts) == 1 else "each cut"

    def thick(self) -> Iterator[ThickRubber]:
        """Where the rubber is thickest, sides that are alike together."""
        groups: dict[tuple[int, int], list[WarmPlace]] = {}
        for place in self.out.warm.places:
            alike = (round(place.thickness / EVEN), round(place.height / self._level()))
            groups.setdefault(alike, []).append(place)
        for group in groups.values():
            first = group[0]
            yield ThickRubber(
                sides=self._sides(group), thick_m=first.thickness, height_m=first.height,
                where=in_both(self.look.piece.frame, first.height, self.system), in_m=first.inward,
                words=self._fine(first.inward),
            )  # fmt: skip

    def warm(self) -> str:
        """How far thick rubber comes in as the casting warms it."""
        found = self.out.warm
        warmer = format_temperature_difference(found.warmer, self.system)
        first = next(self.thick(), None)
        head = f"Warmed by {warmer} all through, at worst, "
        thin = f"{self._length(found.thin)}"
        if first is None or first.thick_m - found.thin < EVEN:
            inward = self._fine(found.thin_in)
            return f"{head}rubber {thin} thick all round comes in by {inward}: nobody sees that."
        thick = f"rubber {self._length(first.thick_m)} thick ({first.sides}, {first.where} up)"
        return (
            f"{head}{thick} comes in by {self._fine(first.in_m)}, where it is {thin} thin "
            f"by {self._fine(found.thin_in)}: {self._mend()}."
        )

    def _mend(self) -> str:
        if not self.out.warm.shows:
            return "nobody sees that"
        mend = "pour in thinner steps if that matters"
        return mend if self.look.mold.blocks else f"space blocks there mend it, or {mend}"

    def _level(self) -> float:
        return max(self.look.piece.size[2] / 20, 1e-6)

    def _sides(self, group: list[WarmPlace]) -> str:
        if len(group) == 4:
            return "on all four sides"
        names = [side_words(place.angle).removeprefix("the ").removesuffix(" side") for place in group]
        return f"{' and '.join(names)}"

    def _up(self, place: tuple[float, float, float]) -> str:
        return f"{in_both(self.look.piece.frame, place[2], self.system, place)} up"
