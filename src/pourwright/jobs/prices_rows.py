"""Rows of a price list: what is bought, and what an hour is worth."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import model_validator

from pourwright.foundation.quantities import Dimension
from pourwright.jobs.fields import Colour, Count, Day, Mass, Refused, Share, Title
from pourwright.jobs.keys import Section, key
from pourwright.jobs.prices_fields import AnyPrice, FreightPrice, Money
from pourwright.jobs.prices_sections import Work

_BY_MASS = (Dimension.MONEY_PER_MASS, Dimension.MONEY_PER_VOLUME)
_PIECE = (Dimension.MONEY_PER_PIECE,)
OF: dict[str, tuple[Dimension, ...]] = {
    "resin": _BY_MASS,
    "glass": _BY_MASS,
    "mineral": (Dimension.MONEY_PER_MASS,),
    "bottle": _PIECE,
    "insert": _PIECE,
    "core": _PIECE,
    "rubber": _BY_MASS,
    "board": (Dimension.MONEY_PER_PIECE, Dimension.MONEY_PER_AREA),
    "master": _PIECE,
    "release": _PIECE,
    "consumables": _PIECE,
    "packing": _PIECE,
    "energy": (Dimension.MONEY_PER_ENERGY,),
    "hour": (Dimension.MONEY_PER_TIME,),
}
"""What can be priced, and by what."""
NAMED: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("resin", "mineral", "rubber", "board", "insert", "core"), ("id",)),
    "glass": ("grade", "colour"),
    "bottle": ("colour",),
    "hour": ("step",),
}
"""Keys that tell one of several apart."""
FINISHING = ("sanding", "polishing", "satin", "other")
"""Steps that have no time of their own under [work]."""
_EXAMPLE = {
    Dimension.MONEY_PER_PIECE: "/piece",
    Dimension.MONEY_PER_TIME: "/h",
    Dimension.MONEY_PER_AREA: "/m2",
}
_EXAMPLE |= {
    Dimension.MONEY_PER_MASS: "/kg",
    Dimension.MONEY_PER_VOLUME: "/l",
    Dimension.MONEY_PER_ENERGY: "/kWh",
}


class PriceRow(Section):
    """What one thing costs, and since when."""

    of: Literal[
        "resin", "mineral", "glass", "bottle", "insert", "core", "rubber", "board", "master", "release",
        "consumables", "packing", "energy", "hour",
    ] = key(
        "what is priced; master: of one mold, release and consumables: of one casting, packing: of one piece"
    )  # fmt: skip
    id: str | None = key(
        "id of the resin, mineral, rubber or board, name of the insert, where there are several", shown="any"
    )
    grade: str | None = key("grade of the glass", shown="any")
    colour: Colour | None = key("colour of glass or bottles", shown="any")
    step: str | None = key("of an hour: the step it is for", shown="all others")
    price: AnyPrice = key("as it was paid or offered")
    date: Day | None = key("when it was paid or offered", shown="that of the file")
    note: Title | None = key("where it is from", shown="none")

    @model_validator(mode="after")
    def _by_the_right_thing(self) -> Self:
        allowed = OF[self.of]
        if self.price.dimension not in allowed:
            units = ", ".join(f"{self.price.currency}{_EXAMPLE[each]}" for each in allowed)
            raise Refused(f"{self.of} priced by the {self.price.unit}", units, "mend the unit", "price")
        return self

    @model_validator(mode="after")
    def _named_by_its_own(self) -> Self:
        own = NAMED.get(self.of, ())
        for name in ("id", "grade", "colour", "step"):
            if getattr(self, name) is not None and name not in own:
                allowed = ", ".join(own) or f"one price of {self.of}"
                raise Refused(f"{name} does not go with {self.of}", allowed, "take the line out", name)
        steps = (*Work.model_fields, *FINISHING)
        if self.step is not None and self.step not in steps:
            raise Refused(f"no step {self.step!r} is known", ", ".join(steps), "name one of these", "step")
        return self


class Item(Section):
    """Something that goes with a piece, a casting or a mold: feet, screws, a label, a sieve."""

    name: Title = key("what it is")
    price: AnyPrice = key("of one")
    count: Count = key("how many of it", default=1)
    each: Literal["piece", "casting", "mold"] = key("for what", default="piece", why="feet and fixings")
    date: Day | None = key("when it was paid or offered", shown="that of the file")
    note: Title | None = key("where it is from", shown="none")

    @model_validator(mode="after")
    def _by_the_piece(self) -> Self:
        if self.price.dimension is not Dimension.MONEY_PER_PIECE:
            raise Refused(
                f"{self.name} priced by the {self.price.unit}",
                f"{self.price.currency}/piece",
                "mend it",
                "price",
            )
        return self


class Freight(Section):
    """What it costs to send a piece up to some weight."""

    up_to: Mass | None = key("heaviest parcel at this price, packing in it", shown="any weight")
    price: FreightPrice = key("of the parcel, or of a kilogram of it")
    date: Day | None = key("when it was paid or offered", shown="that of the file")


class Tool(Section):
    """A tool that has to bring back its price."""

    name: Title = key("what it is")
    price: Money = key("paid for it")
    years: float = key("that it lasts", gt=0)
    interest: Share = key("of a year, that the money would bring elsewhere", default=0.0, why="none")
    date: Day | None = key("when it was bought", shown="that of the file")
