"""What the shop's own records have changed in a document."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_part import Part


class LearntNumber(Part):
    """A number that the shop has learnt, or whose family's value was kept all the same."""

    quantity: str = Field(description="as void_fraction, bucket_loss, cure_rate")
    subject: str = Field(description="of what: a grade, a resin, a mold, a step of the work, the shop's pail")
    value: float = Field(description="as it was used; SI, or a share")
    low: float = Field(description="one in ten shops with such records lies below")
    high: float = Field(description="one in ten lies above")
    records: int = Field(description="how many it was learnt from")
    kept_family: bool = Field(description="true where the family's value was used")
    words: str
