"""The tests that data sheets speak of, each simulated on a resin: E12 of the checks names their standards.

Each is a small class that takes its conditions once and is then called with a resin, SI in and out.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from pourwright.calibration.bodies import bar, cup, disc, film, slab
from pourwright.calibration.curing import HOTTEST, LEAST, MEAN, PROBE, Air, Trace, cure_body
from pourwright.calibration.defaults import DEFAULTS
from pourwright.calibration.parameters import Resin
from pourwright.physics.glass_transition import dibenedetto, dibenedetto_conversion
from pourwright.physics.heat_deflection import METHODS

ROOM = DEFAULTS["room"].value
GEL_MASS = DEFAULTS["gel_mass"].value
POT_MASS = DEFAULTS["pot_mass"].value
DEMOLD_THICKNESS = DEFAULTS["demold_thickness"].value
PEAK_LIMIT = DEFAULTS["peak_limit"].value
LOAD = METHODS["ISO 75 A"].stress
DAY = 86400.0
PATIENCE = 8.0
"""How many times the stated time a test is simulated before it counts as not reached."""
SHALLOWEST, DEEPEST = 0.2, 5.0
"""Shares of the stated depth between which the simulated one is sought."""
FINE = 2e-3
FAR_BEYOND = 30.0
MOST_TRIALS = 24


@dataclass(frozen=True)
class _InACup:
    """A mass that stands in its cup for a stated time or a few times that."""

    mass: float
    room: float
    density: float
    stated: float
    wall: str = "plastic"

    def _traced(self, resin: Resin, what: int, end: float) -> Trace:
        body = cup(self.mass, self.density, self.room, wall=self.wall)
        patience = PATIENCE * self.stated
        return cure_body(resin, body, Air.steady(self.room), self.room, patience, stop=(what, end))


@dataclass(frozen=True)
class PotLife(_InACup):
    """Time until a mass in its cup is too thick or too hot to pour.

    Parameters
    ----------
    mass, room, density, stated, wall : as stated [kg, K, kg/m3, s, key of `WALLS`]

    Notes
    -----
    Mean cure of the cup reaches `DEFAULTS["pot_conversion"]`. Standards define a working life by
    viscosity [iso-10364]; data sheets of casting resins rarely say what they mean.
    """

    def __call__(self, resin: Resin) -> float:
        """Pot life [s]."""
        end = DEFAULTS["pot_conversion"].value
        trace = self._traced(resin, MEAN, end)
        return trace.when(trace.mean_cure, end)


@dataclass(frozen=True)
class GelTime(_InACup):
    """Time until the middle of a mass in its cup gels.

    Parameters
    ----------
    mass, room, density, stated, wall : as stated [kg, K, kg/m3, s, key of `WALLS`]

    Notes
    -----
    100 g at 23 degC, until a probe no longer picks up resin [astm-d2471]; here: until the
    middle reaches the resin's gel conversion. ISO 2535 and 9396 define it for other resins.
    """

    def __call__(self, resin: Resin) -> float:
        """Gel time [s]."""
        trace = self._traced(resin, PROBE, resin.gel)
        return trace.when(trace.probe_cure, resin.gel)


@dataclass(frozen=True)
class TackFree:
    """Time until a coat no longer sticks to a finger.

    Parameters
    ----------
    room, stated : as stated [K, s]

    Notes
    -----
    A coat as warm as the room, until its glass transition is `DEFAULTS["tack_free_below"]` below it,
    and at least until it gels. From memory; coats differ.
    """

    room: float
    stated: float

    def __call__(self, resin: Resin) -> float:
        """Tack-free time [s]."""
        hard = dibenedetto_conversion(self.room - DEFAULTS["tack_free_below"].value, *resin.law.glass)
        return self.until(resin, min(max(hard, resin.gel), 0.999))

    def until(self, resin: Resin, cured: float) -> float:
        """Time until the coat has come so far [s]."""
        air, end = Air.steady(self.room), PATIENCE * self.stated
        trace = cure_body(resin, film(self.room), air, self.room, end, stop=(LEAST, cured))
        return trace.when(trace.least_cure, cured)


@dataclass(frozen=True)
class Demold:
    """Time until the least-cured place of a casting is hard enough for the shop.

    Parameters
    ----------
    thickness, room, stated : as stated [m, K, s]

    Notes
    -----
    Its glass transition is `DEFAULTS["demold_margin"]` above the shop, as in the pour plan.
    """

    thickness: float
    room: float
    stated: float

    def __call__(self, resin: Resin) -> float:
        """Time to demold [s]."""
        cured = min(
            dibenedetto_conversion(self.room + DEFAULTS["demold_margin"].value, *resin.law.glass), 0.999
        )
        air = Air.steady(self.room)
        body = slab(self.thickness, self.room)
        trace = cure_body(resin, body, air, self.room, PATIENCE * self.stated, stop=(LEAST, cured))
        return trace.when(trace.least_cure, cured)


@dataclass(frozen=True)
class Peak:
    """Highest temperature of a mass in its cup.

    Parameters
    ----------
    mass, room, density, wall : as stated [kg, K, kg/m3, key of `WALLS`]

    Notes
    -----
    Peak exotherm is read in the same run as the gel time [astm-d2471].
    """

    mass: float
    room: float
    density: float
    wall: str = "plastic"

    def __call__(self, resin: Resin) -> float:
        """Peak temperature [K]."""
        body = cup(self.mass, self.density, self.room, wall=self.wall)
        air = Air.steady(self.room)
        return cure_body(resin, body, air, self.room, 30 * DAY, stop_cooled=0.1).peak


@dataclass(frozen=True)
class Depth:
    """Greatest depth of one pour whose hottest place stays below a limit.

    Parameters
    ----------
    room, limit, stated : as stated [K, K, m]
    width : of a long casting [m], where the sheet limits it
    mass : of one pour [kg], where the sheet limits it
    density : of the mix [kg/m3]

    Notes
    -----
    In a wooden form on a bench. The limit is the resin's own; where the sheet is silent, common
    practice.
    """

    room: float
    limit: float
    stated: float
    width: float | None = None
    mass: float | None = None
    density: float = 1100.0

    def __call__(self, resin: Resin) -> float:
        """Greatest depth [m]."""
        low, high = (math.log(share * self.stated) for share in (SHALLOWEST, DEEPEST))
        return math.exp(_crossing(lambda depth: self._excess(resin, math.exp(depth)), low, high))

    def _excess(self, resin: Resin, depth: float) -> float:
        if self.mass is not None:
            body = disc(self.mass, depth, self.density, self.room)
        elif self.width is not None:
            body = bar(self.width, depth, self.room)
        else:
            body = slab(depth, self.room)
        # how far beyond the limit it runs away does not matter for where it crosses it
        stop = (HOTTEST, self.limit + FAR_BEYOND)
        trace = cure_body(resin, body, Air.steady(self.room), self.room, 30 * DAY, stop=stop, stop_cooled=0.1)
        # the logarithm of the rise bends less than the rise itself
        return math.log(max(trace.peak - self.room, 1e-3) / max(self.limit - self.room, 1e-3))


def _crossing(excess: Callable[[float], float], low: float, high: float) -> float:
    """Find where a rising function crosses 0; beyond the ends it is carried on smoothly."""
    at_low, at_high = excess(low), excess(high)
    if at_low > 0:
        return low - at_low
    if at_high < 0:
        return high - at_high
    for trial in range(MOST_TRIALS):
        share = -at_low / (at_high - at_low)
        # every third trial halves, so that a step in the function cannot hold the search up
        middle = (low + high) / 2 if trial % 3 == 2 else low + (high - low) * min(max(share, 0.05), 0.95)
        at = excess(middle)
        if at > 0:
            high, at_high = middle, at
        else:
            low, at_low = middle, at
        if high - low < FINE:
            break
    return low + (high - low) * (-at_low / (at_high - at_low))


@dataclass(frozen=True)
class GlassTransition:
    """Glass transition after a stated cure, or of the fully cured resin.

    Parameters
    ----------
    after : how long it has cured [s]; None for a full cure with heat
    room : at which temperature [K]

    Notes
    -----
    By calorimetry [iso-11357-2].
    """

    after: float | None
    room: float

    def __call__(self, resin: Resin) -> float:
        """Glass transition [K]."""
        if self.after is None:
            return resin.law.glass_transition_full
        trace = cure_body(resin, film(self.room), Air.steady(self.room), self.room, self.after)
        return float(dibenedetto(float(trace.least_cure[-1]), *resin.law.glass))


@dataclass(frozen=True)
class HeatDeflection:
    """Temperature at which a loaded bar of resin sags.

    Parameters
    ----------
    load : stress in the bar [Pa]; 1.8 MPa in method A
    after, room : as of `GlassTransition`

    Notes
    -----
    Method A 1.80 MPa, B 0.45 MPa, C 8.00 MPa, at 120 K/h [iso-75]. Its distance to the glass
    transition is from memory.
    """

    load: float
    after: float | None
    room: float

    def __call__(self, resin: Resin) -> float:
        """Heat deflection temperature [K]."""
        below = DEFAULTS["deflection_below"].value
        per_half = DEFAULTS["deflection_per_load"].value
        return GlassTransition(self.after, self.room)(resin) - below + per_half * math.log2(LOAD / self.load)
