"""How sure a plan is: chances, what matters most, and the plans that were not taken."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_part import Part


class PourChance(Part):
    """One pour of the plan, over all that is not known exactly."""

    number: int
    over_limit: float = Field(description="share of such pours whose peak goes over the limit")
    one_in: int | None = Field(description="about 1 in so many goes over; null where fewer than 1 in 1000")
    peak_kept_degC: float = Field(description="peak that is kept at the plan's probability")
    misses_bond: float = Field(
        description="share of such pours whose bond window nobody is there for: wash and sand"
    )
    cliff: bool = Field(description="near run-away: a little more speed is a far higher peak")
    text: str


class Doubtful(Part):
    """One input that is not known exactly."""

    name: str
    words: str
    unit: str
    value: float
    value_p10: float
    value_p90: float
    kind: str = Field(description="published, from memory, common practice, measured here, or fitted")


class Share(Part):
    """How much of an answer's spread one input brings about."""

    name: str
    words: str
    first: float = Field(description="alone, as a share of the variance")
    total: float = Field(description="with all its interplay, as a share of the variance")


class Ranking(Part):
    """What matters most for one answer, the most important input first."""

    answer: str = Field(description="key of the answer")
    words: str
    unit: str
    value: float
    value_p10: float
    value_p90: float
    held_out_error: float = Field(description="nine of ten held-out runs are reproduced within this")
    shares: list[Share]


class Compared(Part):
    """One number of pours that was looked at."""

    pours: int
    chosen: bool = False
    levels_m: list[float] = Field(default_factory=list)
    days: float | None = Field(
        description="from the first pour until it is likely hard and somebody is there; null where never"
    )
    over_limit: float | None = Field(description="share of such castings that go over the limit in any pour")
    constraint: str | None = Field(default=None, description="what failed; null where all limits are kept")
    amount: float | None = Field(default=None, description="by how much, in unit")
    unit: str | None = None
    text: str


class WhatIf(Part):
    """One change and what it would do to the plan."""

    change: str
    pours: int | None = Field(description="null where no plan keeps the limits then")
    days: float | None
    text: str


class Chances(Part):
    """How the bands and chances of this plan were reckoned."""

    probability: float = Field(description="limits are kept at least with this probability")
    members: int = Field(description="draws that bands and chances are counted over")
    runs: int = Field(description="heat runs behind them")
    held_out: int = Field(description="runs kept apart to test the emulator; 0 where every draw was run")
    method: str
    seed: int
    resin: str = Field(description="where the doubts about the resin come from")
    doubts: list[Doubtful]
    pours: list[PourChance]
    soft_when_opened: float = Field(description="share of castings not hard enough at the planned demolding")
    rankings: list[Ranking]
    compared: list[Compared] = Field(default_factory=list)
    notes: list[str] = Field(default_factory=list)
