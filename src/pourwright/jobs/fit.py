"""What a fit answers, as every reader of it sees it: `fit.json`."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part

SCHEMA = "pourwright-fit/1.0"
Unit = Literal["h", "degC", "m"]


class Told(Part):
    """A value with its 80 % band."""

    unit: Unit
    value: float
    value_p10: float | None = None
    value_p90: float | None = None


class FitAnswer(Told):
    """Something the shop wants to know."""

    key: str
    words: str


class FitFact(Part):
    """One piece of evidence and what it contributed."""

    label: str
    unit: Unit | None
    stated: float | None
    fitted: float | None
    others: Told | None
    missed: float
    without: list[FitAnswer]


class FitContradiction(Part):
    """Two facts that cannot both be true."""

    first: str
    second: str
    apart: float | None
    text: str


class FitParameter(Part):
    """One fitted number."""

    name: str
    words: str
    unit: str
    value: float
    value_p10: float
    value_p90: float
    narrowing: float


class FitCup(Part):
    """A cup test: measured against fitted, with the band of the fit."""

    label: str
    file: str
    rows: int
    mass_kg: float
    time_h: list[float]
    measured_degC: list[float]
    fitted_degC: list[float]
    fitted_degC_p10: list[float]
    fitted_degC_p90: list[float]
    air_time_h: list[float]
    air_degC: list[float]


class FitNextCup(Part):
    """The cup to pour for a test."""

    mass_kg: float
    part_a_kg: float
    part_b_kg: float
    logged_h: float
    peak_degC: float
    peak_degC_p10: float
    peak_degC_p90: float


class FitDocument(Part):
    """The whole answer of a fit."""

    schema_: str = Field(default=SCHEMA, alias="schema")
    version: str
    id: str
    name: str
    family: str
    hardener: str
    source: str
    units: Literal["metric", "us"]
    invented: bool
    density_kg_m3: float
    inputs: dict[str, str]
    facts: list[FitFact]
    answers: list[FitAnswer]
    contradictions: list[FitContradiction]
    unusual: list[str]
    uncertain: list[str]
    narrowed: list[str]
    parameters: list[FitParameter]
    covariance: list[list[float]]
    cups: list[FitCup]
    next_cup: FitNextCup
    notes: list[str]

    def to_json(self) -> dict[str, Any]:
        """The document as JSON holds it."""
        return self.model_dump(mode="json", by_alias=True)
