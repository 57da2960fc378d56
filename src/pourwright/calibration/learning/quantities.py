"""Every number that a shop can learn, with the scatter of one record around the shop's own value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from pourwright.calibration.learning.scales import SCALES, Scale
from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
LEAST = 2
"""With fewer records nothing can be held out."""
LEAST_COUNTED = 5
"""Pieces from which on a scrap rate is the shop's own."""
Shown = Literal["share", "factor", "length"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """One kind of number.

    Parameters
    ----------
    name : str
        Key.
    words : str
        Of what it is, for a sentence that begins with 'Your'.
    called : str
        Of what it is, without its value.
    scale : str
        Key of `SCALES`; "count" where records are counts.
    scatter : Sourced or None
        Standard deviation of one record on that scale; None of counts.
    shown : str
        How it is written.
    each : str
        What one record is of.
    """

    name: str
    words: str
    called: str
    scale: str
    scatter: Sourced | None
    shown: Shown
    each: str = "pour"

    @property
    def on(self) -> Scale:
        """The scale of a number that is no count."""
        return SCALES[self.scale]


def _scatter(value: float, low: float, high: float, conditions: str) -> Sourced:
    return Sourced(value, "", low, high, Kind.PRACTICE, _PRACTICE, conditions)


QUANTITIES: Mapping[str, Quantity] = MappingProxyType(
    {
        each.name: each
        for each in (
            Quantity(
                "void_fraction", "{subject} glass: {value} voids", "{subject} glass", "odds",
                _scatter(0.05, 0.02, 0.10, "one filling beside another: 1 % of voids, by log odds"), "share",
            ),
            Quantity(
                "bucket_loss", "pail keeps {value} of what is mixed", "pail", "log",
                _scatter(0.35, 0.2, 0.6, "one pail beside another, by logarithm"), "share",
            ),
            Quantity(
                "film", "film on the mold: {value}", "film on the mold", "log",
                _scatter(0.35, 0.2, 0.6, "one pour beside another, by logarithm"), "length",
            ),
            Quantity(
                "crush_yield", "{subject} glass: {value} of what is crushed", "yield of {subject} glass",
                "odds", _scatter(0.15, 0.07, 0.3, "one evening of crushing beside another, by log odds"),
                "share", each="crushing",
            ),
            Quantity(
                "shrinkage", "{subject} shrinks by {value}", "shrinkage of {subject}", "log",
                _scatter(0.15, 0.07, 0.3, "one piece beside another, by logarithm"), "share", each="size",
            ),
            Quantity(
                "hours", "{subject} takes {value} of the usual time", "time for {subject}", "log",
                _scatter(0.25, 0.12, 0.5, "the same step on another day, by logarithm"), "factor",
            ),
            Quantity(
                "scrap_rate", "pieces that fail: {value}", "share of pieces that fail", "count", None,
                "share", each="piece",
            ),
            Quantity(
                "cavity", "mold {subject} holds {value} of its drawing", "mold {subject}", "log",
                _scatter(0.01, 0.005, 0.02, "one filling with water beside another, by logarithm"),
                "factor", each="mark",
            ),
            Quantity(
                "cure_rate", "{subject} cures {value} as fast as its family", "{subject}", "log",
                _scatter(0.10, 0.05, 0.2, "one pour's peak beside another's, by logarithm"), "factor",
            ),
            Quantity(
                "heat_film", "mold {subject} loses its heat to the air {value} as fast as planned",
                "mold {subject} in its corner", "log",
                _scatter(0.15, 0.07, 0.3, "one cooling beside another, by logarithm"), "factor",
            ),
        )
    }
)  # fmt: skip
"""By key."""
