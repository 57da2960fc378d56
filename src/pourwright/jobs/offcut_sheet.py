"""Which parts of a job one offcut gives, as a document."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.cut_sheet import CutPlan
from pourwright.jobs.told import Told


class OffcutSheet(Told):
    """The answer about one offcut."""

    schema_: Literal["pourwright-offcut/1.0"] = Field(default="pourwright-offcut/1.0", alias="schema")
    plan: CutPlan = Field(description="the offcut with its parts and its cuts in order, if any fits; no bars")
    over: list[str] = Field(description="marks of the parts of this board that it does not give")
    proven: bool = Field(description="whether no other straight cuts take more area of parts from it")
