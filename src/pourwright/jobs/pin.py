"""Values pinned for a check of the heat run, under [pin]."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pourwright.jobs.fields import (
    Conductivity,
    Density,
    Duration,
    Film,
    HeatCapacity,
    Kelvin,
    Length,
    Level,
    MolarEnergy,
    Rate,
    Share,
    SpecificEnergy,
    Temperature,
    Title,
)
from pourwright.jobs.keys import Section, key

_RESIN = "the resin's own"
Order = Annotated[float, Field(ge=0, le=10, allow_inf_nan=False)]


class PinKinetics(Section):
    """Cure law: rate = (a1 exp(-e1/RT) + a2 exp(-e2/RT) c^m) (1 - c)^n, c being the share that has cured."""

    a1: Rate | None = key("frequency factor of the path that needs no start", shown=_RESIN)
    e1: MolarEnergy | None = key("its activation energy", shown=_RESIN)
    a2: Rate | None = key("frequency factor of the path that cured resin speeds up", shown=_RESIN)
    e2: MolarEnergy | None = key("its activation energy", shown=_RESIN)
    m: Order | None = key("order of what has cured", shown=_RESIN)
    n: Order | None = key("order of what is left", shown=_RESIN)
    heat_of_reaction: SpecificEnergy | None = key(
        "heat from mixed to cured, per mass of mixed resin, or of the one material of [pin.matter]",
        shown=_RESIN,
    )
    diffusion: bool | None = key(
        "whether the resin's own glass transition slows the cure",
        shown="false where any of a1 to n is pinned, else true",
        why="a published law without it is the whole law",
    )
    start: Share | None = key(
        "share that has cured as it is poured",
        shown="0 where a1 is pinned above 0, else the resin's own 0.0001",
        why="a path that needs a start never starts from 0",
    )


class PinMatter(Section):
    """The casting as one material, in the place of resin and glass."""

    density: Density | None = key("density", shown=_RESIN)
    heat_capacity: HeatCapacity | None = key("heat capacity per mass", shown=_RESIN)
    conductivity: Conductivity | None = key("thermal conductivity", shown=_RESIN)


class PinFilm(Section):
    """One constant film coefficient in the place of moving air, radiation and bench."""

    h: Film = key("on every bare face; 0 lets no heat through, 1e9 W/(m2 K) holds a face at the air's")


class PinMold(Section):
    """What stands around the casting."""

    around: bool = key(
        "false for the casting alone, every face bare: no rubber, no box, no bench",
        default=True, why="published cases rarely have a mold",
    )  # fmt: skip


class PinSurroundings(Section):
    """Temperature around it over time, in the place of the shop's; straight lines between, level after."""

    times: list[Duration] = key("from the start of the run on, rising", min_length=1)
    temperatures: list[Temperature] = key("one for each time", min_length=1)


class PinGrid(Section):
    """Grid and steps of the heat run."""

    spacing: Length | None = key(
        "widest cell", shown="8 mm, less for a small piece, more for a very large one"
    )
    across: Length | None = key(
        "widest cell along x and y",
        shown="spacing, where that is given",
        why="a wide slab needs fine cells in its depth alone",
    )
    tolerance: Kelvin | None = key("error of stepping in time aimed for", shown="0.05 K")


class PinPour(Section):
    """One pour; without any the whole piece is poured at once."""

    to: Level = key('level it ends at, from the mold\'s floor, or "top"')
    at: Duration | None = key("time from the start of the run", shown="0 h for the first, else required")
    temperature: Temperature | None = key(
        "of the mixed resin", shown="casting.start_temperature, or the surroundings' at that time"
    )


class PinProbe(Section):
    """A place in the casting whose temperature and cure are printed."""

    name: Title | None = key("name of the probe", shown="its number")
    x: Length | None = key("from the middle of the piece", shown="0 mm")
    y: Length | None = key("from the middle of the piece", shown="0 mm")
    z: Length = key("up from the mold's floor")


class Pin(Section):
    """Values pinned for a check of the heat run; `pourwright heat` runs just that."""

    kinetics: PinKinetics | None = key("law of the cure", shown=_RESIN)
    matter: PinMatter | None = key("the casting as one material", shown="resin and glass")
    film: PinFilm | None = key("film coefficient", shown="moving air and radiation, by face")
    mold: PinMold | None = key("what stands around the casting", shown="rubber, box and bench")
    surroundings: PinSurroundings | None = key("temperature around it over time", shown="the shop's")
    grid: PinGrid | None = key("grid and steps", shown="the run's own")
    pour: list[PinPour] = key("pours, in order", factory=list, shown="the whole piece at once")
    probe: list[PinProbe] = key("places to print", factory=list, shown="none")
    until: Duration | None = key(
        "end of the run, from its start",
        shown="when it has cooled off its peak, at most three weeks after the last pour",
    )
