"""The shape of a piece in the job file: a mesh file, or a body written there."""

from __future__ import annotations

from pathlib import PurePath
from typing import Literal, Self

from pydantic import model_validator

from pourwright.jobs.fields import Length, Refused
from pourwright.jobs.keys import key
from pourwright.jobs.shape_forms import FORMS, Forms, Part
from pourwright.jobs.shape_measured import Displaced, Measured
from pourwright.jobs.up import Up

UNITLESS = (".stl", ".obj", ".ply")
WITH_UNIT = (".3mf", ".glb", ".step", ".stp")
MEASURED = ("measured", "displaced")
WRITTEN = (*FORMS, "part", *MEASURED)
"""Keys that give a body without a file."""


class Shape(Forms):
    """The piece: a mesh file, or a shape written here."""

    file: str | None = key("mesh file beside the job file: STL, OBJ, PLY, 3MF, GLB or STEP", shown="none")
    unit: Literal["mm", "cm", "m", "in", "ft"] | None = key(
        "unit of the numbers in an STL, OBJ or PLY file",
        shown="none",
        why="such files do not say it; never guessed",
    )
    repair: bool = key(
        "whether faults of the file are mended where that needs no guess",
        default=True,
        why="each mending is told with its place; false refuses the file instead",
    )
    body: int | None = key(
        "which of several separate bodies in the file, from 1 for the largest", shown="the only one", ge=1
    )
    remesh: Length | None = key(
        "make the surface of the file anew, so near to the old one",
        shown="not made anew",
        why="for a surface that crosses itself; sharp corners are cut back by as much",
    )
    part: list[Part] | None = key(
        "bodies joined to one, or cut out of it, in their order", shown="none", min_length=1
    )
    measured: Measured | None = key("a thing without a file: girths and sizes by height", shown="none")
    displaced: Displaced | None = key("or the water it displaces, and its outer sizes", shown="none")
    up: Up = key(
        "direction of the shape that points up as poured, or three numbers for one that lies askew",
        default="+z",
        why="z is up in most files",
    )
    open: Literal["top"] = key(
        "where the mold is open", default="top", why="resin finds its own level, so the open face ends flat"
    )

    @model_validator(mode="after")
    def _one_shape(self) -> Self:
        given = [name for name in ("file", *WRITTEN) if getattr(self, name) is not None]
        self._settle_water(given)
        if len(given) != 1:
            came = " and ".join(given) or "nothing"
            allowed = ", ".join(("file", *WRITTEN))
            raise Refused(f"the shape is given by {came}", f"one of {allowed}", "keep exactly one")
        self._refuse_wrong_rounding(given[0])
        if self.file is not None:
            self._refuse_doubtful_unit(PurePath(self.file).suffix.lower())
        elif self.unit is not None:
            raise Refused("unit belongs to a mesh file", todo="leave it out", key="unit")
        self._refuse_mending_without_file()
        return self

    def _refuse_mending_without_file(self) -> None:
        asked = {"repair": not self.repair, "body": self.body is not None, "remesh": self.remesh is not None}
        name = next((name for name, given in asked.items() if given), None)
        if name and self.file is None:
            raise Refused(f"{name} belongs to a mesh file", todo="leave it out", key=name)
        if self.remesh is not None and self.remesh.si <= 0:
            raise Refused("a surface cannot be made anew within 0", "a length above zero", key="remesh")

    def _settle_water(self, given: list[str]) -> None:
        """Water beside a tape gives the volume alone; by itself it needs sizes and a form."""
        if self.displaced is None:
            return
        beside = self.measured is not None
        for name in ("size", "form"):
            if (getattr(self.displaced, name) is not None) != beside:
                continue
            if beside:
                what = f"{name} beside a tape, which gives the form"
                raise Refused(what, todo="leave it out", key="displaced")
            todo = f"add {name}, or [shape.measured]"
            allowed = {"size": "width, depth and height outside", "form": "rounded, domed or standing"}[name]
            raise Refused(f"water without {name}", allowed, todo, "displaced")
        if beside:
            given.remove("displaced")

    def _refuse_wrong_rounding(self, given: str) -> None:
        if given not in (*FORMS, "part") and (self.radius or self.inner_radius):
            name = "round" if self.radius else "round_inner"
            todo = "write the file as a [[shape.part]] to round its edges"
            raise Refused(f"{name} belongs to a body written here", todo=todo, key=name)

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
    def drawings(self) -> list[str]:
        """Drawings and files of parts that the shape is made from, besides `file`."""
        bodies = [self, *(self.part or ())]
        outlines = [body.outline.file for body in bodies if body.outline is not None]
        return [name for name in (*outlines, *(part.file for part in self.part or ())) if name]

    @property
    def given(self) -> str:
        """The one key that gives the shape."""
        return next(name for name in ("file", *WRITTEN) if getattr(self, name) is not None)
