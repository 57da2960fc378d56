"""Caught air in the words of somebody who stands before the mold."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.heights import in_both
from pourwright.app.molding.air_phrases import after, aside_words, degree_words, low_panel, many
from pourwright.app.molding.look import MoldLook
from pourwright.app.shaping.way_words import written_up
from pourwright.foundation.notation import format_length, format_patch, format_volume
from pourwright.geometry import direction_name
from pourwright.geometry.mesh import Floats
from pourwright.mold.air.ceilings import Ceiling
from pourwright.mold.air.cure import Cure
from pourwright.mold.air.design import LiquidAir
from pourwright.mold.air.places import Place
from pourwright.mold.air.tilt import Tilt
from pourwright.mold.air.vents import Vent
from pourwright.mold.way_out.places import side_words

HELD = {
    "casting": "open face up",
    "hung": "master hung, open face up",
    "screwed": "master screwed down, open face down",
}
OTHER = {"hung": "screwed", "screwed": "hung"}


class AirTeller:
    """Says what air a liquid catches and what is done about it.

    Parameters
    ----------
    look : MoldLook
        The mold.
    air : LiquidAir
        Of one liquid.
    """

    def __init__(self, look: MoldLook, air: LiquidAir) -> None:
        self.look, self.air, self.system = look, air, look.system

    @property
    def liquid(self) -> str:
        """What rises."""
        return "casting" if self.air.which == "casting" else "rubber"

    def summary(self) -> str:
        """What is caught, in one sentence."""
        caught = self.air.caught
        ceilings = [cure for cure in self.air.cures if isinstance(cure.place, Ceiling)]
        parts = [self._count(len(caught.places), caught.volume)] if caught.places else []
        if ceilings:
            area = format_patch(sum(cure.place.area for cure in ceilings), self.system)
            one = len(ceilings) == 1
            told = f"of {area} keeps" if one else f", {area} together, keep"
            parts.append(f"{many(len(ceilings), 'level ceiling')}{' ' * one}{told} bubbles")
        text = "; ".join(parts) or "no air is caught"
        if caught.small and caught.small_volume > 0.1 * caught.least:
            small = format_volume(caught.small_volume, self.system)
            text += f" ({many(caught.small, 'small place')} not told, {small} together)"
        return text

    def _count(self, count: int, volume: float) -> str:
        return f"{format_volume(volume, self.system)} of air in {many(count, 'place')}"

    def where(self, point: Floats) -> str:
        """Where a point lies: height first, then aside of the middle."""
        return f"{self.height(point)}, {aside_words(float(point[0]), float(point[1]), self._length)}"

    def height(self, point: Floats) -> str:
        """Height of a point as this liquid is poured, and as the piece stands."""
        x, y, z = (float(value) for value in point)
        as_cast = in_both(self.look.piece.frame, max(z, 0.0), self.system, (x, y, z))
        if self.air.which == "casting":
            return f"{as_cast} up"
        return f"{self._length(self.above_floor(z))} over the box's floor, {as_cast} up as cast"

    def above_floor(self, z: float) -> float:
        """Height [m] over the box's floor while the rubber is poured, of a height as cast [m]."""
        if self.air.which == "hung":
            return z - float(self.air.rising.mesh.bounds[0, 2]) + self.look.mold.base
        return float(self.air.rising.mesh.bounds[1, 2]) - z

    def todo(self, cure: Cure) -> str:
        """What is done about one place."""
        if cure.take == "tilt" and cure.tilt is not None:
            return after(self._unless_turned(cure), self._tilt(cure.tilt))
        if cure.take == "other way":
            return self._other_way()
        if cure.take == "vent":
            return " ".join(self._vent(vent) for vent in cure.vents[:1]) + self._more(cure)
        return self._none(cure)

    def _unless_turned(self, cure: Cure) -> str:
        """A level ceiling is another one once the pour is turned over for a place that catches air."""
        turned = any(each.take == "other way" for each in self.air.cures)
        return "If it stays this way up: " if turned and isinstance(cure.place, Ceiling) else ""

    def _tilt(self, tilt: Tilt) -> str:
        side = side_words(tilt.side)
        angle, chock = degree_words(tilt.angle), self._length(tilt.chock)
        if self.air.which == "hung":
            return (
                f"Let the master down aslant, {side} {chock} higher ({angle}), and level it once this place "
                "is under the rubber."
            )
        assert tilt.until is not None
        if self.air.which == "screwed":
            return (
                f"Chock the box up by {chock} under {side} ({angle}) until the rubber stands "
                f"{self._length(tilt.until)} up {low_panel(tilt)}; then take the chock out and pour on."
            )
        level = in_both(self.look.piece.frame, tilt.until, self.system)
        return (
            f"Chock the mold up by {chock} under {side} ({angle}) until as much is in it as fills the level "
            f"mold to {level}; then take the chock out, before it gels, and pour on."
        )

    def _other_way(self) -> str:
        if self.air.which == "casting":
            up = self.look.piece.frame.matrix[2, :3]
            name = direction_name(-up)
            return (
                f"Cast it the other way up (shape.up = {written_up(name)}): no air is caught so. Another "
                "face is the open one then: `pourwright shape` weighs the ways up."
            )
        other = OTHER[self.air.which]
        return f'Hold the master the other way (mold.method = "{other}"): no air is caught so.'

    def _vent(self, vent: Vent) -> str:
        bore, length = format_length(vent.bore, self.system), self._length(vent.length)
        at = self.where(vent.foot)
        if self.air.which != "casting":
            out = (
                "It comes out in a face that shows: press this hollow full of rubber by hand instead, before "
                "the pour, where that can be done."
                if vent.ends_inside
                else "It comes out in the open face."
            )
            return (
                f"Drill a hole of {bore} up through the master from its highest point, {at}, {length} long. "
                f"{out} The rubber in it is a thread: cut it off when the master comes out."
            )
        pin = format_volume(vent.volume, self.system)
        end = (
            "It ends in the piece again: saw the pin off at both ends."
            if vent.ends_inside
            else f"What rises in it ({pin}) is a pin: break it off and sand the spot."
        )
        return (
            f"Stand a rod of {bore} on the master, {at}, {length} long, before the rubber is poured, and "
            f"draw it out of the cured rubber: that is the vent. {end}"
        )

    def _more(self, cure: Cure) -> str:
        if len(cure.vents) < 2:
            return ""
        return f" {many(len(cure.vents) - 1, 'more vent')} from the other highs of this place."

    def _none(self, cure: Cure) -> str:
        if isinstance(cure.place, Ceiling):
            return (
                "No one tilt lets all bubbles out here: rock the mold each way and tap it while it fills, or "
                "give the ceiling a slope."
            )
        return (
            "No tilt, no vent and no other way lets it out: give the shape a slope here, or cast it in two."
        )

    def warnings(self) -> Iterator[str]:
        """Air that nothing lets out."""
        for cure in self.air.cures:
            if cure.take == "none" and isinstance(cure.place, Place):
                volume = format_volume(cure.place.volume, self.system)
                at = self.where(cure.place.top)
                yield f"The {self.liquid} keeps {volume} of air, {at}. {self._none(cure)}"

    def cautions(self) -> Iterator[str]:
        """Air that wants something done."""
        if self.air.caught.places or any(cure.take == "none" for cure in self.air.cures):
            yield f"Trapped air in the {self.liquid}: {self.summary()}. See what lets it out at each place."

    def _length(self, metres: float) -> str:
        return format_length(metres, self.system)
