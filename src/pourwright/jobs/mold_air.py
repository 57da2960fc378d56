"""The part of the mold's document about caught air."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class AirVent(Part):
    """A vent straight up from a high of caught air."""

    x_m: float
    y_m: float
    z_m: float = Field(description="of its foot above the mold's floor, as cast")
    where: str = Field(description="its foot, in words")
    length_m: float
    bore_m: float
    volume_m3: float = Field(description="of what rises in it")
    ends_inside: bool = Field(description="in the cavity again, or in a face of the master that shows")


class AirTilt(Part):
    """Mold or master tilted until the place is covered."""

    side: str = Field(description="that is lifted")
    side_deg: float = Field(description="from the x axis, as cast")
    tilt_deg: float
    least_deg: float = Field(description="angle from which on no air worth telling stays")
    chock_m: float = Field(description="under the lifted side; for a hung master how much higher it goes in")
    until_m: float | None = Field(
        description="casting: level once the mold is level again, above its floor; rubber over a screwed "
        "master: mark on the low panel above the board; null: the master is levelled under the rubber"
    )
    left_m3: float = Field(description="air that stays")


class AirPlace(Part):
    """Caught air, or a level ceiling that keeps bubbles."""

    letter: str
    kind: Literal["caught", "ceiling"]
    volume_m3: float | None = Field(description="null under a level ceiling")
    area_m2: float = Field(description="of the liquid's surface below the air, or of the ceiling")
    depth_m: float = Field(description="from where it is closed off up to its highest point; 0 for a ceiling")
    x_m: float
    y_m: float
    z_m: float = Field(description="of its highest point above the mold's floor, as cast")
    height_standing_m: float | None
    closed_at_m: float = Field(description="above the mold's floor, as cast")
    where: str
    take: Literal["tilt", "other way", "vent", "none"]
    todo: str
    tilt: AirTilt | None
    vents: list[AirVent]


class LiquidAir(Part):
    """Air that one pour catches."""

    liquid: Literal["rubber", "casting"]
    held: str = Field(description="how the master is held, or how the mold stands")
    caught_m3: float
    places: list[AirPlace]
    not_told: int = Field(description="places beyond those told")
    small: int
    small_m3: float
    least_m3: float = Field(description="from which volume on a place is told")
    simplified: bool = Field(description="tilts were looked for on a simpler mesh")
    words: str


class MoldAir(Part):
    """Trapped air in both pours."""

    rubber: LiquidAir | None = Field(description="null where the rubber is no one poured block")
    casting: LiquidAir
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
