"""A mass and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Weighed:
    """A mass [kg] and its standard deviation [kg]."""

    mass: float
    doubt: float


NOTHING = Weighed(0.0, 0.0)
