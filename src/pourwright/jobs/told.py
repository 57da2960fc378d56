"""What every document that is told part by part holds beside its parts."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan import JobInfo, Piece, SourceUsed
from pourwright.jobs.plan_learnt import LearntNumber
from pourwright.jobs.plan_part import Part


class Told(Part):
    """The frame of a mold's and a fill's document."""

    version: str
    computed_for: str
    inputs: dict[str, str] = Field(description="sha256 of each input file")
    job: JobInfo
    piece: Piece
    sources: list[SourceUsed] = Field(default_factory=list)
    learnt: list[LearntNumber] = Field(
        default_factory=list, description="what the shop's own records have changed, or have not"
    )
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
