"""The leak document: what is left in the mold, whether it still runs, what saves the piece.

Units stand in the keys, as in the plan document. Moments are ISO 8601 with offset. Heights are
measured up from the mold's floor as poured; a ``_p10`` or ``_p90`` holds one end of a band of
four in five.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan import Batch, JobInfo, SourceUsed
from pourwright.jobs.plan_part import Part

SCHEMA: Literal["pourwright-leak/1.0"] = "pourwright-leak/1.0"
Way = Literal["nothing", "now", "bond", "sand", "glass out"]


class LeakEvidence(Part):
    """One thing that was weighed, read or found."""

    kind: Literal["poured", "level", "at most", "caught"]
    at: str | None = None
    level_m: float | None = None
    mass_kg: float | None = None
    says_out_kg: float | None = Field(default=None, description="mass that has run out by this alone")
    doubt_kg: float | None = Field(default=None, description="standard deviation of that")
    weight: float | None = Field(default=None, description="its share in the answer")
    words: str


class LeakClash(Part):
    """Two evidences that do not go together."""

    kind: str
    standard_deviations: float
    words: str


class LeakMass(Part):
    """Where what was poured is now; in the mold and run out together are what was poured."""

    poured_kg: float
    in_mold_kg: float
    in_mold_kg_p10: float
    in_mold_kg_p90: float
    in_mold_m3: float
    out_kg: float
    out_kg_p10: float
    out_kg_p90: float
    out_m3: float
    planned_kg: float = Field(description="into the mold, by the plan")


class LeakLevel(Part):
    """A level in all its readings."""

    level_m: float
    level_m_p10: float
    level_m_p90: float
    standing_m: float
    dip_m: float = Field(description="from the rim down")


class LeakRunning(Part):
    """Whether it still runs."""

    state: Literal["runs", "stopped", "cannot tell", "gelled"]
    fell_m: float | None
    noise_m: float | None
    between_h: float | None
    rate_kg_h: float = Field(description="what runs out now, were it running")
    look_again: str | None = Field(description="when a second reading would tell")
    words: str


class LeakAtGel(Part):
    """The pour when it gels."""

    at: str
    level: LeakLevel
    out_kg: float
    if_stopped_m: float


class LeakWindow(Part):
    """When a top-up may go on, and how."""

    way: Way
    begins: str
    ends: str | None
    open_at: str | None = Field(description="first moment of it at which somebody is there; null if none")
    words: str


class LeakTopUp(Part):
    """What is mixed to fill the pour up again."""

    way: Way
    level_m: float = Field(description="where the level stands when it goes on")
    up_to_m: float
    missing_kg: float
    missing_kg_p10: float
    missing_kg_p90: float
    mix_kg: float
    part_a_kg: float
    part_b_kg: float
    batches: list[Batch]
    windows: list[LeakWindow]
    words: str


class LeakHeat(Part):
    """How hot the pour gets with its top-up."""

    kind: Literal["bound", "run"]
    peak_degC: float | None
    limit_degC: float
    cured_enough_after_h: float | None = Field(default=None, description="from the start of the top-up")
    words: str


class LeakDocument(Part):
    """The whole answer."""

    schema_: Literal["pourwright-leak/1.0"] = Field(default=SCHEMA, alias="schema")
    version: str
    computed_for: str
    plan: str = Field(description="mark of the plan")
    plan_is_of_today: bool = Field(description="whether the job still says what the plan was made of")
    job: JobInfo
    pour: int
    begun: str
    from_m: float
    to_m: float
    evidence: list[LeakEvidence]
    clashes: list[LeakClash]
    mass: LeakMass
    level_now: LeakLevel
    running: LeakRunning
    at_gel: LeakAtGel
    top_up: LeakTopUp
    bands: list[str] = Field(description="what it does to the bands and to the bond")
    heat: LeakHeat
    words: list[str] = Field(description="the answer in a few lines")
    warnings: list[str]
    sources: list[SourceUsed]
