"""Part of the mold's document: how far the box bulges and what holds it."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_part import Part


class BoxPanel(Part):
    """One kind of upright panel of the box, three edges supported and the rim free."""

    name: str
    count: int
    width_m: float = Field(description="between its supports")
    height_m: float
    pressure_at_foot_Pa: float
    liquid: str = Field(description="what presses most")
    bulge_m: float = Field(description="bare, when the liquid comes in")
    bulge_at_m: float = Field(description="height above the foot where it bulges most, as poured")
    bulge_in_time_m: float = Field(description="stiffened, if loaded for good in a dry room: an upper end")
    battens: int | None = Field(description="across one panel, one at the rim; null: even twelve are too few")
    battens_reason: str = ""
    held_m: float = Field(description="bulge with the battens, when the liquid comes in")
    board_instead_m: float = Field(description="board that stays within the limit without battens")


class Box(Part):
    """The box under the densest liquid ever poured."""

    board: str
    thickness_m: float
    limit_m: float
    batten: str
    batten_section_m: tuple[float, float]
    least_rubber_m: float
    panels: list[BoxPanel]
    filled_kg: float
    people: int = Field(description="who lift the filled mold together")
    cautions: list[str] = Field(default_factory=list)
