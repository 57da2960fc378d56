"""How a mold can be made, as part of `mold.json`."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_part import Part


class WayStep(Part):
    """A piece of work, once or for every cast."""

    name: str
    work_h: float
    low_h: float
    high_h: float
    wait_h: float = Field(description="until the next step can begin")


class WayMoney(Part):
    """Money of one way, in the job's currency; null where a price is missing, which ``missing`` names."""

    rubber: float | None
    wood: float | None
    shell: float | None
    work: float | None
    mold: float | None = Field(description="all of it, once")
    per_cast: float | None = Field(description="share of the mold over its life, and opening it")
    missing: list[str] = Field(description="prices that the job does not give")


class WayOfMold(Part):
    """One way of making the mold."""

    id: str
    words: str
    way: str = Field(description="block, two-part or skin, as in the job file")
    held: str = Field(description="hung, screwed, or bed: the master lies in clay")
    space_blocks: bool
    in_job: bool = Field(description="what the job says now")
    recommended: bool
    possible: bool
    planned: bool = Field(description="whether heat and pours can be planned in it; else never recommended")
    no: list[str] = Field(description="why it cannot be made so")
    against: list[str]
    rubber_volume_m3: float
    rubber_kg: float
    mixed_kg: float
    pours: int = Field(description="pours, or coats of a skin, with a wait between them")
    batches: int
    board_m2: float
    space_block_count: int
    space_block_volume_m3: float
    shell_volume_m3: float
    clay_volume_m3: float
    work_h: float
    work_low_h: float
    work_high_h: float
    elapsed_h: float
    work_per_cast_h: float
    parting_lines: int = Field(description="0 none, 1 down one side, 2 all round, 3 down two sides")
    parting_length_m: float
    lift_N: float
    floats: str = Field(description="in words: what lifts the master, and what holds it")
    turned_kg: float = Field(description="turned over with the master in it; 0 where nothing is")
    casts_low: float
    casts: float
    casts_high: float
    money: WayMoney
    steps: list[WayStep]
    each_cast: list[WayStep]
    job_lines: list[str] = Field(description="what to write into the job file")


class Ways(Part):
    """Every way, and the one that is recommended."""

    ways: list[WayOfMold]
    recommended: str | None = Field(description="id; null where nothing can be made as it is")
    why: str
    change: str = Field(description="what to write into the job and what it saves; empty where nothing is")
    rule: str
    currency: str | None
    casts_wanted: int | None = Field(description="null: as many as a mold gives")
    skin_m: float
    shell_m: float
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
