"""The documents of the cheap answers, and of bands that are only tried."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

SECTIONS = ("piece", "mold", "fill", "pour", "paper")
"""In order of the work."""
State = Literal["ready", "reading", "starting", "error"]


class Told(BaseModel):
    """Base of all parts."""

    model_config = ConfigDict(frozen=True)


class Number(Told):
    """One number as the maker reads it."""

    key: str = Field(description="name with its unit, as volume_m3")
    label: str
    value: float | None = Field(description="SI as the key says; null: there is none, the text says why")
    text: str
    note: str = ""


class Cell(Told):
    """One cell of a table."""

    value: float | str | None
    text: str


class Head(Told):
    """What stands over a column."""

    key: str = Field(description="name with its unit, where the column holds numbers")
    label: str


class Table(Told):
    """Rows of what is alike."""

    key: str
    caption: str
    heads: list[Head]
    rows: list[list[Cell]]


class Section(Told):
    """The answers of one section of the page."""

    numbers: list[Number] = Field(default_factory=list)
    tables: list[Table] = Field(default_factory=list)
    notes: list[str] = Field(default_factory=list)
    old: str = Field(default="", description="why these are not of the present choices; empty: they are")


class FindingTold(Told):
    """One line of a check."""

    level: Literal["ok", "mind", "stop"]
    section: str
    text: str


class Height(Told):
    """One height in every reading."""

    m: float = Field(description="up from the mold's floor as poured [m]")
    text: str
    standing_m: float | None = Field(description="as the piece stands [m]; null: it has no such reading")
    standing_text: str
    dip_m: float = Field(description="down from the rim of the mold [m]")
    dip_text: str


class BandTold(Told):
    """One band as it lies in the piece."""

    name: str
    number: int | None = Field(description="of the band in the job, from 1; null: the neat cover")
    kind: Literal["glass", "neat"]
    grade: str | None
    colour: str | None
    called: str
    tone: str = Field(description="colour it is drawn in")
    pattern: str = Field(description="name of its pattern; empty: none")
    lower: Height
    upper: Height
    written: str = Field(description="its upper end as a job file would have it")
    volume_m3: float
    volume_text: str
    void_fraction: float
    void_text: str
    void_source: str
    glass_kg: float
    glass_text: str
    resin_kg: float = Field(description="in the piece")
    resin_text: str
    mixed_kg: float = Field(description="to mix for it, all losses in it")
    mixed_text: str
    bottles: int | None = Field(description="to crush for its glass; null: neat, or bought graded")
    bottles_text: str
    batches: int
    batches_text: str
    words: str = Field(description="one sentence for who hears the page")


class Wrong(Told):
    """Why something is refused."""

    what: str
    where: str = ""
    allowed: str = ""
    todo: str = ""
    band: int | None = Field(default=None, description="number of the band it is about, from 1")


class BandsTold(Told):
    """All bands together."""

    bands: list[BandTold] = Field(default_factory=list)
    totals: list[Number] = Field(default_factory=list)
    stops: list[str] = Field(default_factory=list, description="what stands in the way of these bands")
    warnings: list[str] = Field(default_factory=list)


class Answers(Told):
    """The cheap answers about one variant of a job."""

    variant: str
    units: Literal["metric", "us"]
    state: State
    wants: list[str] = Field(description="kinds of run that would make old answers new")
    error: Wrong | None = None
    old: str = Field(default="", description="why none of this is of the present choices; empty: it is")
    sections: dict[str, Section] = Field(default_factory=dict)
    fill: BandsTold = Field(default_factory=BandsTold)
    findings: list[FindingTold] = Field(default_factory=list)


class Trial(Told):
    """What bands would take that are not written yet."""

    fill: BandsTold | None = Field(description="null: they are refused")
    error: Wrong | None = None


class Tick(Told):
    """One tick of a tape measure."""

    at_m: float = Field(description="from its zero")
    size: int = Field(description="0 is the longest")
    label: str = Field(description="number beside it; empty: none")


class GradeTold(Told):
    """A grade that can be chosen."""

    id: str
    name: str


class Tape(Told):
    """Everything that is drawn once."""

    outline: list[list[tuple[float, float]]] = Field(description="closed lines, x right, z up as poured [m]")
    height_m: float
    rim_m: float
    flipped: bool = Field(
        description="poured upside down: the tape has two readings that run against each other"
    )
    standing: bool = Field(description="whether a level has a height as the piece stands")
    unit: str = Field(description="of the numbers on the tape")
    ticks: list[Tick] = Field(description="from zero up")
    step_m: float
    page_m: float
    grades: list[GradeTold]
    bands: list[dict[str, Any]] = Field(description="as the job file has them")
    colours: list[str] = Field(description="names that have a tone of their own; any other will do")


class TapeTold(Told):
    """The tape, or why there is none."""

    tape: Tape | None = None
    error: Wrong | None = None
