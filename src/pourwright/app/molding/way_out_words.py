"""The way out in the words of somebody who stands before the mold."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

import numpy as np

from pourwright.app.heights import in_both
from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.way_out_numbers import OutNumbers
from pourwright.app.shaping.thin import Spot, Thin
from pourwright.foundation.notation import format_margin, format_share, format_volume
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.way_out.result import WayOut

POINT = 0.02
"""Share of the piece's width below which what stands on the mold's floor is a point."""


class OutTeller(OutNumbers):
    """Says what was decided about the way out.

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

    def reason(self) -> str:
        """Why the rubber is opened so."""
        return {
            "straight": self._straight,
            "stretch": self._stretch,
            "one cut": self._one_cut,
            "two cuts": self._two_cuts,
            "two parts": self._two_parts,
        }[self.out.opening]()

    def warnings(self) -> Iterator[str]:
        """What loses the mold or the piece."""
        for tongue in self.out.tongues:
            if tongue.margin < WAY_OUT["margin"].value:
                part = tongue.part
                name = "hole" if part.pin else "slot"
                assert part.stands is not None
                yield (
                    f"Rubber tears off in {self._count(tongue.count, name)} "
                    f"{self._fine(part.thickness)} wide and {self._length(part.stands)} deep, "
                    f"{self._at(part.place)}: it bears {tongue.margin:.1f} times the pull, not "
                    f"{WAY_OUT['margin'].value:g}. Widen it, or fill it in the master and saw it afterwards."
                )
        if self.out.opening == "two parts":
            yield f"One block does not let the piece out: {self.reason()}"

    def cautions(self, thin: Thin) -> Iterator[str]:
        """What wants care on the way out."""
        yield from self._loose()
        yield from self._narrow(thin.spaces)
        for knife in thin.knives[:3]:
            yield (
                f"An edge of {degrees(knife.line.angle):.0f} degrees, "
                f"{self._at(knife.line.place)}, breaks off "
                f"as the rubber is pulled from it: peel away from the edge, or round it by "
                f"{self._fine(knife.proposed)} in the master."
            )
        if self._on_a_point():
            yield (
                "The piece ends in a point at the mold's floor: it cannot be set down as it "
                "comes out. Have a "
                "ring or a bed of sand ready, and keep the point off the bench."
            )

    def _straight(self) -> str:
        drafts = self.out.drafts
        lean = "nothing of the piece leans back over the rubber"
        if drafts.upright > 0.5:
            lean += ", but its walls are upright: they slide all the way, loosen them first"
        return f"It comes straight out of the mouth: {lean}{self._with_plugs()}."

    def _with_plugs(self) -> str:
        if not self.out.plugs:
            return ""
        volume = sum(plug.volume for plug in self.out.plugs)
        return f"; the {format_volume(volume, self.system)} of rubber in its hollow comes out with it"

    def _lies_over(self) -> str:
        first = self.out.held[0]
        volume = sum(region.volume for region in self.out.held)
        places = "" if len(self.out.held) == 1 else f" in {len(self.out.held)} places"
        return (
            f"{format_volume(volume, self.system)} of rubber lies in front of the "
            f"piece{places} and reaches in "
            f"by up to {self._length(first.depth)}"
        )

    def _stretch(self) -> str:
        pull = self.out.pull
        assert pull.margin is not None
        return (
            f"{self._lies_over()}; it lengthens by {format_share(pull.strain)} to let the piece out "
            f"with {self._pull(pull.force)}, and breaks at {format_margin(pull.margin)} that."
        )

    def _why_not_whole(self) -> str:
        pull = self.out.pull
        if pull.margin is None:
            return f"{self._lies_over()}, and no neck of it could stretch over the piece"
        if pull.margin < WAY_OUT["margin"].value:
            return (
                f"{self._lies_over()}; uncut it would lengthen by {format_share(pull.strain)}, "
                f"and it breaks at "
                f"{format_share(self.out.soft.elongation)}"
            )
        return (
            f"{self._lies_over()}; uncut it would bear the {format_share(pull.strain)} that it lengthens by, "
            f"but that takes {self._pull(pull.force)}, without what it rubs"
        )

    def _one_cut(self) -> str:
        hinge = self.out.hinge
        assert hinge is not None
        return (
            f"{self._why_not_whole()}. Cut on one side it opens like a book with "
            f"{self._pull(hinge.force)}, and "
            f"lengthens by {format_share(hinge.strain)} where it bends."
        )

    def _two_cuts(self) -> str:
        hinge = self.out.hinge
        assert hinge is not None
        return (
            f"{self._why_not_whole()}. Opened like a book from one cut it would take "
            f"{self._pull(self.out.book.force)}, more than one person gives: it is thick where it bends. "
            f"Cut on two sides, its halves lean outward with {self._pull(hinge.force)}."
        )

    def _two_parts(self) -> str:
        if self.out.holes:
            count = "A hole goes" if self.out.holes == 1 else f"{self.out.holes} holes go"
            return f"{count} right through the piece, and the rubber in it closes to a ring round the piece."
        return f"{self._why_not_whole()}, and neither one cut nor two open it by hand."

    def _loose(self) -> Iterator[str]:
        for plug in self.out.plugs:
            yield (
                f"The {format_volume(plug.volume, self.system)} of rubber in the hollow of the piece hang "
                "together with no other rubber, and a master screwed down on its mouth shuts them out: hang "
                "the master, fix this rubber to a board over the mouth, and give the board marks or pegs "
                "that put it back to its place at every cast."
            )

    def _narrow(self, spaces: tuple[Spot, ...]) -> Iterator[str]:
        for spot in spaces:
            if spot.part.stands is None:
                name = "hole" if spot.part.pin else "slot"
                yield (
                    f"Rubber only {self._fine(spot.part.thickness)} thick in "
                    f"{self._count(spot.count, name)}, "
                    f"{self._at(spot.part.place)}: it may tear, draw it out last and slowly."
                )

    def _on_a_point(self) -> bool:
        mesh = self.look.piece.mesh
        widest = float(max(np.ptp(mesh.bounds, axis=0)[:2]))
        foot = mesh.vertices[mesh.vertices[:, 2] < 0.01 * mesh.bounds[1, 2]]
        return bool(np.ptp(foot[:, :2], axis=0).max() < 2 * POINT * widest)

    def _count(self, count: int, name: str) -> str:
        return f"a {name}" if count == 1 else f"{count} {name}s"

    def _at(self, place: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> str:
        x, y, z = (float(value) for value in place)
        return f"{in_both(self.look.piece.frame, z, self.system, (x, y, z))} up"
