"""The facts of a resin: what its data sheet states, and the cup tests that were made of it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Literal, Self

from pydantic import Field, PlainValidator, PrivateAttr, WithJsonSchema, model_validator

from pourwright.jobs.fields import (
    Density,
    Duration,
    Length,
    Mass,
    Refused,
    Share,
    Temperature,
    Title,
    Viscosity,
)
from pourwright.jobs.job import nearest_line, place_of
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.keys import Section, key

_USUAL = "23 °C"
_CUP = "as wide as the resin is deep, of plastic"
Parts = Annotated[list[Annotated[float, Field(gt=0, le=1000)]], Field(min_length=2, max_length=2)]
Wall = Literal["plastic", "paper", "glass", "metal", "foam"]


def _id(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"[a-z][a-z0-9-]{1,40}", value):
        raise Refused(
            f"{value!r} is no id", "small letters, digits and hyphens, as in river-resin", "rename it"
        )
    return value


Id = Annotated[str, PlainValidator(_id), WithJsonSchema({"type": "string"})]


class _Fact(Section):
    """What every fact may say beside its value."""

    room: Temperature | None = key("of air and fresh mix in the test", shown=_USUAL)
    sure: Share | None = key(
        "how sure the value is, as a share (one standard deviation)", shown="the usual one of its kind"
    )


class _InCup(_Fact):
    """A fact that a mass in a cup shows."""

    mass: Mass | None = key("of the mix in the cup", shown="the usual test's")
    wall: Wall = key("what the cup is of", default="plastic", why="mixing cups are")


class PotLife(_InCup):
    """How long a mass may be poured."""

    time: Duration = key("as stated")


class GelTime(_InCup):
    """When a mass gels."""

    time: Duration = key("as stated")


class TackFree(_Fact):
    """When a coat no longer sticks."""

    time: Duration = key("as stated")


class Demold(_Fact):
    """When a casting may leave its mold."""

    time: Duration = key("as stated")
    thickness: Length | None = key("of the casting", shown="25 mm")


class Peak(_InCup):
    """How hot a mass gets."""

    temperature: Temperature = key("as stated")


class Depth(_Fact):
    """How deep one pour may be."""

    depth: Length = key("as stated")
    width: Length | None = key("of the casting, where the sheet limits it", shown="wide")
    mass: Mass | None = key("of one pour, where the sheet limits it", shown="no limit")
    limit: Temperature | None = key("which it must not get hotter than", shown="65 °C")


class GlassTransition(_Fact):
    """Glass transition, Tg."""

    temperature: Temperature = key("as stated")
    after: Duration | None = key("cured so long in the room", shown="fully cured with heat")


class HeatDeflection(_Fact):
    """Heat-deflection temperature, HDT."""

    temperature: Temperature = key("as stated")
    method: Literal["ISO 75 A", "ISO 75 B", "ISO 75 C", "ASTM D648 high", "ASTM D648 low"] = key(
        "of the test", default="ISO 75 A", why="what most sheets print"
    )
    after: Duration | None = key("cured so long in the room", shown="fully cured with heat")


class Mixing(Section):
    """Ratio, densities and viscosity, as the sheet prints them."""

    parts_by_weight: Parts | None = key("parts of A and B", shown="from the volumes, or the family's")
    parts_by_volume: Parts | None = key("parts of A and B", shown="none")
    density: Density | None = key("of the mix", shown="from its parts, or the family's")
    density_a: Density | None = key("of part A", shown="the family's")
    density_b: Density | None = key("of part B", shown="the family's")
    viscosity: Viscosity | None = key("of the mix at 25 °C", shown="the family's")

    @model_validator(mode="after")
    def _weighable(self) -> Self:
        if self.parts_by_volume and not self.parts_by_weight and not (self.density_a and self.density_b):
            raise Refused(
                "parts by volume alone: what they weigh is not known",
                "parts_by_weight, or density_a and density_b beside it",
                "weigh a measured cup of A and of B, and write their densities",
            )
        return self


class Cup(Section):
    """A cup of mixed resin with a thermometer in it."""

    file: str = key("of the logger, beside this file")
    mass: Mass = key("of the mixed resin in the cup")
    diameter: Length | None = key("inside, mean of top and bottom", shown="as wide as deep", why="guessed")
    wall: Wall = key("what the cup is of", default="plastic", why="mixing cups are")
    unit: Literal["degC", "degF"] | None = key(
        "of the file's numbers, where its title does not say it", shown="the title's", why="never guessed"
    )
    room: Temperature | None = key(
        "of the air, where the file has no column for it", shown="the first reading"
    )
    start: Temperature | None = key("of the fresh mix", shown="the first reading")
    mixed: Duration | None = key("from first contact of A and B to the first row", shown="5 min")
    probe: Share = key(
        "height of the sensor, as a share of the depth", default=0.5, why="the middle is hottest"
    )
    until: Duration | None = key("last row to use, since the first", shown="all rows")
    dates: Literal["day first", "month first"] | None = key(
        "how the file writes dates, where it can be read both ways",
        shown="found out",
        why="asked, not guessed",
    )


class Facts(Section):
    """The facts of one resin."""

    format: Literal[1] = key("number of the format of this file")
    id: Id = key("of the record that is written")
    name: Title = key("of the resin, on paper")
    family: str = key("generic resin that is nearest: its hardener decides what is taken for granted")
    source: Title = key("where the facts are from, in words", default="data sheet")
    units: Literal["metric", "us"] = key("of everything printed", default="metric", why="most tape measures")
    invented: bool = key("true in examples whose data are made up", default=False)
    mix: Mixing = key("ratio, densities, viscosity", factory=Mixing)
    pot_life: list[PotLife] = key("pot lives", factory=list, shown="none")
    gel_time: list[GelTime] = key("gel times", factory=list, shown="none")
    tack_free: list[TackFree] = key("tack-free times", factory=list, shown="none")
    demold: list[Demold] = key("times to demold", factory=list, shown="none")
    peak: list[Peak] = key("peak temperatures", factory=list, shown="none")
    depth: list[Depth] = key("greatest depths", factory=list, shown="none")
    glass_transition: list[GlassTransition] = key("glass transitions", factory=list, shown="none")
    heat_deflection: list[HeatDeflection] = key("heat-deflection temperatures", factory=list, shown="none")
    cup: list[Cup] = key("cup tests", factory=list, shown="none")

    _path: Path = PrivateAttr(default=Path("facts.toml"))
    _lines: Mapping[KeyPath, int] = PrivateAttr(default_factory=dict)

    @model_validator(mode="after")
    def _something(self) -> Self:
        if not any(getattr(self, name) for name in (*FACTS, "cup")):
            raise Refused("there is nothing to fit", f"one of {', '.join((*FACTS, 'cup'))}", "add a fact")
        return self

    @property
    def path(self) -> Path:
        """The file it was read from."""
        return self._path

    def where(self, path: KeyPath) -> str:
        """Say where a key stands, for an error."""
        return place_of(self._path, self._lines, path)

    def line(self, path: KeyPath) -> int:
        """Line of a key, or of the table around it."""
        return nearest_line(self._lines, path) or 1


FACTS = (
    "pot_life",
    "gel_time",
    "tack_free",
    "demold",
    "peak",
    "depth",
    "glass_transition",
    "heat_deflection",
)
