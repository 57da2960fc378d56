"""The shape of a piece in the job file: a mesh file, or a body written there."""

from __future__ import annotations

from pathlib import PurePath
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from pourwright.jobs.fields import Length, Refused
from pourwright.jobs.keys import Section, key

UNITLESS = (".stl", ".obj", ".ply")
WITH_UNIT = (".3mf", ".glb")
WRITTEN = ("box", "cone", "profile")
"""Keys that give a body without a file."""
Three = Annotated[list[Length], Field(min_length=3, max_length=3)]
Pair = Annotated[list[Length], Field(min_length=2, max_length=2)]


class Cone(Section):
    """A cone or cylinder, upright."""

    bottom_diameter: Length = key("diameter at the bottom, in the frame of the shape")
    top_diameter: Length = key("diameter at the top")
    height: Length = key("height")


class Shape(Section):
    """The piece: a mesh file, or a simple shape written here."""

    file: str | None = key("mesh file beside the job file: STL, OBJ, PLY, 3MF or GLB", shown="none")
    unit: Literal["mm", "cm", "m", "in", "ft"] | None = key(
        "unit of the numbers in an STL, OBJ or PLY file",
        shown="none",
        why="such files do not say it; never guessed",
    )
    box: Three | None = key("x, y and z of a box", shown="none")
    cone: Cone | None = key("a cone or cylinder", shown="none")
    profile: list[Pair] | None = key(
        "radius and height of a turned piece, point by point from the bottom up", shown="none"
    )
    up: Literal["+x", "-x", "+y", "-y", "+z", "-z"] = key(
        "direction of the shape that points up as poured", default="+z", why="z is up in most files"
    )
    open: Literal["top"] = key(
        "where the mold is open", default="top", why="resin finds its own level, so the open face ends flat"
    )

    @model_validator(mode="after")
    def _one_shape(self) -> Self:
        given = [name for name in ("file", *WRITTEN) if getattr(self, name) is not None]
        if len(given) != 1:
            came = " and ".join(given) or "nothing"
            allowed = ", ".join(("file", *WRITTEN))
            raise Refused(f"the shape is given by {came}", f"one of {allowed}", "keep exactly one")
        if self.file is not None:
            self._refuse_doubtful_unit(PurePath(self.file).suffix.lower())
        elif self.unit is not None:
            raise Refused("unit belongs to a mesh file", todo="leave it out", key="unit")
        return self

    def _refuse_doubtful_unit(self, suffix: str) -> None:
        if suffix not in UNITLESS + WITH_UNIT:
            raise Refused(
                f"file {self.file!r} is no known kind",
                ", ".join(UNITLESS + WITH_UNIT),
                "export one of these",
                "file",
            )
        if suffix in UNITLESS and self.unit is None:
            raise Refused(
                f"a {suffix} file does not say its unit",
                "mm, cm, m, in, ft",
                'add unit = "mm", or what it is',
                "file",
            )
        if suffix in WITH_UNIT and self.unit is not None:
            raise Refused(f"a {suffix} file carries its own unit", todo="leave unit out", key="unit")

    @property
    def given(self) -> str:
        """The one key that gives the shape."""
        return next(name for name in ("file", *WRITTEN) if getattr(self, name) is not None)
