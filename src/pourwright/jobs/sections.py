"""The tables of the job file."""

from __future__ import annotations

import re
from typing import Literal, Self

from pydantic import ConfigDict, model_validator

from pourwright.fill.defaults import DEFAULTS as FILL
from pourwright.jobs.fields import (
    Colour,
    Day,
    Length,
    Level,
    Lost,
    Mass,
    PricePerHour,
    PricePerMass,
    PricePerPiece,
    Refused,
    Share,
    Temperature,
    TimeZone,
    Volume,
    WorkingHours,
)
from pourwright.jobs.keys import Section, key

Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WORKDAYS: list[Weekday] = ["mon", "tue", "wed", "thu", "fri"]


class Casting(Section):
    """The casting material."""

    material: str = key("id of a resin, or of a mineral mixed with water")
    start_temperature: Temperature | None = key(
        "of the mixed resin when it is poured",
        shown="shop temperature",
        why="the pails stand in the shop overnight",
    )


class BucketTest(Section):
    """Dry glass of this band, poured level into a bucket, and weighed or filled up with water."""

    mass: Mass | None = key("glass alone, without the bucket", shown="or water")
    water: Volume | None = key("that the full bucket takes up on top of its glass", shown="or mass")
    volume: Volume = key("of the bucket to its brim, measured with water")

    @model_validator(mode="after")
    def _something(self) -> Self:
        if (self.mass is None) == (self.water is None):
            came = "nothing measured" if self.mass is None else "both mass and water"
            raise Refused(f"a bucket test with {came}", "mass, or water", "keep one of the two")
        if min(each.si for each in (self.mass, self.water, self.volume) if each is not None) <= 0:
            raise Refused("an empty bucket test", "amounts above 0", "measure again")
        return self


class Portion(Section):
    """One grade of a mixture."""

    grade: str = key("grade of the glass")
    share: Share = key("of the mixture's mass")


class ShellOfColour(Section):
    """Glass of another colour along the wall of a band."""

    colour: Colour = key("of the shell")
    thickness: Length = key("from the wall inward, three largest grains or more")


class Band(Section):
    """A height of one grade and colour, or neat resin."""

    to: Level = key('upper end from the mold\'s floor as poured, or "top"')
    grade: str | None = key("grade of the glass", shown="none with neat = true")
    colour: Colour | None = key("colour of the glass", shown="any", why="bottles are counted by colour")
    mix: list[Portion] = key(
        "grades mixed with one another before they go in, instead of grade",
        factory=list,
        shown="none",
        why="mixed sizes leave less room for resin; they look finer",
    )
    tapped: bool = key(
        "the mold is tapped while this glass goes in",
        default=False,
        why="it lies closer, and fines sift down",
    )
    neat: bool = key("resin without glass", default=False)
    void_fraction: Share | None = key(
        "resin's share of the band's volume, 0.40 to 0.70", shown="the grade's own, about 0.45",
        why="from memory: poured crushed glass 0.42 to 0.50; a bucket test is better",
    )  # fmt: skip
    bucket_test: BucketTest | None = key("the shop's own measurement; wins over void_fraction", shown="none")
    soft: Length | None = key(
        "depth over which its upper border is mixed half and half with the band above",
        shown="a sharp border", why="up to half of the thinner band",
    )  # fmt: skip
    shell: ShellOfColour | None = key(
        "glass of another colour along wall and floor, colour is then its core", shown="none",
        why="a little of a rare colour shows all round",
    )  # fmt: skip

    @model_validator(mode="after")
    def _glass_or_neat(self) -> Self:
        given = [
            name
            for name, there in (("neat", self.neat), ("a grade", self.grade is not None), ("a mix", self.mix))
            if there
        ]
        if len(given) != 1:
            came = " and ".join(given) if given else "neither a grade nor neat = true"
            came = f"both {came}" if given else came
            raise Refused(
                f"a band with {came}", "grade = ..., mix = [...] or neat = true", "keep one of them"
            )
        glass = (self.colour, self.void_fraction, self.bucket_test, self.soft, self.shell)
        if self.neat and (self.tapped or any(each is not None for each in glass)):
            raise Refused(
                "a neat band with glass keys",
                "to and neat",
                "remove colour, void_fraction, bucket_test, tapped, soft, shell",
            )
        if self.shell is not None and self.shell.colour == self.colour:
            raise Refused(
                f"a shell as {self.colour} as its core", "two colours", "leave the shell out", key="shell"
            )
        self._whole_mix()
        return self

    def _whole_mix(self) -> None:
        if not self.mix:
            return
        grades = [portion.grade for portion in self.mix]
        if len(set(grades)) < 2 or len(set(grades)) < len(grades):
            raise Refused("a mix of one grade, or with one twice", "two grades or more", "name each once")
        total = sum(portion.share for portion in self.mix)
        if min(portion.share for portion in self.mix) <= 0.0 or abs(total - 1.0) > 0.001:
            raise Refused(f"shares that sum to {total:g}", "shares above 0 that sum to 1", "mend the shares")

    @property
    def blend(self) -> tuple[tuple[str, float], ...]:
        """Grades and shares of a mix, which sum to 1 exactly; empty without one."""
        total = sum(portion.share for portion in self.mix)
        return tuple((portion.grade, portion.share / total) for portion in self.mix)


class Stocked(Section):
    """Crushed glass that lies ready."""

    grade: str = key("of the glass")
    colour: Colour | None = key("of the glass", shown="any")
    mass: Mass = key("dry")


class Fill(Section):
    """Glass and losses."""

    glass: str = key("id of the glass", default="soda-lime-crushed", why="container glass")
    neat_cover: Length | None = key(
        "neat resin over the topmost glass",
        shown="one largest grain",
        why="or grains stand out of the open face",
    )
    overfill: Length | None = key(
        "resin poured over the open face, to be planed off", shown="none",
        why="the top sinks before it gels; pourwright fill says how much",
    )  # fmt: skip
    test_cube: Length | None = key(
        "edge of a test cube of the bands", shown="ten largest grains, at least 60 mm",
        why="poured first: voids, colour, heat, sink",
    )  # fmt: skip
    film: Length | None = key("resin that clings, per face area", room=FILL["film"], shown="0.1 mm")
    bucket_loss: Share | None = key("share of the mix that stays in the pail", room=FILL["bucket_loss"])
    allowance: Share | None = key("share mixed on top", room=FILL["allowance"])
    water_ratio: float | None = key(
        "mass of water over that of dry powder, for gypsum or concrete",
        shown="its record's", why="the bag decides", ge=0.01, le=5,
    )  # fmt: skip
    aggregate: Share | None = key(
        "crushed glass stirred into gypsum or concrete, share of the volume", shown="none",
        why="25 to 40 % still flows",
    )  # fmt: skip
    aggregate_grade: str | None = key(
        "its grade", shown="the coarsest of the bands", why="bands of their own are for resin alone"
    )
    stock: list[Stocked] = key(
        "crushed glass that lies ready, by grade and colour", factory=list, shown="none",
        why="what is missing is told, and which mixture of it takes least resin",
    )  # fmt: skip
    method: Literal["over-dry-glass"] = key(
        "how resin and glass come together", default="over-dry-glass", why="bands keep their heights"
    )


class Shop(Section):
    """Where and when it is poured, mixed and weighed."""

    temperature: Temperature | None = key(
        "of the air, day and night",
        shown="required without day and night",
        why="it decides heat and cure; never guessed",
    )
    day_temperature: Temperature | None = key("of the air during day_hours", shown="temperature")
    night_temperature: Temperature | None = key("of the air outside day_hours", shown="temperature")
    day_hours: WorkingHours | None = key("when the shop is heated", shown="working_hours")
    humidity: Share = key("relative humidity of the air", default=0.5, why="an ordinary heated room")
    time_zone: TimeZone = key("IANA name of the time zone", default="UTC", why="said in the plan; set yours")
    working_hours: WorkingHours | None = key(
        "when somebody is there", shown="08:00-18:00", why="nobody pours at night"
    )
    working_days: list[Weekday] = key(
        "days somebody is there", factory=lambda: list(WORKDAYS), shown="mon to fri", why="an ordinary week"
    )
    days_off: list[Day] = key("dates nobody is there", factory=list, shown="none")
    pail: Volume | None = key(
        "brim volume of the mixing pail", shown="10 l", why="a builder's pail; filled to 3/4"
    )
    vacuum_pot: Volume | None = key(
        "brim volume of the vacuum pot", shown="none", why="rubber foams up in it: filled to a third"
    )
    scale_capacity: Mass | None = key(
        "most the scale carries", shown="15 kg", why="a kitchen or parcel scale"
    )
    scale_step: Mass | None = key("smallest step it shows", shown="1 g", why="a kitchen scale")

    @model_validator(mode="after")
    def _temperatures(self) -> Self:
        halves = [self.day_temperature, self.night_temperature]
        if (self.temperature is not None) == any(half is not None for half in halves):
            raise Refused(
                "the shop's temperature is not clear",
                "temperature, or both day_temperature and night_temperature",
                'write temperature = "20 degC" or what a thermometer says there',
            )
        if self.temperature is None and None in halves:
            raise Refused("one half of day and night is missing", "both temperatures", "add the other one")
        if not self.working_days:
            raise Refused("no working days", "mon, tue, wed, thu, fri, sat, sun", "name at least one")
        return self


class Limits(Section):
    """Temperatures that must not be passed."""

    resin_peak: Temperature | None = key("of the resin", shown="the resin's own", why="its record says why")
    rubber_peak: Temperature | None = key(
        "of the rubber's face", shown="the rubber's own", why="its record says why"
    )
    probability: float = key(
        "with which these limits are kept, over all that is not known exactly",
        default=0.95, ge=0.5, le=0.999, why="about 1 casting in 20 may go over; nearer to 1 takes more pours",
    )  # fmt: skip
    weight: Mass | None = key(
        "most the cast piece may weigh", shown="none", why="who lifts it, or what it stands on, decides"
    )
    liquid_depth: Length | None = key(
        "deepest liquid resin over the floor of the mold at a time", shown="none",
        why="its weight presses on the seams until it gels",
    )  # fmt: skip
    leak: Lost | None = key(
        "what each liquid may lose through all its seams before it gels, as a mass or a volume",
        shown="1 % of what is poured of it", why="a smear to wipe up; the spare mixed on top still covers it",
    )  # fmt: skip


class Planner(Section):
    """What the planner may choose, besides levels and times."""

    joints: Literal["sand", "bond"] = key(
        "sand: where nobody is there while a top still bonds, it is washed and sanded; bond: never",
        default="sand", why="counts as much as one more pour; it may show in a clear band",
    )  # fmt: skip
    stop_at_borders: bool = key(
        "end a pour at every border between bands", default=False, why="fewer pours where it may run on"
    )
    resins: list[str] = key(
        "ids of resins it may take instead of casting.material", factory=list, shown="none"
    )
    start_temperatures: list[Temperature] = key(
        "temperatures the resin may be mixed at instead", factory=list, shown="none"
    )
    shop_temperatures: list[Temperature] = key(
        "temperatures the shop may be kept at instead, day and night", factory=list, shown="none"
    )


class Prices(Section):
    """Prices for the shopping list."""

    currency: str = key("ISO 4217 code of the totals")
    resin: PricePerMass | None = key("of the mixed resin", shown="none")
    rubber: PricePerMass | None = key("of the mixed rubber", shown="none")
    glass: PricePerMass | None = key("of crushed glass", shown="none")
    mineral: PricePerMass | None = key("of gypsum or dry concrete", shown="none")
    board: PricePerPiece | None = key("of a sheet for the box", shown="none")
    hour: PricePerHour | None = key(
        "of an hour of work in the shop", shown="none", why="weighs sawing against rubber"
    )

    @model_validator(mode="after")
    def _one_currency(self) -> Self:
        for name in ("resin", "rubber", "glass", "mineral", "board", "hour"):
            price = getattr(self, name)
            if price is not None and price.currency != self.currency:
                raise Refused(
                    f"{name} is priced in {price.currency}", self.currency, "use one currency", name
                )
        return self


class Variant(Section):
    """Lines that differ from the rest of the file; bands are replaced as a whole."""

    model_config = ConfigDict(extra="allow", frozen=True, strict=True)

    name: str = key("names the plan and its folder")

    @model_validator(mode="after")
    def _name_of_a_folder(self) -> Self:
        if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9 _-]{0,39}", self.name):
            raise Refused(
                f"a variant cannot be called {self.name!r}",
                "letters, digits, blanks, - and _, at most 40",
                "it names a folder: choose a plain name",
                "name",
            )
        return self
