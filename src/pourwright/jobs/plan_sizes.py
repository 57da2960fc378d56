"""The size ledger: from the piece wanted back to the master, direction by direction and face by face."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part, Point


class Direction(Part):
    """One direction: piece + sanded + casting + rubber + warm rubber = master."""

    axis: str = Field(description="x, y or z of the shape's own file; empty where it is poured askew")
    poured: str = Field(description="the same direction as poured: x, y, or z, which is up")
    words: str = Field(description="the direction in words")
    piece_m: float = Field(description="sanded and cold: wanted, or what it will measure")
    piece_low_m: float = Field(description="what it will measure from this master, at least")
    piece_high_m: float
    sanded_m: float = Field(description="off both faces together")
    cast_m: float = Field(description="as it leaves the mold, cold")
    casting_m: float = Field(description="what the casting loses from gel until it is cold")
    rubber_m: float = Field(description="what the rubber loses as it cures and cools")
    warm_rubber_m: float = Field(description="cold cavity less cavity at gel; below 0 where warmth widens it")
    cavity_m: float = Field(description="of the cold mold")
    master_m: float
    master_low_m: float = Field(description="the right master for this piece is at least so large")
    master_high_m: float


class FaceGroup(Part):
    """Faces that are sanded alike, and what lies under them."""

    name: str = Field(description="open face, floor, sides, or a direction of the file")
    words: str = Field(description="the same as poured, and as the piece stands where that differs")
    area_m2: float = Field(description="of the shape that was given")
    sanded_m: float
    stands_out_m: float = Field(
        description="of the master over the piece there, on average; what shrinks lies half on either side"
    )
    skin_m: float | None = Field(description="resin over the glass; null where there is no glass behind")
    glass_share: float | None = Field(description="of the face that is glass once sanded")
    through: bool = Field(description="sanded deeper than the skin")
    text: str = Field(description="empty where nothing has to be said")


class SizeNumber(Part):
    """A number that the ledger rests on."""

    name: str
    words: str
    value: float
    value_low: float
    value_high: float
    unit: str
    kind: str
    source: str
    told: str = Field(description="the number with its range as it is read")


class RunSizes(Part):
    """The same with the temperature at which the resin gels in the plan's heat run."""

    gels_at_degC: float
    piece_m: Point = Field(description="from the master of the ledger, in the order of its directions")
    master_m: Point = Field(description="for the piece of the ledger")
    text: str


class Sizes(Part):
    """The size ledger of one job."""

    shape_is: Literal["master", "piece"]
    cut: bool = Field(description="whether the master is another body than the shape, or sanding is told")
    directions: list[Direction]
    faces: list[FaceGroup]
    piece_volume_m3: float
    cavity_volume_m3: float
    master_volume_m3: float
    master_size_m: Point = Field(description="along x, y and z of the shape's own file")
    gels_at_degC: float
    run: RunSizes | None = Field(default=None, description="null without a heat run")
    numbers: list[SizeNumber]
    notes: list[str]
