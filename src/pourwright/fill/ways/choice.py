"""Which way a band is filled: each way is as good as what strains it most."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pourwright.fill.ways.defaults import WAYS

Strained = Literal["air", "time", "sinking"]
Way = Literal["over-dry-glass", "stirred-in"]
CLOSE = 1.1
"""Ways whose worst strains differ by less are as good as each other [-]."""
NEARLY = 1.5
"""A strain that may still be borne: air is known no better [-]."""
BEYOND = 99.0
"""A strain that nothing can bear [-]."""


@dataclass(frozen=True)
class Strain:
    """Something over what is borne of it: 1 is just enough [-]."""

    what: Strained
    ratio: float


@dataclass(frozen=True)
class Choice:
    """A recommendation.

    Parameters
    ----------
    way : str
        "over-dry-glass" or "stirred-in".
    dry, stirred : Strain
        What strains each way most.
    """

    way: Way
    dry: Strain
    stirred: Strain

    @property
    def good(self) -> bool:
        """Whether nothing of it is strained beyond what it bears, as well as that is known."""
        return (self.dry if self.way == "over-dry-glass" else self.stirred).ratio <= NEARLY


def strain(what: Strained, value: float, bears: float) -> Strain:
    """Measure something by what is borne of it.

    Parameters
    ----------
    what : str
        Its name.
    value, bears : float
        In the same unit.

    Returns
    -------
    Strain
        No more than 99.
    """
    return Strain(what, BEYOND if bears * BEYOND <= value else value / bears)


def sinking_borne(depth: float, largest: float) -> float:
    """How far the border of a band may sink.

    Parameters
    ----------
    depth : float
        Of the band [m].
    largest : float
        Largest grain [m].

    Returns
    -------
    float
        [m]; a tenth of the depth, one largest grain, or 5 mm, whichever is most.

    Examples
    --------
    >>> print(f"{1000 * sinking_borne(0.15, 0.0063):.0f} mm, {1000 * sinking_borne(0.03, 0.0063):.1f} mm")
    15 mm, 6.3 mm
    """
    return max(WAYS["bears_sinking"].value, WAYS["bears_sinking_share"].value * depth, largest)


def choose(dry: tuple[Strain, ...], stirred: tuple[Strain, ...]) -> Choice:
    """Choose between the two ways.

    Parameters
    ----------
    dry, stirred : tuple of Strain
        Of resin over dry glass, and of glass stirred in.

    Returns
    -------
    Choice
        Dry glass where it bears everything: bands keep their heights and take less resin. Else the way that
        is strained less; dry glass also where that is within a tenth.

    Examples
    --------
    >>> choose((Strain("air", 2.0), Strain("time", 0.1)), (Strain("air", 0.9), Strain("sinking", 0.8))).way
    'stirred-in'
    >>> choose((Strain("air", 0.2),), (Strain("sinking", 0.1),)).way
    'over-dry-glass'
    """
    worst = tuple(max(way, key=lambda each: each.ratio) for way in (dry, stirred))
    keeps = worst[0].ratio <= max(1.0, CLOSE * worst[1].ratio)
    return Choice("over-dry-glass" if keeps else "stirred-in", *worst)
