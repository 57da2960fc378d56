"""Which size the shape of a job has, what is sanded off, and what the shop measured of its shrinkage."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, Self

from pydantic import PlainValidator, WithJsonSchema, model_validator

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.fields import Length, Refused, Temperature
from pourwright.jobs.keys import Section, key

Toward = Literal["+x", "-x", "+y", "-y", "+z", "-z"]
LEAST, MOST = -0.05, 0.10
DEEPEST = 0.05
"""More than this nobody sands off [m]: it is sawn."""


def _shrinkage(value: object) -> float:
    allowed = f"{100 * LEAST:g} % to {100 * MOST:g} %, below 0 where it grows"
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise Refused(f"{value!r} is no shrinkage", allowed, 'write "0.15 %"')
    try:
        share = parse_quantity(value, Dimension.SHARE).si if isinstance(value, str) else float(value)
    except UserError as error:
        raise Refused(error.what, allowed, 'write "0.15 %"') from None
    if not LEAST <= share <= MOST:
        raise Refused(f"a shrinkage of {100 * share:g} %", allowed, 'write "0.15 %" for 0.15 %')
    return share


Shrinkage = Annotated[
    float,
    PlainValidator(_shrinkage),
    WithJsonSchema({"anyOf": [{"type": "number", "minimum": LEAST, "maximum": MOST}, {"type": "string"}]}),
]


class Sizes(Section):
    """From the piece wanted back to the master."""

    shape_is: Literal["master", "piece"] = key(
        "master: the shape is cut as it is; piece: it is the piece wanted, sanded; the master is reckoned",
        default="master", why="a shape that is there already is mostly the master",
    )  # fmt: skip
    sand_open_face: Length | None = key(
        "sanded or planed off the face that is open as poured", shown="nothing"
    )
    sand_sides: Length | None = key("sanded off all other faces, each", shown="nothing")
    sand_floor: Length | None = key("sanded off the faces that look down as poured", shown="nothing")
    sand_toward: dict[Toward, Length] = key(
        "sanded off the faces that look along a direction of the shape, instead; the open face keeps its own",
        factory=dict, shown="none",
    )  # fmt: skip
    rubber_shrinkage: Shrinkage | None = key(
        "mold against master, cold, by length, as the shop measured it", shown="the rubber's own"
    )
    casting_shrinkage: Shrinkage | None = key(
        "casting against cold mold, by length, as the shop measured it; holds the warm rubber already",
        shown="reckoned from the casting material and the glass",
    )  # fmt: skip
    gels_at: Temperature | None = key(
        "of the casting material as it gels or sets",
        shown="a third of the way from the shop to the resin's limit",
        why="it decides how warm the rubber is; a plan's heat run tells it better",
    )  # fmt: skip
    rubber_cures_at: Temperature | None = key(
        "of the rubber as it cures", shown="shop temperature",
        why="rubber that cured warm shrinks as it cools",
    )  # fmt: skip
    in_box: bool = key(
        "whether the mold stands in its box while it is cast into", default=True,
        why="the box keeps warm rubber from growing outward",
    )  # fmt: skip

    @model_validator(mode="after")
    def _depths(self) -> Self:
        for name, depth in self.depths().items():
            if not 0 <= depth.si <= DEEPEST:
                what = f"{depth.text} to sand off"
                raise Refused(what, f"0 to {1000 * DEEPEST:g} mm", "sand less, or saw it off", name)
        return self

    def depths(self) -> Mapping[str, Length]:
        """What is sanded off, by key; without what is not written."""
        mine = {name: getattr(self, name) for name in ("sand_open_face", "sand_sides", "sand_floor")}
        toward = {f"sand_toward.{name}": depth for name, depth in self.sand_toward.items()}
        return {name: depth for name, depth in mine.items() if depth is not None} | toward

    @property
    def sanded(self) -> bool:
        """Whether anything is sanded off."""
        return any(depth.si > 0 for depth in self.depths().values())

    @property
    def cut(self) -> bool:
        """Whether the master is told as a file of its own."""
        return self.shape_is == "piece" or self.sanded
