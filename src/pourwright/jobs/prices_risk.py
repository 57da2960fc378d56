"""Table of a price list: how far a month may be off what is planned."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import Field, model_validator

from pourwright.costing.risk.defaults import RISK
from pourwright.jobs.fields import Refused, Share
from pourwright.jobs.keys import Section, key
from pourwright.jobs.prices_fields import PartShare, WorkTime

Spread = Annotated[list[Share], Field(min_length=2, max_length=2)]
BandOfShares = Annotated[list[PartShare], Field(min_length=2, max_length=2)]


def _spread(meaning: str, name: str) -> Any:
    usual = RISK[name]
    less, more = (round(100 * abs((end or 1.0) - 1.0)) for end in (usual.low, usual.high))
    return key(meaning, room=usual, shown=f'["{less} %", "{more} %"]')


class Risk(Section):
    """How far a month may be off; a spread is how much less and how much more, ["0 %", "0 %"] for none."""

    law: Literal["triangular", "PERT"] = key(
        "between least, likeliest and most", default="triangular", why="no more is known than three numbers"
    )
    scrap: BandOfShares | None = key(
        "share of castings that fail, at least and at most",
        shown="what the book has learnt, else from a third of the likely share to two and a half times",
    )
    leaks: Share | None = key(
        "of castings begun, leaks among those that fail", room=RISK["leaks"], shown="2 %"
    )
    leak_resin: Share | None = key(
        "more resin lost by a leak, of what a casting takes", room=RISK["leak_resin"], shown="30 %"
    )
    leak_work: WorkTime | None = key("cleaning up after a leak", room=RISK["leak_work"], shown="2 h")
    demand: Spread | None = _spread("orders of a month, fewer and more than per_month", "demand")
    hours: Spread | None = _spread("of work, fewer and more", "hours")
    resin: Spread | None = _spread("price of resin or powder, cheaper and dearer", "resin")
    rubber: Spread | None = _spread("price of rubber", "rubber")
    bought: Spread | None = _spread("prices of all else that is bought", "bought")
    used: Spread | None = _spread("resin and glass that a casting takes", "used")
    paid: Spread | None = _spread("what a buyer pays, of your price", "paid")
    most: float | None = key(
        "castings that can be begun in a month", shown="what one mold and one person give", gt=0
    )
    one_by_one: bool = key(
        "orders and failures come one by one, by chance",
        default=True,
        why="with few pieces a month that is most of the risk; false counts averages",
    )

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.scrap is not None and self.scrap[0] > self.scrap[1]:
            raise Refused("at least is more than at most", '["3 %", "25 %"]', "change them over", "scrap")
        return self
