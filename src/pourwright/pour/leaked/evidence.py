"""What is known of a leak: weighed in, read off, found beside the mold."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from pourwright.pour.leaked.column import Column
from pourwright.pour.leaked.defaults import LEAKED, doubt
from pourwright.pour.leaked.weighed import NOTHING, Weighed


@dataclass(frozen=True, slots=True)
class Level:
    """A level that was read.

    Parameters
    ----------
    height : float
        From the mold's floor [m].
    time : float
        After the pour began [s].
    doubt : float
        Standard deviation [m].
    at_most : bool
        True where it could not be read and only lies not above this height.
    """

    height: float
    time: float
    doubt: float = LEAKED["level_error"].value
    at_most: bool = False


def _never(_: float) -> float:
    return 0.0


@dataclass(frozen=True, kw_only=True, eq=False)
class Case:
    """One pour and everything that is known of its leak.

    Parameters
    ----------
    column : Column
        What it stands in.
    density : float
        Of the liquid as poured [kg/m3].
    poured : Weighed
        All that went into the mold in this pour.
    levels : tuple of Level
        In the order of their times.
    caught : Weighed or None
        Found beside the mold.
    film : Weighed
        What clings to the mold and the funnel.
    shrunk : callable
        Share of its volume that the liquid has lost at a time after the pour began [s].
    shrunk_doubt : float
        Standard deviation of that, as a share of it.
    held_back, held_back_doubt : float
        Share of the voids that stays full where the level fell through glass.
    cavity_doubt : float
        Standard deviation of the cavity's size, as a share of it.
    """

    column: Column
    density: float
    poured: Weighed
    levels: tuple[Level, ...] = ()
    caught: Weighed | None = None
    film: Weighed = NOTHING
    shrunk: Callable[[float], float] = field(default=_never)
    shrunk_doubt: float = 0.3
    held_back: float = LEAKED["held_back"].value
    held_back_doubt: float = doubt("held_back")
    cavity_doubt: float = LEAKED["cavity_error"].value

    @property
    def read(self) -> tuple[Level, ...]:
        """Levels that could be read."""
        return tuple(level for level in self.levels if not level.at_most)

    @property
    def latest(self) -> float:
        """When the last reading was taken [s]."""
        return max((level.time for level in self.levels), default=0.0)
