"""Values pinned for checks of the heat run, under [pin]."""

from __future__ import annotations

from pourwright.jobs.fields import (
    Duration,
    Film,
    Length,
    Level,
    MolarEnergy,
    Rate,
    SpecificEnergy,
    Temperature,
)
from pourwright.jobs.keys import Section, key


class PinKinetics(Section):
    """Kamal-Sourour kinetics instead of the resin's own."""

    a1: Rate = key("frequency factor of the uncatalysed path")
    e1: MolarEnergy = key("its activation energy")
    a2: Rate = key("frequency factor of the autocatalysed path")
    e2: MolarEnergy = key("its activation energy")
    m: float = key("order of conversion", ge=0)
    n: float = key("order of what is left", ge=0)
    heat_of_reaction: SpecificEnergy = key("heat per mass of mixed resin")
    diffusion: bool = key("whether the glass transition slows the cure", default=False)


class PinFilm(Section):
    """One constant film coefficient instead of air and radiation."""

    h: Film = key("film coefficient on every outer face")


class PinGrid(Section):
    """Grid of the heat run."""

    spacing: Length | None = key("largest cell edge", shown="the run's own")
    tolerance: float | None = key("error allowed per step [K]", shown="the run's own", gt=0)


class PinPour(Section):
    """One pour at a given time instead of the planned ones."""

    to: Level = key("level it ends at")
    at: Duration = key("time after the first pour")
    temperature: Temperature | None = key("of the mixed resin", shown="casting.start_temperature")


class PinProbe(Section):
    """A place whose temperature is printed."""

    name: str = key("name of the probe")
    x: Length = key("from the middle of the piece")
    y: Length = key("from the middle of the piece")
    z: Length = key("from the mold's floor")


class Pin(Section):
    """Values pinned for checks."""

    kinetics: PinKinetics | None = key("kinetics of the cure", shown="the resin's own")
    film: PinFilm | None = key("film coefficient", shown="air and radiation")
    grid: PinGrid | None = key("grid of the run", shown="the run's own")
    pour: list[PinPour] = key("pours, in order", factory=list, shown="as planned")
    probe: list[PinProbe] = key("places to print", factory=list, shown="none")
