"""Thin parts, corners and edges in the words of somebody with a caliper."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.app.shaping.thin import Corner, Edge, Spot
from pourwright.app.shaping.thin_defaults import THIN
from pourwright.foundation.notation import UnitSystem, format_coordinate, format_fine_length, format_length
from pourwright.geometry import PourFrame, ThinPart

Array = npt.NDArray[np.float64]


@dataclass(frozen=True)
class ThinTeller:
    """Says what was found of one piece.

    Parameters
    ----------
    frame : PourFrame
        From the file to the pour.
    system : UnitSystem
        Of what is printed.
    least : float
        Thinnest rib that is cast [m].
    """

    frame: PourFrame
    system: UnitSystem
    least: float

    def where(self, place: Array) -> str:
        """A place by the numbers of the file, and its height in both readings."""
        x, y, z = (format_coordinate(float(value), self.system) for value in place)
        poured, standing = self.heights(place)
        one, other = self.length(poured), self.length(standing)
        stands = "" if one == other else f", {other} as it stands"
        return f"at x = {x}, y = {y}, z = {z} ({one} above the mold's floor as poured{stands})"

    def heights(self, place: Array) -> tuple[float, float]:
        """Height of a place of the file as poured, and as the piece stands [m]."""
        turned = self.frame.matrix[:3, :3] @ place + self.frame.matrix[:3, 3]
        return float(turned[2]), float(self.frame.standing_height(turned))

    def length(self, value: float) -> str:
        """A length to the millimetre, or in fractions of an inch."""
        return format_length(value, self.system)

    def thick(self, value: float) -> str:
        """A length as a caliper shows it: tenths of a millimetre, or thousandths of an inch."""
        return format_fine_length(value, self.system) if self.system is UnitSystem.US else self.length(value)

    def wall(self, spot: Spot, *, first: bool) -> tuple[str, str]:
        """Level and sentence for a thin part of the piece."""
        part = spot.part
        thick, at = self.thick(part.thickness), self.where(part.place)
        read = self._ray(part)
        if self._slender(part):
            name, high = ("pin", "long") if part.pin else ("fin", "tall")
            size = f"a {name} {thick} thick and {self.length(part.stands or 0)} {high}"
            words = f"thinnest: {size}" if first else size
            text = f"{words} {at}{_more(spot)}: resin in it stays cold and soft, and rubber tears it off"
        elif first:
            text = f"thinnest: {thick}{read} {at}{_more(spot)}"
        else:
            text = f"{thick} thin {at}{_more(spot)}{read}"
        if part.thickness < THIN["no_wall"].value:
            return "stop", f"{text}: resin hardly runs into it"
        if part.thickness < self.least and not self._slender(part):
            return "mind", f"{text}: below {self.thick(self.least)} it stays cold and soft, and breaks"
        return ("mind" if self._slender(part) else "ok"), text

    def _slender(self, part: ThinPart) -> bool:
        return part.thickness <= THIN["told"].value and part.slenderness >= THIN["slender"].value

    def _ray(self, part: ThinPart) -> str:
        """How a drill would read it, where that differs."""
        straight = self.thick(part.ray)
        return "" if part.ray < 1.03 * part.thickness else f" (straight through {straight})"

    def space(self, spot: Spot) -> tuple[str, str]:
        """Level and sentence for a tongue of rubber."""
        part = spot.part
        name, across = ("hole", "across") if part.pin else ("slot", "wide")
        width, at = self.thick(part.thickness), self.where(part.place)
        if part.stands is None or part.slenderness < THIN["rubber_slender"].value:
            least = self.thick(THIN["rubber_wall"].value)
            text = (
                f"a {name} {width} {across} {at}{_more(spot)}: the rubber in it tears; {least} is the least"
            )
            return "mind", text
        deep = self.length(part.stands)
        ratio = THIN["rubber_slender"].value
        wider = self.length(max(part.stands / ratio, THIN["rubber_wall"].value))
        text = (
            f"a {name} {width} {across} and {deep} deep {at}{_more(spot)}: the rubber in it tears; "
            f"widen it to {wider}, or make it {self.length(ratio * part.thickness)} deep at most"
        )
        return "mind", text

    def corner(self, corner: Corner) -> tuple[str, str]:
        """Level and sentence for an inner corner."""
        line, sharp = corner.line, THIN["sharp"].value
        rounded = (
            f"rounded by less than {self.thick(sharp)}"
            if line.radius < sharp
            else f"rounded by {self.thick(line.radius)}"
        )
        least = " or more" if corner.at_least else ""
        text = (
            f"inner corner of {np.degrees(line.angle):.0f} degrees, {self.length(corner.length)} long, "
            f"{rounded}, {self.where(line.place)}: round it to {self.length(corner.proposed)} or more "
            f"(stress x{corner.now:.1f}{least} -> x{corner.then:.1f})"
        )
        return "mind", text

    def knife(self, edge: Edge) -> tuple[str, str]:
        """Level and sentence for a sharp outer edge."""
        angle, long = f"{np.degrees(edge.line.angle):.0f} degrees", self.length(edge.length)
        text = (
            f"outer edge of {angle}, {long} long, {self.where(edge.line.place)}: chips, and no glass "
            f"grain gets into it; rounding it to {self.length(edge.proposed)} takes "
            f"{self.thick(edge.taken)} off"
        )
        return "mind", text

    def square(self, length: float) -> str:
        """What is said of the ordinary sharp outer edges."""
        least = self.length(THIN["least_round"].value)
        return f"other sharp outer edges, {self.length(length)} in all: break them by {least}"

    def point(self, place: Array, angle: float, count: int) -> tuple[str, str]:
        """Level and sentence for points."""
        more = f", the sharpest of {count}," if count > 1 else ""
        least = self.length(THIN["least_round"].value)
        name = f"a point of {np.degrees(angle):.0f} degrees{more}"
        return "mind", f"{name} {self.where(place)}: breaks off; blunt it to {least}"


def _more(spot: Spot) -> str:
    return f" and {spot.count - 1} alike" if spot.count > 1 else ""
