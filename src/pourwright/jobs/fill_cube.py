"""Part of the fill's document: a test cube, what is measured on it, where those numbers go."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_part import Part


class CubeLayer(Part):
    """One layer of the cube."""

    band: str
    from_m: float
    to_m: float
    grade: str | None
    colour: str | None
    glass_kg: float = Field(description="dry, to the scale's step")
    resin_kg: float = Field(description="between its grains, to the scale's step")
    void_fraction: float
    volume_m3: float


class CubeMix(Part):
    """Resin that is mixed and poured at once."""

    layers: list[str]
    part_a_kg: float
    part_b_kg: float
    batches: int = Field(description="so many, each of part_a_kg and part_b_kg")


class Measure(Part):
    """One thing to measure on the cube."""

    what: str
    how: str
    expected: str = Field(description="what the job reckons with; empty where it reckons nothing")
    goes_to: list[str] = Field(description="keys that take it, as fill.overfill; cup.* are of the facts file")
    blank: str = Field(description="unit of the blank field on paper")


class TestCube(Part):
    """A small cube of the planned bands, poured first."""

    __test__ = False

    edge_m: float
    grain_m: float = Field(description="largest in it")
    layers: list[CubeLayer]
    left_out: int = Field(description="bands like another one, not shown")
    mixes: list[CubeMix]
    glass_kg: float
    resin_kg: float = Field(description="mixed in all")
    mass_kg: float = Field(description="of the cube")
    peak_degC: float | None = Field(description="middle, poured at once, in thin plastic; null: it runs away")
    peak_after_h: float | None
    peak_limit_degC: float
    cools_by: float = Field(description="surface over volume, against the piece's")
    sink_m: float
    sink_most_m: float
    sink_times: float = Field(description="the piece's sink over the cube's")
    after_week_m: float = Field(description="edge then, as reckoned")
    caliper: float = Field(description="shrinkage by length that a tenth of a millimetre hides")
    steps: list[str]
    measures: list[Measure]
    job_lines: list[str] = Field(description="for the job file, with blanks")
    facts_lines: list[str] = Field(description="for the facts of the resin, with blanks")
    notes: list[str]
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
