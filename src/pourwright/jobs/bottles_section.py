"""The table of the job file about bottles: what is collected, how it is crushed, sieved and dried."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import model_validator

from pourwright.fill.bottles.defaults import BOTTLES
from pourwright.jobs.fields import Colour, Count, Duration, Mass, Opening, Refused, Share, Title
from pourwright.jobs.keys import Section, key


class BottleKind(Section):
    """One kind of bottle that is collected."""

    name: Title = key("what it is called")
    colour: Colour | None = key("of its glass, as the bands name it", shown="any colour")
    mass: Mass = key("of one, empty and without cap")
    have: Count = key("how many are there already", default=0)


class Sieving(Section):
    """What stayed on one sieve."""

    sieve: Opening = key("its name or its opening")
    stayed: Mass | None = key("glass that stayed on it", shown="or share")
    share: Share | None = key("of all the glass that stayed on it", shown="or stayed")

    @model_validator(mode="after")
    def _one_of_them(self) -> Self:
        if (self.stayed is None) == (self.share is None):
            came = "nothing weighed" if self.stayed is None else "both stayed and share"
            raise Refused(f"a sieve with {came}", "stayed, or share", "keep one of the two")
        return self


class Bottles(Section):
    """Where the glass comes from."""

    mass: Mass | None = key(
        "of one empty bottle", shown="the glass record's, about 450 g", why="weigh your own"
    )
    kind: list[BottleKind] = key(
        "kinds of bottles that are collected", factory=list, shown="none",
        why="then every colour of a band must be among them or in bought",
    )  # fmt: skip
    bought: list[Colour] = key(
        "colours that are bought crushed and graded", factory=list, shown="none",
        why="no bottles are counted for them",
    )  # fmt: skip
    crush_yield: dict[str, Share] = key(
        "share of a crushed bottle that ends in each grade", factory=dict, alias="yield",
        shown="the grades' own", why="weigh your own",
    )  # fmt: skip
    sieving: list[Sieving] = key(
        "what stayed on two sieves or more, instead of yield", factory=list, shown="none",
        why="a published law of sizes tells the yield of every grade from it",
    )  # fmt: skip
    crushed: Mass | None = key("glass that was put on the top sieve", shown="what the sieves and pan hold")
    pan: Mass | None = key("that fell through all sieves", shown="what is missing to crushed")
    label_time: Duration | None = key(
        "labels and glue off, for one bottle", room=BOTTLES["label"], shown="1 min"
    )
    crushing_time: Duration | None = key("for a kilogram of bottles", room=BOTTLES["crushing"], shown="3 min")
    sieving_time: Duration | None = key("for a kilogram of bottles", room=BOTTLES["sieving"], shown="2 min")
    washing_time: Duration | None = key(
        "for a kilogram of the glass that is wanted", room=BOTTLES["washing"], shown="2 min"
    )
    drying_time: Duration | None = key("work for a kilogram of it", room=BOTTLES["drying"], shown="1 min")
    dried: Literal["room", "warm air", "oven"] = key(
        "how the trays are dried", default="room", why="needs nothing but time; weighing a tray decides"
    )
    dries_in: Duration | None = key(
        "until a tray keeps its weight", shown="24 h, 6 h or 2 h by the way it is dried", why="time your own"
    )

    @model_validator(mode="after")
    def _one_way_to_know(self) -> Self:
        if self.sieving and self.crush_yield:
            raise Refused("both yield and sieving", "one of the two", "keep what you trust more", "yield")
        in_shares = [each.share is not None for each in self.sieving]
        if any(in_shares) and not all(in_shares):
            raise Refused("masses and shares mixed", "all stayed, or all share", "keep to one", "sieving")
        for name in ("crushed", "pan"):
            if getattr(self, name) is not None and (not self.sieving or any(in_shares)):
                raise Refused(f"{name} without masses on sieves", "sieving with stayed", "take it out", name)
        return self

    @property
    def told(self) -> bool:
        """Whether anything is said about bottles, so that their work is planned too."""
        return bool(self.model_fields_set)
