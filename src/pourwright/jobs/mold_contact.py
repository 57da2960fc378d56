"""Parts of the documents: whether the rubber sets on the master and lets go, and how the rubber is poured."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part

Verdict = Literal["fine", "test first", "no"]


class Patch(Part):
    """What the rubber ticket has to know of the master."""

    verdict: Verdict = "test first"
    layers: str = Field(default="", description="master, sealer and release in words")
    passed: str = Field(default="", description="date of the test patch, as the job says; empty: not yet")
    blocked: bool = Field(default=False, description="no rubber is mixed until the test patch has passed")
    cures_h: float = Field(default=0.0, description="how long the patch cures before it is looked at")


class ContactCell(Part):
    """One thing that a curing rubber minds, and what the coats do about it."""

    face: Literal["master", "old rubber"]
    what: str
    why: str
    bare: Verdict
    left: Verdict
    coat: str = Field(description="what takes it away or weakens it; empty without")
    known: str = Field(description="where it is known from")


class Coating(Part):
    """A sealer or a release."""

    id: str
    name: str
    coats: int
    dries_h: float
    how: str
    none_on: str
    known: str


class Contact(Part):
    """Will it stick: master, coats, rubber, old rubber, casting material."""

    verdict: Verdict = Field(description="worst of the master and the old rubber")
    surface: str
    rubber_cures_by: str
    sealer: Coating
    release: Coating
    on_old_rubber: bool
    cells: list[ContactCell]
    patch: Patch
    better: str = Field(description="coats or rubber that would be better; empty: none known")
    cast: str = Field(description="casting material against the cured mold")
    cast_verdict: Verdict
    cast_why: str
    cast_release: str
    unknown: list[str] = Field(default_factory=list, description="what the table does not know")
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)


class RubberBatches(Part):
    """The work of pouring rubber."""

    batches: int
    batch_kg: float
    mixed_kg: float
    spare_kg: float
    first_coat_kg: float = Field(description="brushed on first, out of the first batch")
    parts_by_weight: tuple[float, float]
    parts_by_volume: tuple[float, float] | None
    by_volume: str = Field(description="what measuring by volume takes, or why it cannot be said")
    shop_degC: float
    works_for_h: float = Field(description="at the shop's temperature")
    longest_batch_h: float
    alone_h: float
    in_two_h: float
    late: Literal["no", "alone", "both"]
    pot_batch_kg: float | None
    pot: str = Field(description="what the vacuum pot asks for")
    fill_mark_m: float | None = Field(description="null where the master stands in the box from the start")
    end_mark_m: float = Field(description="from the box's floor, while the rubber is poured")
    method: Literal["hung", "screwed"]
    steps: list[str]
    left_overs: list[str]
    skin_wall: str = Field(default="", description="of a skin: least thickness, and what carries it")
    warnings: list[str] = Field(default_factory=list)
