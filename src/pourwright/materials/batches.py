"""Two-part materials weighed out: parts by weight, split into pails, rounded to the scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.sources import Kind, Sourced

USABLE_PAIL = Sourced(
    0.75, "", 0.6, 0.8, Kind.PRACTICE, "common-practice", "a fuller pail spills when stirred"
)
HANDLING_RATE = Sourced(
    1.0 / 60.0, "kg/s", 0.5 / 60.0, 2.0 / 60.0, Kind.PRACTICE, "common-practice",
    "stirred by hand, scraped, stirred again in a second pail and poured in a thin stream",
)  # fmt: skip
MIXING_TIME = Sourced(300.0, "s", 180.0, 420.0, Kind.PRACTICE, "common-practice", "before the stream starts")
PAIL_MASS = Sourced(
    0.5, "kg", 0.2, 1.0, Kind.PRACTICE, "common-practice", "the scale carries the empty pail too"
)


@dataclass(frozen=True, slots=True)
class Batch:
    """One mix in one pail, as the scale shows it.

    Parameters
    ----------
    number : int
        Counted from 1.
    mass, part_a, part_b : float
        Whole mix and its parts [kg], multiples of the scale's step.
    ratio_error : float
        Relative error of B against A after rounding [-].
    """

    number: int
    mass: float
    part_a: float
    part_b: float
    ratio_error: float


@dataclass(frozen=True, slots=True)
class Tools:
    """What the shop mixes and weighs with.

    Parameters
    ----------
    pail : float
        Brim volume of the mixing pail [m3].
    scale_capacity : float
        Most the scale carries [kg].
    scale_step : float
        Smallest step it shows [kg].
    """

    pail: float = 0.010
    scale_capacity: float = 15.0
    scale_step: float = 0.001


@checked(working_time=Range(0, unit="s", open_low=True))
def most_within(working_time: float) -> float:
    """Say how much one person can stir and pour before the working time is over.

    Parameters
    ----------
    working_time : float
        From the first contact of A and B until it stops flowing [s].

    Returns
    -------
    float
        Mass [kg]; at least what half the working time allows.

    Notes
    -----
    Common practice, no source: (working time - mixing time) * handling rate.

    Examples
    --------
    >>> round(most_within(45 * 60.0), 6)
    40.0
    """
    left = max(working_time - MIXING_TIME.value, working_time / 2)
    return left * HANDLING_RATE.value


def largest_batch(density: float, tools: Tools, working_time: float | None = None) -> float:
    """Say what one batch may weigh: by pail, by scale, by working time.

    Parameters
    ----------
    density : float
        Density of the mix [kg/m3].
    tools : Tools
        Pail and scale.
    working_time : float, optional
        From the first contact of A and B until it stops flowing [s].

    Returns
    -------
    float
        Mass [kg].

    Examples
    --------
    >>> largest_batch(1100.0, Tools(pail=0.005))
    4.125
    """
    limits = [tools.pail * USABLE_PAIL.value * density, tools.scale_capacity - PAIL_MASS.value]
    if working_time is not None:
        limits.append(most_within(working_time))
    return max(min(limits), tools.scale_step * 10)


def time_to_pour(batches: Sequence[Batch]) -> float:
    """Say how long one person stirs and pours, one batch after the other.

    Parameters
    ----------
    batches : sequence of Batch
        One per pail.

    Returns
    -------
    float
        From the first contact of A and B until the last pail is empty [s].

    Notes
    -----
    Common practice, no source: mixing time per batch + mass / handling rate.

    Examples
    --------
    >>> time_to_pour(split_batches(10.0, (1, 1), 5.0, 0.001)) / 60
    20.0
    """
    mass = sum(batch.mass for batch in batches)
    return len(batches) * MIXING_TIME.value + mass / HANDLING_RATE.value


def split_batches(
    mass: float, parts: tuple[float, float], largest: float, scale_step: float
) -> tuple[Batch, ...]:
    """Split a mix into equal batches and round each part to the scale.

    Parameters
    ----------
    mass : float
        Mix wanted [kg]; 0 gives no batch.
    parts : tuple of float
        Parts of A and B by weight.
    largest : float
        Most one batch may weigh [kg].
    scale_step : float
        Smallest step the scale shows [kg].

    Returns
    -------
    tuple of Batch
        Together never less than ``mass``: A is rounded up, B to the nearest step of its share of A.

    Examples
    --------
    >>> [(b.part_a, b.part_b) for b in split_batches(6.0, (100, 50), 4.0, 0.001)]
    [(2.0, 1.0), (2.0, 1.0)]
    """
    if mass <= 0:
        return ()
    count = math.ceil(mass / largest * (1 - 1e-12))
    wanted = mass / count
    ratio = parts[1] / parts[0]
    steps_a = math.ceil(wanted / (1 + ratio) / scale_step * (1 - 1e-12))
    steps_b = max(round(steps_a * ratio), 1)
    if steps_a + steps_b < wanted / scale_step * (1 - 1e-12):
        steps_b += 1
    part_a, part_b = round(steps_a * scale_step, 9), round(steps_b * scale_step, 9)
    error = steps_b / steps_a / ratio - 1
    return tuple(
        Batch(number + 1, round(part_a + part_b, 9), part_a, part_b, error) for number in range(count)
    )
