"""A leak in the maker's words: short lines for a phone at seven in the morning."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from pourwright.app.leaking.of_plan import Leaking, glass_below
from pourwright.app.leaking.rescue import SMALL, Bond
from pourwright.jobs.leak import LeakTopUp, Way
from pourwright.pour.leaked.lost import Clash, Contradiction, Estimate, Lost
from pourwright.pour.leaked.running import Running
from pourwright.pour.leaked.top_up import AtGel
from pourwright.sheets.wording import Wording, readings_differ

WAYS: Mapping[Way, str] = MappingProxyType(
    {
        "nothing": "Nothing has to be done: what is missing is no more than a reading can tell.",
        "now": "It can be saved: top it up now, while it is liquid; nobody will see a line.",
        "bond": "It can be saved: top it up while its gelled top still bonds.",
        "sand": "It can be saved with work: its top bonds no more; wash it, sand it, then top it up.",
        "glass out": "It can be saved with work: take out the loose glass above the level, wash and sand "
        "the top, lay clean glass in again, then top it up.",
    }
)

CLASHES: Mapping[Clash, str] = MappingProxyType(
    {
        "over": "{first} was poured, the level needs {second}: the stick stood on glass, a batch is not "
        "noted, or the glass lies closer than thought.",
        "caught": "By the level {first} ran out, by what was found {second}: look for another puddle, weigh "
        "the tray empty, read the level again.",
        "more than poured": "{first} was found, but only {second} was poured: a batch is not noted, or the "
        "tray was weighed with it.",
        "glass": "With the level out of sight {first} or more ran out, but only {second} was found: look for "
        "another puddle.",
        "rises": "The level rises from {first} to {second} with nothing poured in: one reading is wrong.",
    }
)


class LeakWords:
    """Says what was reckoned of one pour."""

    def __init__(self, leak: Leaking) -> None:
        self.leak = leak
        self.say = Wording(leak.plan.job)

    def at(self, seconds: float) -> str:
        """A moment after the pour began, on the shop's clock."""
        return self.say.moment(self.leak.moment(seconds).isoformat())

    def mass(self, likely: float, low: float, high: float) -> str:
        """A mass [kg] with its band."""
        return f"{self.say.mass(likely)} ({self.say.mass(low)} to {self.say.mass(high)})"

    def height(self, level: float) -> str:
        """A level in the readings the maker has."""
        say, plan = self.say, self.leak.plan
        told = say.length(level)
        if readings_differ(plan) and plan.piece.flipped:
            told += f" as poured, {say.length(plan.piece.height_m - level)} as it stands"
        rim = plan.dip_stick[0].height_m + plan.dip_stick[0].dip_m
        return f"{told}, {say.length(max(rim - level, 0.0))} below the rim"

    def in_mold(self, out: Lost) -> str:
        """What is where."""
        poured = self.leak.case.poured.mass
        held = self.mass(poured - out.likely, poured - out.high, poured - out.low)
        litres = self.say.volume((poured - out.likely) / self.leak.case.density)
        gone = self.mass(out.likely, out.low, out.high)
        return f"In the mold: {held}, {litres}. Run out: {gone}."

    def running(self, runs: Running) -> str:
        """Whether it runs, and how that is known."""
        say = self.say
        rate = f"{say.mass(3600.0 * runs.rate)} an hour"
        fell = ""
        if runs.fell is not None and runs.between is not None and runs.noise is not None:
            fell = (
                f": it {'fell' if runs.fell >= 0.0 else 'rose'} {say.bend(abs(runs.fell))} in "
                f"{say.duration(runs.between / 3600.0)}, readings are good to {say.bend(runs.noise)}"
            )
        if runs.state == "gelled":
            return "It has gelled: nothing runs any more."
        if runs.state == "runs":
            return f"It still runs, {rate}{fell}. Put a tray under it and close the place with clay."
        if runs.state == "stopped":
            return f"It runs no more{fell}."
        again = ""
        if runs.look_again is not None:
            again = f" Read again in {say.duration(runs.look_again / 3600.0)}: a fall would show by then."
        return f"One cannot tell yet whether it still runs{fell}; were it to, {rate}.{again}"

    def at_gel(self, gel: AtGel, bond: Bond, state: str) -> str:
        """Where it stands when it gels."""
        span = f"({self.say.length(gel.low)} to {self.say.length(gel.high)})"
        wanted = self.say.length(self.leak.pour.to_m)
        told = f"At gel, {self.at(bond.gel)}, its level is {self.height(gel.level)} {span}; wanted: {wanted}."
        if state in ("runs", "cannot tell") and gel.if_stopped - gel.level > SMALL:
            told += f" Closed now, it stays at {self.say.length(gel.if_stopped)}."
        return told

    def mix(self, top: LeakTopUp) -> str:
        """What to weigh out."""
        if top.way == "nothing" or not top.batches:
            return "No top-up."
        say, one = self.say, top.batches[0]
        many = f" in {len(top.batches)} batches of" if len(top.batches) > 1 else ":"
        band = f"{say.mass(top.missing_kg_p10)} to {say.mass(top.missing_kg_p90)}"
        return (
            f"Mix {say.weighed(top.mix_kg)}{many} A {say.weighed(one.part_a_kg)}, "
            f"B {say.weighed(one.part_b_kg)}. {say.mass(top.missing_kg)} ({band}) goes in, "
            f"up to {self.height(top.up_to_m)}."
        )

    def evidence(self, estimate: Estimate) -> str:
        """What one evidence says."""
        say = self.say
        value = f"{say.mass(abs(estimate.value))}, good to {say.mass(estimate.doubt)}"
        if estimate.kind == "caught":
            return f"What was found says that {value} ran out; it counts {say.share(estimate.weight)}."
        if estimate.kind == "at most":
            return f"The level out of sight says that {value}, or more, ran out."
        if estimate.value < 0.0:
            return f"The level says that {value}, is in the mold over what was poured."
        return f"The level says that {value} ran out; it counts {say.share(estimate.weight)}."

    def clash(self, found: Contradiction) -> str:
        """Two evidences that do not go together, and what may be behind it."""
        told = self.say.length if found.kind == "rises" else self.say.mass
        first, second = told(found.first), told(found.second)
        return CLASHES[found.kind].format(first=first, second=second)

    def bands(self, gel: AtGel, way: Way) -> Iterator[str]:
        """What it does to bands and bond."""
        if way == "nothing":
            return
        say, plan, pour = self.say, self.leak.plan, self.leak.pour
        band = next((each for each in plan.fill.bands if each.from_m <= gel.level < each.to_m), None)
        if band is not None:
            line = "may be seen as a line round the piece" if way != "now" else "leaves no line"
            what = "clear resin" if band.kind == "neat" else f"{band.colour} glass"
            yield f"The top-up begins in {band.name} ({what}), at {say.length(gel.level)}: that {line}."
        glass = glass_below(plan, pour.to_m)
        if glass is not None and gel.level < glass.to_m - SMALL:
            top = min(glass.to_m, pour.to_m)
            yield (
                f"The glass from {say.length(gel.level)} to {say.length(top)} stays where it is, wet: no "
                "colour moves. Pour slowly at one side, so that the air comes out at the other."
            )
        if way == "bond":
            yield "Onto gelled resin the top-up bonds by itself; nothing runs through what has gelled."
        if way == "glass out":
            yield "Glass that sticks out of hard resin is rough enough to hold; loose grains are not."
