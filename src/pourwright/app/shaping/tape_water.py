"""One thing measured twice: its form with a tape, its volume by water."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

from pourwright.app.shaping.tape_doubt import ONE_IN_TEN, TapeDoubt
from pourwright.foundation.notation import UnitSystem, format_volume

FAR_APART = 2.0
"""Times the doubt of both by which honest readings hardly ever differ."""


@dataclass(frozen=True, slots=True)
class Twice:
    """A volume from two measurements.

    Parameters
    ----------
    tape, water : float
        What each says [m3].
    tape_deviation, water_deviation : float
        Standard deviation of each [m3].
    """

    tape: float
    tape_deviation: float
    water: float
    water_deviation: float

    @property
    def volume(self) -> float:
        """The mean, each weighed by how sure it is [m3]."""
        share = self.water_deviation**2 / (self.tape_deviation**2 + self.water_deviation**2)
        return share * self.tape + (1 - share) * self.water

    @property
    def apart(self) -> float:
        """How far they differ, in standard deviations of their difference [-]."""
        return abs(self.tape - self.water) / hypot(self.tape_deviation, self.water_deviation)

    @property
    def deviation(self) -> float:
        """Standard deviation of the mean [m3]; larger where they differ by more than both allow.

        The ratio of Birge, Phys. Rev. 40 (1932) 207 [birge-1932].

        Examples
        --------
        >>> round(Twice(10.0, 0.4, 10.3, 0.3).deviation, 6), round(Twice(10.0, 0.4, 12.0, 0.3).deviation, 6)
        (0.24, 0.96)
        """
        both = 1 / sqrt(self.tape_deviation**-2 + self.water_deviation**-2)
        return both * max(1.0, self.apart)

    @property
    def band(self) -> tuple[float, float]:
        """Volume that one in ten and nine in ten such bodies stay below [m3]."""
        return self.volume - ONE_IN_TEN * self.deviation, self.volume + ONE_IN_TEN * self.deviation


def measured_twice(doubt: TapeDoubt, water: float, deviation: float) -> Twice:
    """Put tape and water side by side.

    Parameters
    ----------
    doubt : TapeDoubt
        Of the tape.
    water, deviation : float
        Volume and its standard deviation from the water [m3].

    Returns
    -------
    Twice
    """
    likely = doubt.volume + sum(part.shift for part in doubt.parts)
    return Twice(likely, doubt.deviation, water, deviation)


def twice_words(twice: Twice, system: UnitSystem) -> str:
    """Say whether tape and water agree.

    Parameters
    ----------
    twice : Twice
        Both.
    system : UnitSystem
        For the words.

    Returns
    -------
    str
    """
    tape, water = (format_volume(each, system) for each in (twice.tape, twice.water))
    if twice.apart <= FAR_APART:
        return f"Tape and water agree: {tape} by the tape, {water} by the water it displaces."
    more = twice.tape > twice.water
    why = "the tape spans hollows, or the thing drank" if more else "the tape missed where it is fattest"
    return (
        f"Tape and water do not agree: {tape} by the tape, {water} by the water it displaces. Measure again "
        f"before anything is bought: {why}."
    )
