"""Part of the fill's document: bottles to collect, what they give, the work, sorting out and drying."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class GradeYield(Part):
    """What a crushed bottle gives of a grade."""

    grade: str
    sieve_from_m: float
    sieve_to_m: float
    share: float
    by: Literal["weighed", "fitted", "own record", "usual"]


class SieveRow(Part):
    """One sieve that was weighed."""

    name: str = Field(description="as the job writes it")
    sieve_m: float
    stayed: float = Field(description="share of all the glass on it")
    passed: float = Field(description="share that passed it")
    law: float = Field(description="share that the fitted law lets pass it")


class Sizes(Part):
    """Sizes of the crushed glass, Rosin and Rammler's law."""

    size_m: float = Field(description="that 63 % of the mass is finer than")
    spread: float = Field(description="exponent of the law")
    residual: float = Field(description="most that the law misses a weighed share by; 0 for two sieves")
    off: float = Field(description="share of the mass missing between the weighings; below 0: too much")
    sieves: list[SieveRow]


class ColourGrade(Part):
    """One grade out of the bottles of one colour."""

    grade: str
    wanted_kg: float = Field(description="in the piece; 0 where it only comes along")
    share: float
    bottles: int = Field(description="that this grade alone would take")
    left_kg: float = Field(description="for another piece")


class KindCount(Part):
    """Bottles of one kind alone."""

    name: str
    mass_kg: float
    have: int
    alone: int = Field(description="bottles of this kind alone that would do")
    invented: bool


class ColourBottles(Part):
    """The bottles of one colour."""

    colour: str
    bought: bool = Field(description="comes crushed and graded: what follows would be its bottles")
    wanted_kg: float
    bottle_kg: float
    bottles: int
    again: int = Field(description="that do where what is left coarser is crushed again")
    have: int
    collect: int
    crushed_kg: float
    grades: list[ColourGrade]
    over_kg: float = Field(description="coarser than every grade: to be crushed again")
    rest_kg: float = Field(description="fines and dust")
    kinds: list[KindCount]
    labels_h: float
    crushing_h: float
    sieving_h: float
    washing_h: float
    drying_h: float = Field(description="work, not the wait")
    total_h: float
    work_price: float | None = Field(description="null: the job has no price of an hour")
    bought_price: float | None = Field(description="of the graded glass; null: the job has no price of glass")
    turns_at: float | None = Field(description="price of an hour at which both cost the same")
    take: Literal["crush", "buy", "as you value an hour"]


class SortedOut(Part):
    """What is taken off or sorted out."""

    what: str
    do: str
    why: str


class WetLot(Part):
    """Water on one grade that was washed."""

    grade: str
    surface_m2_kg: float
    water: float = Field(description="by mass of glass")
    of_resin: float = Field(description="the same water by mass of the resin between the grains")


class DryingTray(Part):
    """One tray."""

    number: int
    colour: str
    grade: str
    glass_kg: float = Field(description="dry")
    constant_kg: float = Field(description="it may still lose in an hour and counts as dry")


class DryingWay(Part):
    """One way to dry."""

    name: Literal["room", "warm air", "oven"]
    hours: float
    low_h: float
    high_h: float
    conditions: str
    kind: str


class Drying(Part):
    """From wet to constant weight."""

    dried: Literal["room", "warm air", "oven"]
    waits_h: float
    own: bool = Field(description="whether the shop timed it itself")
    weigh_every_h: float
    constant: float = Field(description="share a tray may lose between two weighings")
    least_on_scale_kg: float = Field(description="lightest tray on which the scale shows that share")
    film_m: float
    film_kind: str
    wet: list[WetLot]
    ways: list[DryingWay]
    trays: list[DryingTray]
    does: str = Field(description="what a film of water does to this resin")


class CrushedGlass(Part):
    """From bottles to crushed glass."""

    yields: list[GradeYield]
    sizes: Sizes | None = Field(description="null: nothing was sieved")
    colours: list[ColourBottles]
    left: str = Field(description="left over, in one line")
    recommendation: str
    steps: list[str]
    sorting: list[SortedOut]
    drying: Drying
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
