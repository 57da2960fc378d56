"""What a fit is made from: facts of a data sheet, each with the test that it speaks of."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from types import MappingProxyType
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration import sheet_tests as tests
from pourwright.calibration.parameters import Resin
from pourwright.foundation.sources import Kind, Sourced

Array = NDArray[np.float64]


class FactKind(StrEnum):
    """What a data sheet may state, by its key in the file."""

    POT_LIFE = "pot_life"
    GEL_TIME = "gel_time"
    TACK_FREE = "tack_free"
    DEMOLD = "demold"
    PEAK = "peak"
    DEPTH = "depth"
    GLASS_TRANSITION = "glass_transition"
    HEAT_DEFLECTION = "heat_deflection"


class Measure(StrEnum):
    """What a fact counts in."""

    TIME = "time"
    TEMPERATURE = "temperature"
    LENGTH = "length"


@dataclass(frozen=True, slots=True)
class Deviation:
    """How far a stated value and the simulated test usually lie apart.

    Parameters
    ----------
    usual : Sourced
        One standard deviation: a share, or kelvin for temperatures.
    measure : Measure
        What the fact counts in.
    """

    usual: Sourced
    measure: Measure


def _share(value: float, words: str) -> Sourced:
    return Sourced(value, "", value / 2, value * 2, Kind.MEMORY, "families-from-memory", words)


def _kelvin(value: float, words: str) -> Sourced:
    return Sourced(value, "K difference", value / 2, value * 2, Kind.MEMORY, "families-from-memory", words)


DEVIATIONS: Mapping[FactKind, Deviation] = MappingProxyType(
    {
        FactKind.POT_LIFE: Deviation(_share(0.25, "data sheets mean different things by it"), Measure.TIME),
        FactKind.GEL_TIME: Deviation(_share(0.12, "by hand, with a stick"), Measure.TIME),
        FactKind.TACK_FREE: Deviation(_share(0.25, "by touch, coats differ"), Measure.TIME),
        FactKind.DEMOLD: Deviation(_share(0.25, "a round number with a margin"), Measure.TIME),
        FactKind.PEAK: Deviation(_kelvin(7.0, "cup, probe and bench are rarely told"), Measure.TEMPERATURE),
        FactKind.DEPTH: Deviation(_share(0.25, "a round number with a margin"), Measure.LENGTH),
        FactKind.GLASS_TRANSITION: Deviation(_kelvin(4.0, "by heating rate and method"), Measure.TEMPERATURE),
        FactKind.HEAT_DEFLECTION: Deviation(
            _kelvin(6.0, "its distance to the glass transition differs"), Measure.TEMPERATURE
        ),
    }
)
"""Usual deviation of each kind of fact."""


class Evidence(Protocol):
    """One thing that a fit is made from."""

    @property
    def label(self) -> str:
        """What it is called in the report."""

    @property
    def own(self) -> tuple[str, ...]:
        """Unknowns that are its own, such as the offset of a sensor."""

    def residuals(self, resin: Resin, own: Array) -> Array:
        """Say how many deviations the resin misses it by, given its own unknowns in deviations."""

    def widened(self, factor: float) -> Evidence:
        """The same, trusted less by a factor."""

    def eased(self, stage: int) -> Evidence:
        """The same in a form that a search finds its way by; stages count from 0."""


@dataclass(frozen=True, eq=False)
class Fact:
    """One number of a data sheet.

    Parameters
    ----------
    kind : FactKind
        What it states.
    label : str
        The fact in words, with its conditions.
    value : float
        What the sheet states, SI.
    test : callable
        Simulates the very test on a resin, SI.
    deviation : float, optional
        One standard deviation: a share, or kelvin; else the usual one of its kind.
    where : str
        File and line.
    """

    kind: FactKind
    label: str
    value: float
    test: Callable[[Resin], float]
    deviation: float = 0.0
    where: str = ""
    own: tuple[str, ...] = field(default=())

    @property
    def measure(self) -> Measure:
        """What it counts in."""
        return DEVIATIONS[self.kind].measure

    @property
    def width(self) -> float:
        """One standard deviation on the stretched scale: of the logarithm, or in kelvin."""
        return self.deviation or DEVIATIONS[self.kind].usual.value

    def stretched(self, value: float) -> float:
        """Put a value on the scale on which it deviates evenly."""
        return value if self.measure is Measure.TEMPERATURE else math.log(value)

    def unstretched(self, value: float) -> float:
        """Take a value back from that scale."""
        return value if self.measure is Measure.TEMPERATURE else math.exp(value)

    def residuals(self, resin: Resin, own: Array) -> Array:  # noqa: ARG002 - a fact has no unknowns of its own
        """Say how many deviations the resin misses it by."""
        found = self.stretched(self.test(resin))
        return np.array([(found - self.stretched(self.value)) / self.width])

    def widened(self, factor: float) -> Evidence:
        """The same, trusted less."""
        return replace(self, deviation=self.width * factor)

    def eased(self, stage: int) -> Evidence:  # noqa: ARG002 - one number is found without easing
        """A fact is the same in every stage."""
        return self


@dataclass(frozen=True, slots=True)
class Conditions:
    """Under what a fact was measured, SI; what is not told is taken from the usual test.

    Parameters
    ----------
    temperature : float, optional
        Of the room and the fresh mix [K].
    mass : float, optional
        Of the mix [kg].
    thickness : float, optional
        Of a casting [m].
    width : float, optional
        Least width of a casting whose depth is limited [m].
    limit : float, optional
        Temperature it must not get hotter than [K].
    after : float, optional
        How long it has cured [s].
    load : float, optional
        Stress in the heat deflection test [Pa].
    wall : str
        What the cup is made of.
    """

    temperature: float | None = None
    mass: float | None = None
    thickness: float | None = None
    width: float | None = None
    limit: float | None = None
    after: float | None = None
    load: float | None = None
    wall: str = "plastic"


Maker = Callable[[float, Conditions, float], Callable[[Resin], float]]


def _pot_life(value: float, given: Conditions, density: float) -> Callable[[Resin], float]:
    mass = given.mass or tests.POT_MASS
    return tests.PotLife(mass, _room(given), density, value, given.wall)


def _gel_time(value: float, given: Conditions, density: float) -> Callable[[Resin], float]:
    mass = given.mass or tests.GEL_MASS
    return tests.GelTime(mass, _room(given), density, value, given.wall)


def _tack_free(value: float, given: Conditions, _density: float) -> Callable[[Resin], float]:
    return tests.TackFree(_room(given), value)


def _demold(value: float, given: Conditions, _density: float) -> Callable[[Resin], float]:
    return tests.Demold(given.thickness or tests.DEMOLD_THICKNESS, _room(given), value)


def _peak(_value: float, given: Conditions, density: float) -> Callable[[Resin], float]:
    return tests.Peak(given.mass or tests.POT_MASS, _room(given), density, given.wall)


def _depth(value: float, given: Conditions, density: float) -> Callable[[Resin], float]:
    limit = given.limit or tests.PEAK_LIMIT
    return tests.Depth(_room(given), limit, value, given.width, given.mass, density)


def _glass_transition(_value: float, given: Conditions, _density: float) -> Callable[[Resin], float]:
    return tests.GlassTransition(given.after, _room(given))


def _heat_deflection(_value: float, given: Conditions, _density: float) -> Callable[[Resin], float]:
    return tests.HeatDeflection(given.load or tests.LOAD, given.after, _room(given))


def _room(given: Conditions) -> float:
    return given.temperature or tests.ROOM


TESTS: Mapping[FactKind, Maker] = MappingProxyType(
    {
        FactKind.POT_LIFE: _pot_life,
        FactKind.GEL_TIME: _gel_time,
        FactKind.TACK_FREE: _tack_free,
        FactKind.DEMOLD: _demold,
        FactKind.PEAK: _peak,
        FactKind.DEPTH: _depth,
        FactKind.GLASS_TRANSITION: _glass_transition,
        FactKind.HEAT_DEFLECTION: _heat_deflection,
    }
)


def make_fact(
    kind: FactKind,
    label: str,
    value: float,
    given: Conditions,
    density: float,
    *,
    deviation: float = 0.0,
    where: str = "",
) -> Fact:
    """Pair a stated value with the simulation of its test.

    Parameters
    ----------
    kind : FactKind
        What is stated.
    label : str
        The fact in words.
    value : float
        Stated value, SI.
    given : Conditions
        Under what it was measured.
    density : float
        Of the mixed resin [kg/m3].
    deviation : float
        One standard deviation, where the sheet tells it: a share, or kelvin; 0 for the usual one.
    where : str
        File and line.

    Returns
    -------
    Fact
    """
    return Fact(kind, label, value, TESTS[kind](value, given, density), deviation, where)
