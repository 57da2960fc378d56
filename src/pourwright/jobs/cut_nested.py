"""Sheets, offcuts and bars as they are cut: where each part lies and in which order the saw goes."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class PlacedPart(Part):
    """A part where it lies; x along the length of the sheet, from its left lower corner."""

    mark: str
    x_m: float
    y_m: float
    length_m: float = Field(description="along x, as it lies")
    width_m: float = Field(description="along y, as it lies")
    turned: bool = False


class SheetCut(Part):
    """A cut from edge to edge of the piece that it divides."""

    number: int
    axis: Literal["x", "y"] = Field(description="along which at_m is measured; x: the cut is upright")
    x_m: float = Field(description="where it begins; the blade takes its kerf beyond, to the right or above")
    y_m: float
    length_m: float
    at_m: float = Field(description="from the left or lower edge of the piece it divides")
    words: str = ""


class LeftPiece(Part):
    """What is left over."""

    x_m: float
    y_m: float
    length_m: float
    width_m: float


class NestedSheet(Part):
    """One sheet or offcut with its parts."""

    name: str
    board: str
    board_id: str = Field(default="", description="as a job file and the book name it")
    thickness_m: float
    length_m: float
    width_m: float
    offcut: bool = False
    trim_m: float = Field(default=0.0, description="taken off every edge first")
    kerf_m: float = 0.0
    grain: str = Field(default="", description="along which side it runs: length or width; empty: none")
    parts: list[PlacedPart] = Field(default_factory=list)
    cuts: list[SheetCut] = Field(default_factory=list)
    left: list[LeftPiece] = Field(default_factory=list)
    used_share: float = Field(description="of the sheet's area that becomes parts")


class BarPart(Part):
    """A part on a bar."""

    mark: str
    x_m: float = Field(description="from the left end of the bar")
    length_m: float


class NestedBar(Part):
    """One bar with the lengths that come from it, in order."""

    name: str
    board: str
    thickness_m: float
    width_m: float
    length_m: float
    trim_m: float = Field(default=0.0, description="taken off both ends first")
    kerf_m: float = 0.0
    parts: list[BarPart] = Field(default_factory=list)
    left_m: float = Field(description="the rest at the right end, its trim besides")
    used_share: float
