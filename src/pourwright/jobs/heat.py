"""The heat document: what a heat run answers, as one JSON-ready value.

Every number carries its unit in its key: SI, except temperatures in degC and durations in h,
which count from the start of the run. Places are in the pour frame: metres from the middle of
the piece, up from the mold's floor.
"""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from pourwright.jobs.plan import JobInfo, SourceUsed
from pourwright.jobs.plan_part import Part

HEAT_SCHEMA: Literal["pourwright-heat/1.0"] = "pourwright-heat/1.0"


class HeatGrid(Part):
    """Grid and steps of the run."""

    spacing_m: float = Field(description="widest cell along z")
    across_m: float = Field(description="widest cell along x and y")
    cells: tuple[int, int, int]
    active_cells: int
    steps: int
    tolerance_K: float


class HottestPlace(Part):
    """The hottest place of the casting."""

    temperature_degC: float
    time_h: float
    x_m: float
    y_m: float
    z_m: float


class HeatPour(Part):
    """One pour as it was run."""

    number: int
    to_m: float
    at_h: float
    temperature_degC: float = Field(description="of the mixed resin as it goes in")
    hottest: HottestPlace = Field(description="of the whole casting, until the next pour")


class ProbeHistory(Part):
    """What happened at one place, from the moment it is covered on."""

    name: str
    x_m: float
    y_m: float
    z_m: float
    time_h: list[float]
    temperature_degC: list[float]
    conversion: list[float]
    peak_temperature_degC: float | None = Field(description="null where it was never covered")
    peak_time_h: float | None


class HottestHistory(HottestPlace):
    """The hottest place, and the history of whatever place was hottest at each moment."""

    history_time_h: list[float]
    history_temperature_degC: list[float]
    history_conversion: list[float]


class Ending(Part):
    """How the run came to its end."""

    why: Literal["until", "cooled", "at rest", "three weeks", "runaway"]
    time_h: float
    least_cured: float
    text: str


class HeatDocument(Part):
    """A heat run, as `pourwright heat --json` prints it."""

    schema_: Literal["pourwright-heat/1.0"] = Field(default=HEAT_SCHEMA, alias="schema")
    version: str
    seed: int
    start: str = Field(description="ISO 8601 moment of time 0, on the shop's clock")
    inputs: dict[str, str] = Field(description="sha256 of each input file")
    job: JobInfo
    pinned: list[str] = Field(description="tables of [pin] that the job has")
    grid: HeatGrid
    pours: list[HeatPour]
    probes: list[ProbeHistory]
    hottest: HottestHistory
    ending: Ending
    energy_error: float
    notes: list[str]
    sources: list[SourceUsed]

    def to_json(self) -> dict[str, Any]:
        """The document as JSON."""
        return self.model_dump(mode="json", by_alias=True)
