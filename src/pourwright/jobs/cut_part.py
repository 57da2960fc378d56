"""One part that is sawn from a board, as paper and a cutting machine need it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part, Polyline
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.stock import grain_of


class CutGroove(Part):
    """A step or groove from the lower edge to the upper, cut into the face that shows."""

    start_m: float = Field(description="from the left edge")
    end_m: float
    depth_m: float


class CutHole(Part):
    """A hole that is drilled before the parts come together."""

    at_m: tuple[float, float] = Field(description="its middle, from the left lower corner")
    diameter_m: float
    use: str


class CutPart(Part):
    """A part lying on its back with the face that shows up; length along x, width along y."""

    mark: str = Field(description="pencilled on it, unlike every other")
    belongs: str
    board: str
    length_m: float
    width_m: float
    thickness_m: float
    sawn_m: tuple[float, float] = Field(description="length and width as it leaves the saw")
    grain: Literal["length", "width", "any"] = Field(
        default="any", description="side along which the grain runs"
    )
    oversize_m: float = Field(default=0.0, description="left on every edge, trimmed off later")
    face: str = Field(default="", description="which face shows")
    outlines_m: list[Polyline] = Field(
        default_factory=list,
        description="what is left of the rectangle; outer ones counter-clockwise; none: all",
    )
    grooves: list[CutGroove] = Field(default_factory=list)
    holes: list[CutHole] = Field(default_factory=list)
    bar: bool = Field(default=False, description="sawn from a bar, else from a sheet")
    mass_kg: float


def cut_part(part: WoodPart) -> CutPart:
    """Write a part of wood down for the document.

    Parameters
    ----------
    part : WoodPart
        As the mold asks for it.

    Returns
    -------
    CutPart
    """
    return CutPart(
        mark=part.mark,
        belongs=part.belongs,
        board=part.board.name,
        length_m=part.length,
        width_m=part.width,
        thickness_m=part.thickness,
        sawn_m=part.sawn,
        grain="any" if grain_of(part.board.id) == "none" else part.grain,
        oversize_m=part.oversize,
        face=part.face,
        outlines_m=[list(outline) for outline in part.outlines],
        grooves=[CutGroove(start_m=one.start, end_m=one.end, depth_m=one.depth) for one in part.grooves],
        holes=[CutHole(at_m=one.at, diameter_m=one.diameter, use=one.use) for one in part.holes],
        bar=part.bar,
        mass_kg=part.mass,
    )
