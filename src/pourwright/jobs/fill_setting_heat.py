"""Part of the fill's document: the heat of gypsum or concrete as it sets, by a heat run on the real shape."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class HeatLimit(Part):
    """Something that must not get too hot, or too uneven."""

    name: Literal["rubber", "box", "core", "core to face"]
    reached: float = Field(description="degC; of core to face a difference in K")
    limit: float
    over: bool


class SettingHeat(Part):
    """A heat run of one casting, filled in one go; times are rounded to what is known."""

    poured_degC: float
    shop_degC: float = Field(description="mean over the day")
    peak_degC: float
    peak_h: float = Field(description="from filling")
    peak_x_m: float
    peak_y_m: float
    peak_z_m: float = Field(description="up from the mold's floor")
    peak_standing_m: float = Field(description="the same, as the piece stands")
    adiabatic_rise_K: float
    difference_K: float = Field(description="greatest between hottest and coldest place at one time")
    difference_h: float
    limits: list[HeatLimit]
    hard_h: float | None = Field(description="least-set place as far as at the record's demold time")
    even_h: float | None = Field(
        description="concrete: no place warmer than the shop by more than the limit any more"
    )
    open_h: float | None = Field(description="the later of the two: out of the mold; null: not by then")
    time_h: list[float]
    hottest_degC: list[float]
    coldest_degC: list[float]
    cell_m: float
    cells: int
    energy_error: float
    notes: list[str]
    warnings: list[str] = Field(default_factory=list)
