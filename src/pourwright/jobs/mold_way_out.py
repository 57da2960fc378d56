"""The part of the mold's document about the way out."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class DraftShares(Part):
    """How the surface that touches rubber leans against the pull; the shares sum to 1."""

    undercut: float = Field(description="leaning back")
    upright: float = Field(description="0 to 1 degree")
    little: float = Field(description="1 to 3 degrees")
    free: float = Field(description="more than 3 degrees")


class HeldRubber(Part):
    """Rubber that lies in front of the piece along the pull and hangs together."""

    number: int
    volume_m3: float
    reaches_in_m: float = Field(description="across the pull, at the deepest place")
    x_m: float
    y_m: float
    z_m: float
    height_m: float = Field(description="of the deepest place above the mold's floor")
    height_standing_m: float | None = Field(description="null where the piece lies askew")
    where: str = Field(description="the height in both readings")
    closed_above: bool = Field(description="the piece closes above some of it")


class LooseRubber(Part):
    """Rubber in a hollow of the piece, that hangs together with the block below or with nothing."""

    volume_m3: float
    x_m: float
    y_m: float
    z_m: float
    words: str


class AirInlet(Part):
    """A place where air is let in, and the way it goes."""

    kind: Literal["mouth", "cut", "floor", "core"]
    x_m: float
    y_m: float
    z_m: float
    way: tuple[float, float, float] = Field(description="unit vector")
    words: str


class RubberCut(Part):
    """One cut through the rubber."""

    side: str = Field(description="where it is, as one stands before the mold")
    angle_deg: float = Field(description="from the x axis, as the mold lies")
    length_m: float
    land_m: float = Field(description="least rubber along it")
    depth_m: float = Field(description="most rubber along it")
    ends_at_m: float = Field(description="above the mold's floor")
    area_m2: float
    opens_m: float = Field(description="width of the piece across it")
    on_edge: bool
    waves: int
    wave_m: float
    words: list[str]


class RubberTongue(Part):
    """Rubber in a slot or a hole of the piece."""

    kind: Literal["slot", "hole"]
    count: int
    thickness_m: float
    depth_m: float
    where: str
    root_stress_Pa: float
    margin: float = Field(description="what its root bears with a nick in it, by that stress")


class RubberBulge(Part):
    """How far the cavity's wall moves out under the casting."""

    pressure_Pa: float
    panels_m: float | None = Field(
        description="what the box's panels bulge; null: no box, or panels far too thin"
    )
    rubber_m: float = Field(description="what the rubber itself gives, held all round")
    in_box_m: float | None = Field(description="both together")
    in_shell_m: float = Field(description="a skin in a shell: its gap")
    alone_m: float = Field(description="with neither")
    alone_low_m: float
    alone_high_m: float
    more_m3: float
    gives_way: bool
    words: str


class ThickRubber(Part):
    """Thickest rubber square to one or several sides of the box."""

    sides: str
    thick_m: float
    height_m: float = Field(description="above the mold's floor")
    where: str = Field(description="the height in both readings")
    in_m: float = Field(description="how far warm rubber comes in there")
    words: str = Field(description="the same in the maker's units")


class WarmRubber(Part):
    """How far warm rubber comes in where it is thickest, side by side, and where it is thinnest."""

    warmer_K: float
    places: list[ThickRubber]
    thin_m: float
    thin_in_m: float
    shows: bool
    words: str


class MoldWayOut(Part):
    """How the piece comes out of its rubber."""

    opening: Literal["straight", "stretch", "one cut", "two cuts", "two parts"]
    reason: str
    draft: DraftShares
    held: list[HeldRubber]
    plugs: list[LooseRubber] = Field(description="in hollows that open upward: they come out with the piece")
    cores: list[LooseRubber] = Field(description="in hollows that open downward: they stay")
    cuts: list[RubberCut]
    modulus_Pa: float
    modulus_low_Pa: float
    modulus_high_Pa: float
    stretch_share: float = Field(description="by which a neck must lengthen if nothing is cut")
    stretch_margin: float | None = Field(
        description="elongation at break by that; null: nothing is stretched"
    )
    stretch_force_N: float = Field(description="at least")
    hinge_share: float | None = Field(description="lengthening where the cut rubber bends; null: no cut")
    hinge_margin: float | None
    hinge_force_N: float | None
    book_force_N: float = Field(description="that one cut would take, whether it is chosen or not")
    nick_m: float
    nick_grows_share: float = Field(description="lengthening at which such a nick in a cut edge runs on")
    nick_margin: float | None = Field(description="by the lengthening at the hinge or the neck; null: none")
    tongues: list[RubberTongue]
    suction_m2: float
    suction_N: float
    suction_kg: float
    air_creeps_in_h: float
    floor_follows_N: float | None = Field(description="null: the rubber's floor is too stiff to follow")
    suction: str = Field(description="all of it in words")
    air: list[AirInlet]
    bulge: RubberBulge
    warm: WarmRubber
    order: list[str]
    keeping: list[str]
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
