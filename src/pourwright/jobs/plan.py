"""The plan document: everything the tool answers, as one JSON-ready value.

Every number carries its unit in its key: SI, except temperatures in degC and
durations in h. ``start`` is ISO 8601 with offset. ``peak_after_h``, ``gel_after_h``,
``bonds_from_h`` and ``bonds_until_h`` count from that pour's start,
``demold.after_h`` from the last pour's start. Heights are measured up from the mold's
floor as poured; a sibling ``*_standing_m`` gives the same place as the piece stands.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.mold_contact import Patch
from pourwright.jobs.plan_chances import Chances, WhatIf
from pourwright.jobs.plan_cracks import Cracks
from pourwright.jobs.plan_hollow import Hollow
from pourwright.jobs.plan_inserts import Insert
from pourwright.jobs.plan_learnt import LearntNumber
from pourwright.jobs.plan_part import Part, Point, Polyline
from pourwright.jobs.plan_sizes import Sizes
from pourwright.jobs.plan_soft import Soft

SCHEMA: Literal["pourwright-plan/1.7"] = "pourwright-plan/1.7"


class JobInfo(Part):
    """Which job and which of its variants this plan answers."""

    title: str
    variant: str
    units: Literal["metric", "us"]
    paper: Literal["A4", "letter"]
    time_zone: str
    currency: str
    invented: bool = Field(description="True where the job says its data are an example of our own")
    scale_step_kg: float | None = Field(
        default=None, description="step of the scale that batches are rounded to"
    )
    opens: str | None = Field(default=None, description="when somebody comes, wall clock, as 08:00")
    closes: str | None = Field(default=None, description="when the last one leaves, wall clock")
    working_days: list[str] = Field(default_factory=list, description="mon, tue, ..; empty where not told")
    days_off: list[str] = Field(default_factory=list, description="dates on which nobody is there")


class Piece(Part):
    """The piece as it is poured: the cold cavity, from its exact mesh."""

    name: str
    volume_m3: float
    volume_m3_p10: float | None = Field(
        default=None, description="of a thing without a file: one in ten such bodies is smaller"
    )
    volume_m3_p90: float | None = None
    area_m2: float
    height_m: float
    mass_kg: float
    size_m: Point
    centroid_m: Point
    up: str = Field(description="direction of the file that points up as poured")
    flipped: bool = Field(description="True where the piece is poured upside down")
    casting_material: str
    casting_material_name: str = Field(default="", description="the casting material in words")
    mass_by_material_kg: dict[str, float] = Field(default_factory=dict)
    finished_size_m: Point | None = Field(
        default=None, description="of the cold, sanded piece, along the same directions as size_m"
    )
    finished_volume_m3: float | None = None


class Batch(Part):
    """One mix in one pail."""

    number: int
    mass_kg: float
    part_a_kg: float
    part_b_kg: float
    ratio_error: float = Field(description="relative error of B against A after rounding to the scale")
    level_after_m: float | None = None


class Rubber(Part):
    """The rubber around the master."""

    id: str
    name: str
    wall_m: float
    base_m: float
    cover_m: float
    volume_m3: float
    mass_kg: float = Field(description="what the box takes")
    mixed_kg: float = Field(default=0.0, description="what is mixed, with the allowance: parts A and B")
    part_a_kg: float
    part_b_kg: float
    parts_by_weight: tuple[float, float]
    fill_mark_before_master_m: float | None
    level_after_master_m: float
    head_at_bottom_Pa: float
    working_time_h: float
    demold_time_h: float
    batches: list[Batch]


class HoldDown(Part):
    """What keeps the master from floating up in the liquid rubber."""

    method: Literal["hung", "screwed"]
    buoyancy_N: float
    master_mass_kg: float
    net_force_N: float
    worst_level_m: float
    safety_factor: float
    weight_needed_kg: float
    screws_needed: int | None
    bar_load_N: float = Field(default=0.0, description="most the hanging bars carry, before any rubber")
    sealed_force_N: float = Field(
        default=0.0,
        description="push on a screwed master that no rubber gets under; negative presses it down",
    )


class Panel(Part):
    """One kind of panel of the mold box."""

    name: str
    count: int
    length_m: float
    width_m: float
    thickness_m: float
    pressure_at_bottom_Pa: float
    thrust_N: float


class Box(Part):
    """The mold box."""

    inside_m: Point
    outside_m: Point
    board: str
    panels: list[Panel]


class Seam(Part):
    """Joints of the box that the liquid rubber reaches."""

    name: str
    length_m: float = Field(description="of all joints of this kind")
    pressure_Pa: float = Field(description="greatest, from the liquid rubber")


class Block(Part):
    """A space block: wood that takes rubber's place; its corners as poured."""

    letter: str
    lower_m: Point
    upper_m: Point
    wall: Literal["left", "right", "front", "back", "base"] = Field(description="panel it is screwed to")
    layers: int = Field(description="boards that it is glued up from")


class Mold(Part):
    """The mold: rubber, hold-down, box."""

    method: Literal["hung", "screwed"]
    rubber: Rubber
    hold_down: HoldDown
    box: Box
    seams: list[Seam] = Field(default_factory=list)
    empty_mass_kg: float
    filled_mass_kg: float
    patch: Patch = Field(default_factory=Patch, description="what the rubber ticket waits for")
    blocks: list[Block] = Field(default_factory=list, description="space blocks, largest first")


class Band(Part):
    """One band of the fill, from the mold's floor up as poured."""

    name: str
    from_m: float
    to_m: float
    from_standing_m: float
    to_standing_m: float
    kind: Literal["glass", "neat"]
    grade: str | None
    colour: str | None
    volume_m3: float
    void_fraction: float
    void_fraction_low: float
    void_fraction_high: float
    void_source: str
    glass_kg: float
    resin_kg: float


class GlassLot(Part):
    """Glass to have ready: one grade in one colour."""

    grade: str
    colour: str
    mass_kg: float
    bottles: int | None
    sieve_from_m: float
    sieve_to_m: float


class ResinLedger(Part):
    """Where the resin goes."""

    voids_kg: float
    neat_kg: float
    film_kg: float
    bucket_kg: float
    allowance_kg: float
    overfill_kg: float = Field(default=0.0, description="over the open face, planed off")


class Fill(Part):
    """Glass and resin of one piece."""

    glass_kg: float
    resin_kg: float
    bands: list[Band]
    glass: list[GlassLot]
    resin: ResinLedger
    neat_cover_m: float
    overfill_m: float = Field(default=0.0, description="poured over the open face, to be planed off")
    parts_by_weight: tuple[float, float] | None = Field(default=None, description="resin A to B by weight")


class GlassPortion(Part):
    """Glass that is laid in before a pour: the share of one band that this pour covers."""

    band: str
    grade: str
    colour: str
    mass_kg: float


class History(Part):
    """Temperature against time of one pour, counted from the start of the first pour."""

    time_h: list[float]
    hottest_degC: list[float]
    coolest_degC: list[float]
    least_cured: list[float] = Field(description="% cured / 100 of the least-cured place")


class Standing(Part):
    """What becomes of the largest batch of a pour that is left standing; times from mixing."""

    batch_kg: float
    pail_m3: float = Field(description="brim volume of the shop's pail")
    mixed_at_degC: float
    watched_h: float = Field(description="what does not happen in this time is null")
    warming_K: float = Field(description="warmer than mixed by so much, it is too warm for this plan")
    warm_after_h: float | None
    thick_after_h: float | None = Field(description="too thick to pour, at its thickest place")
    hot_degC: float = Field(description="over this it foams and smokes")
    hot_after_h: float | None = Field(description="at the earliest: where it stands still")
    hot_stirred_after_h: float | None = Field(
        default=None, description="at the latest: where it is equally warm throughout"
    )
    tray_depth_m: float = Field(description="spread so deep instead")
    tray_hot_after_h: float | None
    tray_peak_degC: float = Field(description="hottest place in the tray, not above hot_degC")
    prewarmed_by_K: float = Field(description="the same batch, mixed warmer by so much")
    prewarmed_until_h: float | None = Field(description="too warm or too thick, whichever comes first")
    prewarmed_hot_after_h: float | None


class Pour(Part):
    """One pour: what goes in, when, how hot, and when the next one goes on."""

    number: int
    from_m: float
    to_m: float
    from_standing_m: float
    to_standing_m: float
    dip_to_m: float = Field(description="from the rim down to the level of this pour")
    start: str
    volume_m3: float
    resin_kg: float
    part_a_kg: float
    part_b_kg: float
    bands: list[str]
    batches: list[Batch]
    glass: list[GlassPortion] = Field(default_factory=list, description="glass laid in dry before this pour")
    start_temperature_degC: float | None = Field(default=None, description="mixed resin as it goes in")
    work_within_h: float | None = Field(default=None, description="from mixing until it must be in the mold")
    standing: Standing | None = Field(default=None, description="how long a batch may stand in its pail")
    soaks_after_h: float | None = Field(
        default=None, description="from mixing until it has run down through its dry glass"
    )
    soak_limit_h: float | None = Field(default=None, description="from mixing until it is too thick for that")
    soak_margin: float | None = Field(
        default=None, description="how much more it could flow until then than it must, as a share"
    )
    bubbles_from_m: float | None = Field(
        default=None, description="smallest bubble that comes up from the pour's floor before it gels"
    )
    peak_temperature_degC: float
    peak_temperature_degC_p10: float | None = None
    peak_temperature_degC_p90: float | None = None
    peak_after_h: float
    peak_place_m: Point
    peak_limit_degC: float
    peak_grid_error_K: float
    face_peak_degC: float = Field(description="hottest place of the rubber's face during this pour")
    box_peak_degC: float | None = Field(
        default=None, description="hottest place of the box, its glue and its sealed seams during this pour"
    )
    gel_after_h: float
    gel_after_h_p10: float | None = None
    gel_after_h_p90: float | None = None
    gel_first_h: float
    bonds_from_h: float
    bonds_from_h_p10: float | None = None
    bonds_from_h_p90: float | None = None
    bonds_until_h: float
    bonds_until_h_p10: float | None = None
    bonds_until_h_p90: float | None = None
    next_from: str | None
    next_until: str | None
    sand_first: bool = Field(
        default=False, description="it goes onto a top that bonds no more: washed and sanded before"
    )
    least_cured: float
    least_cured_place_m: Point
    history: History


class Demold(Part):
    """When the piece may leave the mold, by its least-cured place."""

    after_h: float | None = Field(description="null where it never gets hard in this shop")
    kept_after_h: float | None = Field(
        default=None, description="hard in as many castings as the plan's probability says; `at` follows it"
    )
    after_h_p10: float | None = None
    after_h_p90: float | None = None
    at: str | None
    cured: float
    glass_transition_degC: float
    place_m: Point
    rule: str


class Section(Part):
    """Outlines in the vertical section through the middle, for drawings (x to the right, z up)."""

    piece: list[Polyline]
    rubber: list[Polyline]
    panels: list[Polyline]
    core: list[Polyline] = Field(default_factory=list, description="of a piece cast hollow")
    rim_m: float


class HeatSection(Part):
    """An upright cut through the mold at one moment, in cells; rows from below."""

    moment: Literal["hottest", "demold"] = Field(description="hottest of the whole plan, or hard enough")
    axis: Literal["x", "y"] = Field(description="normal: y is seen from the front, x from the right")
    offset_m: float = Field(description="where the cut lies along its normal")
    pour: int = Field(description="the last pour in the mold")
    after_h: float = Field(description="hours after the start of that pour")
    place_m: Point = Field(description="hottest place, or least-cured place")
    across_m: list[float] = Field(description="edges of the cells, to the right")
    up_m: list[float] = Field(description="edges of the cells, upwards")
    temperature_degC: list[list[float | None]] = Field(
        default_factory=list, description="of casting, rubber and box at the hottest moment"
    )
    cured: list[list[float | None]] = Field(default_factory=list, description="of the casting at demold")
    outlines: Section


class Heat(Part):
    """How the heat and cure run was made and how far it may be off."""

    spacing_m: float
    coarse_spacing_m: float
    cells: int
    steps: int
    grid_error_K: float = Field(description="the peaks may be off by so much because of the cells' size")
    time_grid_error: float = Field(
        default=0.0, description="likewise gel, bond and demold times, as a share of the time since the pour"
    )
    energy_error: float
    rubber_limit_degC: float | None = Field(default=None, description="hottest the rubber may get")
    air_time_h: list[float] = Field(description="counted from the start of the first pour")
    air_degC: list[float]
    sections: list[HeatSection] = Field(default_factory=list, description="cuts for the pictures of the heat")


class DipRow(Part):
    """One line of the dip-stick table."""

    height_m: float
    height_standing_m: float
    dip_m: float
    cavity_m3: float
    liquid_m3: float = Field(description="liquid that fits below this height once the glass is in")


class Need(Part):
    """One line of the shopping list."""

    item: str
    quantity: float
    unit: str
    price: float | None
    note: str = ""


class Event(Part):
    """One entry of the calendar."""

    start: str
    end: str
    title: str
    detail: str
    kind: Literal["mold", "prepare", "pour", "check", "wait", "demold"]


class Reason(Part):
    """Why a choice was made, or why a value is missing."""

    key: str
    text: str


class Check(Part):
    """One line of the go/no-go list before A meets B."""

    text: str
    why: str


class SourceUsed(Part):
    """A source that this plan used."""

    id: str
    citation: str
    kind: str
    used_for: str


class PlanDocument(Part):
    """The whole plan, `plan.json`."""

    schema_: Literal["pourwright-plan/1.7"] = Field(default=SCHEMA, alias="schema")
    version: str
    seed: int
    computed_for: str
    inputs: dict[str, str] = Field(description="sha256 of each input file")
    job: JobInfo
    piece: Piece
    sizes: Sizes | None = Field(default=None, description="from the piece wanted back to the master")
    mold: Mold
    hollow: Hollow | None = Field(default=None, description="the core of a piece cast hollow")
    inserts: list[Insert] = Field(default_factory=list, description="what is set into the casting")
    fill: Fill
    pours: list[Pour]
    demold: Demold
    heat: Heat
    chances: Chances | None = Field(default=None, description="how sure all this is")
    cracks: Cracks | None = Field(default=None, description="where it may crack or turn white")
    soft: Soft | None = Field(default=None, description="under-cure, warm box and damp")
    what_if: list[WhatIf] = Field(default_factory=list, description="changes that were looked at besides")
    dip_stick: list[DipRow]
    section: Section
    learnt: list[LearntNumber] = Field(
        default_factory=list, description="what the shop's own records have changed, or have not"
    )
    shopping: list[Need]
    calendar: list[Event]
    go_no_go: list[Check]
    reasons: list[Reason]
    cautions: list[str]
    warnings: list[str]
    sources: list[SourceUsed]
