"""Bodies written in the job file: turned, drawn up from an outline, or simple, and parts joined of them."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, Field, GetJsonSchemaHandler, model_validator
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema

from pourwright.foundation.quantities import Quantity
from pourwright.jobs.fields import Angle, Length, Refused
from pourwright.jobs.keys import Section, key

OUTLINE_FILES = (".dxf", ".svg")
FORMS = ("box", "cone", "sphere", "torus", "profile", "outline")
"""Keys that write a body down."""
Unit = Literal["mm", "cm", "m", "in", "ft"]
LARGEST = 20.0
"""Farthest that anything of a piece may reach [m]."""


def _within_reach(value: Quantity) -> Quantity:
    if abs(value.si) > LARGEST:
        raise Refused(f"{value.text!r} is too much", f"up to {LARGEST:g} m", "mend the value or its unit")
    return value


def _above_zero(value: Quantity) -> Quantity:
    if value.si <= 0:
        raise Refused(f"{value.text!r} is no size", "above 0", "mend the value")
    return _within_reach(value)


Size = Annotated[Length, AfterValidator(_above_zero)]
Along = Annotated[Length, AfterValidator(_within_reach)]
Sizes = Annotated[list[Size], Field(min_length=3, max_length=3)]
Place = Annotated[list[Along], Field(min_length=3, max_length=3)]
Pair = Annotated[list[Along], Field(min_length=2, max_length=2)]


class Cone(Section):
    """A cone or cylinder, upright."""

    bottom_diameter: Along = key("diameter at the bottom, in the frame of the shape")
    top_diameter: Along = key("diameter at the top")
    height: Along = key("height")


class Sphere(Section):
    """A ball that stands on the ground."""

    diameter: Size = key("diameter")


class Torus(Section):
    """A ring of round section that lies on the ground."""

    outer_diameter: Size = key("diameter of the whole ring, measured over its outside")
    thickness: Size = key("diameter of its section")

    @model_validator(mode="after")
    def _ring(self) -> Self:
        if 2 * self.thickness.si >= self.outer_diameter.si:
            allowed = "a thickness below half of outer_diameter"
            raise Refused(f"a ring {self.thickness.text} thick has no hole", allowed, "mend one", "thickness")
        return self


class Step(Section):
    """One step of a profile or an outline: `["90 mm", "0 mm"]` for a point, or a table with these keys."""

    to: Pair | None = key("point it leads to", shown="none")
    at: Pair | None = key("the same: where a corner lies that is rounded", shown="none")
    through: Pair | None = key("a point halfway along, where the way there is an arc", shown="straight")
    radius: Size | None = key("radius that the corner there is rounded to", shown="sharp", alias="round")

    @model_validator(mode="before")
    @classmethod
    def _point(cls, value: Any) -> Any:
        return {"to": value} if isinstance(value, list) else value

    @model_validator(mode="after")
    def _one_end(self) -> Self:
        if (self.to is None) == (self.at is None):
            came = "a step leads nowhere" if self.to is None else "a step has two ends"
            todo = 'write for example { through = ["95 mm", "40 mm"], to = ["110 mm", "90 mm"] }'
            raise Refused(came, "to, or at", todo)
        return self

    @classmethod
    def __get_pydantic_json_schema__(
        cls, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """A step may also be written as a bare point."""
        table = handler.resolve_ref_schema(handler(core_schema))
        point = {"type": "array", "items": {"type": "string"}, "minItems": 2, "maxItems": 2}
        return {"title": "Step", "anyOf": [table, point]}

    @property
    def end(self) -> tuple[float, float]:
        """Where it leads [m]."""
        pair = self.to or self.at or []
        return pair[0].si, pair[1].si


Steps = Annotated[list[Step], Field(min_length=2)]


class Hole(Section):
    """A hole through an outline: a round one, or one with an outline of its own."""

    at: Pair | None = key("middle of a round hole", shown="none")
    diameter: Size | None = key("diameter of a round hole", shown="none")
    points: Steps | None = key("outline of any other hole, as in outline.points", shown="none")

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        drilled = self.at is not None and self.diameter is not None
        if drilled == (self.points is not None) or (self.at is None) != (self.diameter is None):
            raise Refused("the hole is not clear", "at and diameter together, or points", "keep one of both")
        return self


class Outline(Section):
    """An outline drawn up to a height, written here or read from a drawing."""

    points: Steps | None = key(
        "x and y, point by point around the piece, back to the first one by itself", shown="none"
    )
    file: str | None = key("drawing beside the job file instead: DXF or SVG", shown="none")
    unit: Unit | None = key(
        "unit of the drawing's numbers, where it does not say it", shown="what the drawing says",
        why="never guessed",
    )  # fmt: skip
    layer: str | None = key("take this layer of a DXF file only", shown="all layers")
    height: Size = key("how high it is drawn up")
    hole: list[Hole] = key("holes right through, beside those of the drawing", factory=list, shown="none")
    round_top: Size | None = key("radius of all edges around the top, those of holes too", shown="sharp")
    round_bottom: Size | None = key("the same around the bottom", shown="sharp")

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if (self.points is None) == (self.file is None):
            came = "no outline" if self.points is None else "an outline given twice"
            raise Refused(came, "points, or file", "keep exactly one")
        if self.file is None:
            for name in ("unit", "layer"):
                if getattr(self, name) is not None:
                    raise Refused(f"{name} belongs to a drawing", todo="leave it out", key=name)
        elif not self.file.lower().endswith(OUTLINE_FILES):
            raise Refused(
                f"file {self.file!r} is no drawing that can be read",
                ", ".join(OUTLINE_FILES),
                "save it as one of these",
                "file",
            )
        elif self.layer is not None and not self.file.lower().endswith(".dxf"):
            raise Refused("only DXF files have layers here", todo="leave layer out", key="layer")
        return self


class Turn(Section):
    """How a part is turned before it is put in its place: about x, then y, then z."""

    x: Angle | None = key("about the x axis, counter-clockwise seen from its tip", shown="0 deg")
    y: Angle | None = key("about the y axis", shown="0 deg")
    z: Angle | None = key("about the z axis", shown="0 deg")


class Forms(Section):
    """What writes a body down; the shape and each of its parts have one."""

    box: Sizes | None = key("x, y and z of a box that stands on the ground, centred", shown="none")
    cone: Cone | None = key("a cone or cylinder", shown="none")
    sphere: Sphere | None = key("a ball", shown="none")
    torus: Torus | None = key("a ring", shown="none")
    profile: Steps | None = key(
        "radius and height of a turned piece, point by point from the bottom up", shown="none"
    )
    outline: Outline | None = key("an outline drawn up to a height", shown="none")
    radius: Size | None = key(
        "radius that all outer edges of the body are rounded to", shown="sharp", alias="round"
    )
    inner_radius: Size | None = key(
        "radius that all inner edges are rounded to", shown="sharp", alias="round_inner"
    )


class Part(Forms):
    """One of several bodies that are joined in their order, or cut out of what is there."""

    file: str | None = key("a mesh file as in shape.file instead of a written body", shown="none")
    unit: Unit | None = key("unit of its numbers, where the file does not say it", shown="none")
    turn: Turn | None = key("turned before it is moved", shown="as it is")
    at: Place | None = key(
        "how far it is moved along x, y and z", shown="0, 0, 0", why="each part has its own frame"
    )
    cut: bool = key("true takes the part away from those before it", default=False)

    @model_validator(mode="after")
    def _one_form(self) -> Self:
        given = [name for name in ("file", *FORMS) if getattr(self, name) is not None]
        if len(given) != 1:
            came = " and ".join(given) or "nothing"
            raise Refused(
                f"a part is given by {came}", f"one of {', '.join(('file', *FORMS))}", "keep exactly one"
            )
        return self

    @property
    def given(self) -> str:
        """The one key that gives the part."""
        return next(name for name in ("file", *FORMS) if getattr(self, name) is not None)
