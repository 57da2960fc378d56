"""What every part of a document that the tool answers has in common."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict

Point = tuple[float, float, float]
Polyline = list[tuple[float, float]]


class Part(BaseModel):
    """Base of every part of a document: unknown keys are refused, values do not change."""

    model_config = ConfigDict(extra="forbid", frozen=True)
