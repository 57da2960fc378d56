"""What is done about each place: one recommendation."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from pourwright.mold.air.ceilings import Ceiling
from pourwright.mold.air.defaults import AIR
from pourwright.mold.air.places import Place
from pourwright.mold.air.tilt import Tilt
from pourwright.mold.air.tilting import NEAR, Tilting
from pourwright.mold.air.vents import Vent, vent_from

Take = Literal["tilt", "other way", "vent", "none"]


@dataclass(frozen=True, slots=True)
class Cure:
    """Ways to get the air of one place out, and the one to take.

    Parameters
    ----------
    place : Place or Ceiling
        Where.
    take : str
        "tilt", "other way", "vent" or "none".
    tilt : Tilt or None
        The least one; None where none helps.
    vents : tuple of Vent
        One for each high; none under a level ceiling.
    """

    place: Place | Ceiling
    take: Take
    tilt: Tilt | None
    vents: tuple[Vent, ...] = ()


def cure_place(place: Place, tilting: Tilting, *, other_way: bool) -> Cure:
    """Decide about caught air.

    Parameters
    ----------
    place : Place
        Where.
    tilting : Tilting
        What tilts do.
    other_way : bool
        Whether none is caught with the master held the other way, or the piece cast the other way up.

    Returns
    -------
    Cure
        A small tilt before the other way, that before a larger tilt, a vent last.
    """
    tilt = tilting.least_tilt(place.corners)
    vents = tuple(vent_from(tilting.rising, high) for high in place.highs)
    if tilt is not None and (tilt.angle <= AIR["easy_tilt"].value + NEAR or not other_way):
        return Cure(place, "tilt", tilt, vents)
    if other_way:
        return Cure(place, "other way", tilt, vents)
    possible = not any(vent.too_long for vent in vents)
    return Cure(place, "vent" if possible else "none", None, vents)


def cure_ceiling(ceiling: Ceiling, tilting: Tilting, used: Iterable[Cure] = ()) -> Cure:
    """Decide about a level ceiling: tilted so far that bubbles creep along it.

    Parameters
    ----------
    ceiling : Ceiling
        Where.
    tilting : Tilting
        What tilts do.
    used : iterable of Cure
        Of places in the same liquid: a tilt of theirs that does here too is taken.

    Returns
    -------
    Cure
    """
    known = [cure.tilt for cure in used if cure.take == "tilt" and cure.tilt is not None]
    again = [found for tilt in known if (found := tilting.same_tilt(ceiling.corners, tilt)) is not None]
    tilt = again[0] if again else tilting.least_tilt(ceiling.corners, AIR["slope"].value)
    return Cure(ceiling, "none" if tilt is None else "tilt", tilt)
