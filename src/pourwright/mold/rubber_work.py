"""The practice of pouring rubber: time, hands, first coat, vacuum pot, order of pouring, left-overs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from types import MappingProxyType
from typing import Literal

from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials.batches import HANDLING_RATE, MIXING_TIME, Batch, time_to_pour
from pourwright.materials.records import Rubber
from pourwright.mold.choices import Method
from pourwright.mold.rubber_time import time_at
from pourwright.physics.mixing import parts_by_volume

_PRACTICE = "common-practice"
RUBBER_WORK: Mapping[str, Sourced] = MappingProxyType(
    {
        "first coat": Sourced(
            0.00075, "m", 0.0005, 0.001, Kind.PRACTICE, _PRACTICE,
            "brushed or blown over every face of the master so that no bubble sits on it",
        ),
        "vacuum pot fill": Sourced(
            1.0 / 3.0, "", 0.25, 1.0 / 3.0, Kind.PRACTICE, _PRACTICE,
            "rubber rises to three or four times its height under vacuum before it falls back",
        ),
        "degassing time": Sourced(
            360.0, "s", 240.0, 600.0, Kind.PRACTICE, _PRACTICE,
            "until it has risen, fallen, and two minutes more",
        ),
    }
)  # fmt: skip
"""What the work of pouring rubber is reckoned with, SI."""
FIRST_COAT, POT_FILL, DEGASSING_TIME = RUBBER_WORK.values()


@dataclass(frozen=True)
class RubberWork:
    """How the rubber is mixed and poured.

    Parameters
    ----------
    works_for : float
        From the first contact of A and B until it stops flowing, at the shop's temperature [s].
    longest_batch : float
        Stirring, degassing and pouring one batch [s].
    alone, in_two : float
        All batches, one person, and two who each mix and pour every other one [s].
    late : str
        "no", "alone" or "both": who is too slow for the working time that counts.
    first_coat, spare : float
        Rubber brushed on first, out of the first batch; mixed on top of what the box takes [kg].
    pot_batch : float or None
        Most that a vacuum pot filled to a third takes [kg]; None without a pot.
    by_volume : tuple of float or None
        Parts of A and B by volume for those by weight; None where a density is not known.
    """

    works_for: float
    longest_batch: float
    alone: float
    in_two: float
    late: Literal["no", "alone", "both"]
    first_coat: float
    spare: float
    pot_batch: float | None
    by_volume: tuple[float, float] | None


def rubber_work(
    rubber: Rubber,
    batches: tuple[Batch, ...],
    *,
    taken: float,
    area: float,
    shop: float,
    method: Method,
    pot: float | None = None,
) -> RubberWork:
    """Reckon the work of one rubber pour.

    Parameters
    ----------
    rubber : Rubber
        Its record.
    batches : tuple of Batch
        As they are mixed.
    taken : float
        Rubber that the box takes [kg].
    area : float
        Of the master that rubber touches [m2].
    shop : float
        Temperature of shop and rubber [K].
    method : str
        "hung": all of it has to flow while the master goes down; "screwed": batch after batch.
    pot : float, optional
        Brim volume of a vacuum pot [m3].

    Returns
    -------
    RubberWork
    """
    works = time_at(rubber.working_time.value, shop)
    degassing = 0.0 if pot is None else DEGASSING_TIME.value
    each = [MIXING_TIME.value + degassing + batch.mass / HANDLING_RATE.value for batch in batches]
    longest, alone = max(each, default=0.0), time_alone(batches, pot)
    in_two = longest * ceil(len(each) / 2)
    # a master that stands in the box minds only that each batch meets one that still flows
    count = (alone, in_two) if method == "hung" else (longest, longest)
    slow = sum(needed > works for needed in count)
    named: tuple[Literal["no", "alone", "both"], ...] = ("no", "alone", "both")
    return RubberWork(
        works_for=works,
        longest_batch=longest,
        alone=alone,
        in_two=in_two,
        late=named[slow],
        first_coat=area * FIRST_COAT.value * rubber.density.value,
        spare=sum(batch.mass for batch in batches) - taken,
        pot_batch=None if pot is None else most_in_pot(pot, rubber.density.value),
        by_volume=volume_parts(rubber),
    )


def time_alone(batches: Sequence[Batch], pot: float | None = None) -> float:
    """Say how long one person mixes, degasses and pours, one batch after the other [s].

    Examples
    --------
    >>> from pourwright.materials.batches import split_batches
    >>> two = split_batches(10.0, (1, 1), 5.0, 0.001)
    >>> time_alone(two) / 60, time_alone(two, pot=0.02) / 60
    (20.0, 32.0)
    """
    return time_to_pour(batches) + (0.0 if pot is None else DEGASSING_TIME.value * len(batches))


def most_in_pot(pot: float, density: float) -> float:
    """Say how much rubber a vacuum pot takes, filled to a third [kg].

    Examples
    --------
    >>> round(most_in_pot(0.006, 1150.0), 6)
    2.3
    """
    return pot * POT_FILL.value * density


def volume_parts(rubber: Rubber) -> tuple[float, float] | None:
    """Turn the parts by weight into parts by volume.

    Parameters
    ----------
    rubber : Rubber
        With the densities of its parts.

    Returns
    -------
    tuple of float or None
        A, and B on the same scale, A kept as written; None where a density is not known.
    """
    if rubber.density_a is None or rubber.density_b is None:
        return None
    parts = (rubber.parts_a.value, rubber.parts_b.value)
    a, b = parts_by_volume(parts, (rubber.density_a.value, rubber.density_b.value))
    return parts[0], b / a * parts[0]


def pouring_steps(method: Method) -> Iterator[str]:
    """Say in which order the rubber goes in.

    Parameters
    ----------
    method : str
        "hung" or "screwed".

    Yields
    ------
    str
        Step by step; common practice.
    """
    yield "Stir A and B each in its can. Weigh, stir, scrape side and floor, empty into a second pail, stir."
    yield "Brush the first coat over every face of the master, into corners and lettering; blow out bubbles."
    if method == "hung":
        yield (
            "Pour up to the mark in the empty box: a thin stream, from high up, into one corner; "
            "let the rubber find its own way."
        )
        yield (
            "Lower the master slowly, one edge first, so that the air runs out along it; then level it, bars "
            "on the rim, weight on."
        )
    else:
        yield (
            "Pour into the lowest corner beside the master: a thin stream, from high up, never on it; "
            "let the rubber rise around it from one side."
        )
        yield "Go on at the same corner with the next batch before the last one stops flowing."
    yield "Stop at the end mark. Tap the box for a minute or two; prick what comes up. Then leave it alone."


def left_over_uses(cure_kind: str) -> Iterator[str]:
    """Say what to do with rubber that is left in the pail.

    Parameters
    ----------
    cure_kind : str
        What the rubber cures by.

    Yields
    ------
    str
        Common practice.
    """
    yield "A spoonful on an offcut of the next master, with its sealer: the next test patch."
    yield "Plugs and keys: pour it into a muffin tray."
    yield (
        f"The rest in thin slabs: cured and chopped up it fills the far corners of the next {cure_kind}-"
        "cure mold, a finger's width away from the master; it never goes into the other kind."
    )
