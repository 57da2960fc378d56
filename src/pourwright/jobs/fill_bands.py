"""Part of a fill's document: what is missing for the bands, what moves in them, borders and shells."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_part import Part, Polyline


class MissingGlass(Part):
    """Glass of one grade and colour that a band wants and the stock does not hold."""

    band: str
    grade: str
    colour: str
    wanted_kg: float
    there_kg: float
    missing_kg: float
    ends_at_m: float | None = Field(description="up from the mold's floor; null: a shell of colour, no level")
    ends_at_standing_m: float | None = Field(description="as the piece stands; null: a shell of colour")
    mix_in: str | None = Field(
        description="another colour of the grade; null: not enough of one is left over"
    )
    mix_in_share: float = Field(description="of the glass of that grade and colour [-]")
    bottles: int | None = Field(description="to crush for it; null: bought graded")
    text: str


class LeftOver(Part):
    """Glass of the stock that no band wants."""

    grade: str
    colour: str
    mass_kg: float


class BandMoves(Part):
    """What settles in a band, and what tapping would move."""

    band: str
    weighed_as_tapped: bool
    void_fraction: float
    void_fraction_tapped: float
    settles_m: float
    sinks_m: float
    sinks_least_m: float
    sinks_most_m: float
    more_glass_kg: float = Field(description="to come up to its height again once tapped")
    border_m: float = Field(description="its upper border where all glass under it is tapped too")
    border_standing_m: float
    text: str


class SoftBorder(Part):
    """A border over which two bands are mixed half and half."""

    below: str
    above: str
    from_m: float
    to_m: float
    from_standing_m: float
    to_standing_m: float
    volume_m3: float
    glass_below_kg: float = Field(description="held back from the lower band")
    glass_above_kg: float = Field(description="held back from the upper band")
    closes_m: float = Field(description="sinks because two sizes lie closer mixed")
    text: str


class ShellPart(Part):
    """Glass of another colour along the wall of a band."""

    band: str
    colour: str
    core_colour: str
    thickness_m: float
    volume_m3: float
    glass_kg: float
    core_kg: float
    share: float = Field(description="of the band's glass [-]")
    text: str


class BandsTold(Part):
    """What there is to know of the bands beside their weights."""

    standing: list[str] = Field(description="where each band is as the piece stands; empty: same way up")
    stock: bool = Field(description="whether the job says what lies ready")
    missing: list[MissingGlass]
    left: list[LeftOver]
    moves: list[BandMoves]
    soft: list[SoftBorder]
    shells: list[ShellPart]
    section: list[Polyline] = Field(description="of the piece as poured, x to the right, z up")
    notes: list[str]
    warnings: list[str] = Field(default_factory=list)
