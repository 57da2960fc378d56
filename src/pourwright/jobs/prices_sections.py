"""Tables of a price list: how a piece is finished, what fails, how it is sold."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import model_validator

from pourwright.costing.defaults import COSTING
from pourwright.jobs.fields import Refused, Share
from pourwright.jobs.keys import Section, key
from pourwright.jobs.prices_fields import Energy, Money, PartShare, WorkTime


class MoldLife(Section):
    """How long a mold lasts."""

    casts: int | None = key(
        "castings it gives", shown="as pourwright mold says", why="about 30 under epoxy, from memory", ge=1
    )


class Scrap(Section):
    """What fails."""

    rate: PartShare | None = key(
        "share of castings that give no good piece, below 1",
        shown="what the shop's book has learnt, else 0.10",
    )
    found: Literal["demold", "finished"] = key(
        "when it shows: finishing is lost too where it shows last",
        default="demold",
        why="most faults show there",
    )


class Seconds(Section):
    """Pieces with a flaw that are sold cheaper."""

    share: Share = key("of the good pieces")
    off: PartShare = key("taken off their price, below 1")


class RunOf(Section):
    """How many are made."""

    pieces: int | None = key("good pieces wanted of this mold", shown="as many as the mold gives", ge=1)
    per_month: float | None = key("pieces sold in a month", shown="none: no months are told", gt=0)
    learning: float = key(
        "hours of the 2n-th piece over those of the n-th", default=1.0, ge=0.5, le=1,
        why="no practice; 0.9 is common for work by hand",
    )  # fmt: skip
    begins: int = key(
        "which piece of its kind the first one is", default=1, ge=1, why="its hours are the plan's"
    )


class Overhead(Section):
    """Rent, insurance, heating: what is paid whether a piece is made or not."""

    hour: Money | None = key("for each hour worked", shown="or month")
    month: Money | None = key("in a month", shown="or hour")
    hours: float | None = key("worked in a month, with month", shown="required with month or a tool", gt=0)

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if (self.hour is None) == (self.month is None):
            came = "nothing" if self.hour is None else "both hour and month"
            raise Refused(f"overhead with {came}", "hour, or month with hours", "keep one of the two")
        if self.month is not None and self.hours is None:
            raise Refused(
                "overhead of a month without its hours", "hours = 120", "write the hours worked in a month"
            )
        return self


class EnergyUsed(Section):
    """Energy beside the shop's heating."""

    casting: Energy | None = key("for each casting: warm box, vacuum pump", shown="none: a gap")


Surface = Literal["raw", "satin", "polished"]


class Finish(Section):
    """How a good piece is finished; times are for a square metre of it."""

    surface: Surface = key(
        "how it ends", default="satin", why="hides small scratches, the least work that sells"
    )
    of: dict[str, Surface] = key("of single variants of a job, by their names", factory=dict)
    grits: list[int] | None = key("grits one after another", shown="80 to 400, polished 80 to 3000")
    sanding: WorkTime | None = key(
        "for a square metre with one grit", room=COSTING["sanding"], shown="30 min"
    )
    change: WorkTime | None = key("for each grit and finish besides", room=COSTING["change"], shown="3 min")
    polishing: WorkTime | None = key("for a square metre", room=COSTING["polishing"], shown="1 h")
    satin: WorkTime | None = key("for a square metre", room=COSTING["satin"], shown="30 min")

    def surface_of(self, variant: str) -> Surface:
        """How a variant ends."""
        return self.of.get(variant, self.surface)


class Work(Section):
    """Your own time for a step, in place of the plan's or the usual one."""

    make_mold: WorkTime | None = key(
        "box, space blocks, seams, turning over, cutting open", shown="pourwright mold's"
    )
    coat_master: WorkTime | None = key("seal, test patch, release", shown="the plan's")
    pour_rubber: WorkTime | None = key("once for a mold", shown="the plan's")
    take_master_out: WorkTime | None = key("once for a mold", shown="the plan's")
    crush: WorkTime | None = key("bottles soaked, crushed and sieved, for a casting", shown="the plan's")
    wash: WorkTime | None = key("glass washed, for a casting", shown="the plan's")
    lay: WorkTime | None = key("glass laid in, for a casting", shown="the plan's")
    check: WorkTime | None = key("list gone through before A meets B, for a casting", shown="the plan's")
    pour: WorkTime | None = key("all pours of a casting", shown="the plan's")
    look: WorkTime | None = key("looked after, touched, for a casting", shown="the plan's")
    sand_between: WorkTime | None = key("tops sanded between pours, for a casting", shown="the plan's")
    demold: WorkTime | None = key("for a casting", shown="the plan's")
    close_mold: WorkTime | None = key("cleaned and closed again, for a casting", shown="pourwright mold's")
    fixings: WorkTime | None = key("feet and fixings put on", room=COSTING["fixings"], shown="15 min")
    photos: WorkTime | None = key("for a piece", room=COSTING["photos"], shown="30 min")
    packing: WorkTime | None = key("for a piece", room=COSTING["packing"], shown="30 min")


class Fees(Section):
    """What a market place or a card takes of a sale to the buyer."""

    share: Share = key("of what the buyer pays, tax in it", default=0.0, why="none")
    fixed: Money | None = key("for each sale", shown="none")


class Tax(Section):
    """VAT or sales tax."""

    kind: Literal["VAT", "sales tax"] = key("VAT is in the price that is shown, sales tax comes on top of it")
    rate: Share = key("of the net price")


class Sell(Section):
    """What is wanted of a price."""

    margin: PartShare | None = key("profit as a share of the price, below 1", shown="or markup")
    markup: float | None = key("profit as a share of the cost", shown="or margin", ge=0)
    retail: float = key(
        "a dealer's price over what he pays", default=2.0, ge=1, why="common practice: doubled"
    )
    gallery: PartShare | None = key("share of the net price that a gallery keeps", shown="none")
    point_step: Money | None = key("prices are set in such steps", shown="none")
    point_less: Money | None = key("and so much below a step, as 1 EUR for 489", shown="nothing")
    asked: Money | None = key("a price you think of, as it is shown", shown="none")

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if (self.margin is None) == (self.markup is None):
            came = "neither margin nor markup" if self.margin is None else "both margin and markup"
            raise Refused(f"a price with {came}", "margin, or markup", "keep one of the two")
        if self.point_step is not None and self.point_step.amount <= 0:
            raise Refused("price points 0 apart", "above 0", "mend it", "point_step")
        return self
