"""A thing without a file in the job file: measured with a tape, or by the water it displaces."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.jobs.fields import Length, Refused, Temperature, Water, WaterReading
from pourwright.jobs.keys import Section, key

LONGEST, LONGEST_WORDS = 12.0, "above 0, up to 12 m"
COARSEST = 0.05
SLIMMEST_OVAL, FLATTEST_OVAL = 2.04, 20.3
"""Girth over width of ovals ten times as wide as deep, and ten times as deep as wide."""
_LENGTHS = ("girth", "diameter", "width", "depth", "corner")
_TOGETHER = ("girth", "diameter", "girth and width", "width and depth", "width, depth and corner", "closes")


class Reading(Section):
    """What was read at one height."""

    height: Length = key("where, from the table up")
    girth: Length | None = key("around it with the tape: a circle, or with a width an ellipse", shown="none")
    diameter: Length | None = key("across a round section", shown="none")
    width: Length | None = key("across, along x", shown="none")
    depth: Length | None = key("across, along y: with a width an ellipse", shown="none")
    corner: Length | None = key(
        "radius of the corners: with width and depth a rectangle, 0 mm for sharp corners", shown="none"
    )
    closes: Literal["flat", "dome", "point"] | None = key(
        "in the first or last reading, instead of a size: goes on straight and ends flat, or closes",
        shown="none",
        why="no tape lies around an edge",
    )

    @model_validator(mode="after")
    def _one_section(self) -> Self:
        given = [name for name in _LENGTHS if getattr(self, name) is not None]
        given += ["closes"] * (self.closes is not None)
        came = ", ".join(given) or "nothing"
        known = {frozenset(each.replace(" and ", ", ").split(", ")) for each in _TOGETHER}
        if frozenset(given) not in known:
            allowed = "; ".join(_TOGETHER)
            raise Refused(f"the reading at {self.height.text} has {came}", allowed, "keep one of these")
        self._refuse_sizes([name for name in given if name != "closes"])
        return self

    def _refuse_sizes(self, given: list[str]) -> None:
        for name in given:
            length: Quantity = getattr(self, name)
            least = 0.0 if name == "corner" else 1e-4
            if not least <= length.si <= LONGEST:
                raise Refused(f"a {name} of {length.text}", LONGEST_WORDS, "mend its number or unit", name)
        self._refuse_corner()
        if self.girth is not None and self.width is not None:
            self._refuse_no_ellipse(self.girth, self.width)

    def _refuse_corner(self) -> None:
        if self.corner is None or self.width is None or self.depth is None:
            return
        most = min(self.width, self.depth, key=lambda side: side.si)
        if self.corner.si > most.si / 2 * (1 + 1e-9):
            raise Refused(
                f"a corner of {self.corner.text} does not fit a side of {most.text}",
                "up to half of the shorter side", "leave corner out for an ellipse", "corner",
            )  # fmt: skip

    def _refuse_no_ellipse(self, girth: Quantity, width: Quantity) -> None:
        ratio = girth.si / width.si
        if not SLIMMEST_OVAL <= ratio <= FLATTEST_OVAL:
            raise Refused(
                f"no oval {width.text} wide has a girth of {girth.text}: it is {ratio:.2g} times the width",
                "a girth of 2.1 to 20 times the width", "measure both again", "girth",
            )  # fmt: skip


class Measured(Section):
    """A thing measured with a tape, by height."""

    at: Annotated[list[Reading], Field(min_length=2)] = key("readings, from the bottom up")
    reading: Length | None = key(
        "how well the tape was read: as far as two people lie apart", shown="2 mm", why="common practice"
    )

    @model_validator(mode="after")
    def _upward(self) -> Self:
        for number, (low, high) in enumerate(zip(self.at[:-1], self.at[1:], strict=True), 2):
            if high.height.si - low.height.si < 1e-4:
                raise Refused(
                    f"reading {number} at {high.height.text} does not lie above the one before it, "
                    f"at {low.height.text}",
                    "heights that rise", "put the readings in order", "at",
                )  # fmt: skip
        if self.at[0].height.si < 0:
            raise Refused(
                f"a height of {self.at[0].height.text}", "0 or more", "count from the table up", "at"
            )
        inner = [number for number, each in enumerate(self.at, 1) if each.closes]
        if set(inner) - {1, len(self.at)} or len(inner) == len(self.at):
            raise Refused(
                f"reading {inner[-1]} closes the body", "the first or the last, with a section between",
                "give it a girth", "at",
            )  # fmt: skip
        if self.at[-1].height.si - self.at[0].height.si > LONGEST:
            raise Refused("a height of more than 12 m", LONGEST_WORDS, "mend its number or unit", "at")
        if self.reading is not None and not 0 < self.reading.si <= COARSEST:
            raise Refused(
                f"readings good to {self.reading.text}", "above 0, up to 50 mm", "mend the value", "reading"
            )
        return self


class Displaced(Section):
    """A thing measured by the water it displaces: with its outer sizes, or beside the readings of a tape."""

    size: Annotated[list[Length], Field(min_length=3, max_length=3)] | None = key(
        "width, depth and height outside",
        shown="needed, but beside [shape.measured]",
        why="the tape gives the form, the water the volume",
    )
    form: Literal["rounded", "domed", "standing"] | None = key(
        "rounded all over; domed on a flat base; or standing, with a flat base and a flat top",
        shown="needed, but beside [shape.measured]",
    )
    water: Water | None = key("mass or volume of the water it displaces", shown="none")
    rise: Length | None = key("or how far the water rises in a tub with straight sides", shown="none")
    tub: Annotated[list[Length], Field(min_length=2, max_length=2)] | None = key(
        "inside length and width of that tub", shown="none"
    )
    tub_diameter: Length | None = key("or its inside diameter", shown="none")
    water_temperature: Temperature | None = key(
        "of water that was weighed", shown="20 degC", why="10 degC more or less change it by 0.2 %"
    )
    reading: WaterReading | None = key(
        "how well it is known: a mass or volume with water, a length with rise",
        shown="1 % and 20 ml or more; 1 mm of a rise",
        why="common practice",
    )

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        ways = [name for name in ("water", "rise") if getattr(self, name) is not None]
        if len(ways) != 1:
            came = " and ".join(ways) or "nothing"
            raise Refused(f"the water is told by {came}", "water, or rise", "keep exactly one")
        self._refuse_tub()
        self._refuse_amounts()
        return self

    def _refuse_tub(self) -> None:
        tubs = [name for name in ("tub", "tub_diameter") if getattr(self, name) is not None]
        if self.rise is None and tubs:
            raise Refused(f"{tubs[0]} belongs to a rise", todo="leave it out", key=tubs[0])
        if self.rise is not None and len(tubs) != 1:
            allowed = "tub for a rectangular one, or tub_diameter"
            raise Refused("a rise needs the inside sizes of the tub", allowed, "give one of them", "rise")

    def _refuse_amounts(self) -> None:
        single = [("rise", self.rise), ("tub_diameter", self.tub_diameter)]
        sides = [("size", side) for side in self.size or []] + [("tub", side) for side in self.tub or []]
        for name, length in (*single, *sides):
            if length is not None and not 1e-4 <= length.si <= LONGEST:
                raise Refused(f"a {name} of {length.text}", LONGEST_WORDS, "mend its number or unit", name)
        if self.water is not None and self.water.si <= 0:
            raise Refused(f"{self.water.text} of water", "above 0", "mend the value", "water")
        if not 273.15 <= self.warmth <= 373.15:
            raise Refused(
                f"water at {self.warmth - 273.15:.4g} degC", "0 to 100 degC", "mend it", "water_temperature"
            )
        if self.reading is not None:
            self._refuse_reading(self.reading)

    def _refuse_reading(self, reading: Quantity) -> None:
        length = reading.dimension is Dimension.LENGTH
        if length != (self.rise is not None) or reading.si <= 0:
            allowed = "a length, as 1 mm" if self.rise is not None else "a mass or volume, as 50 g"
            raise Refused(f"a reading good to {reading.text}", allowed, "mend the value", "reading")

    @property
    def warmth(self) -> float:
        """Of the water [K]."""
        return 293.15 if self.water_temperature is None else self.water_temperature.si
