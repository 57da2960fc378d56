"""A vent straight up from a place that catches air."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.frames import turn_to
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ways_up.pocket_walls import room_above
from pourwright.mold.air.defaults import AIR
from pourwright.mold.air.rising import LEVEL, Rising


@dataclass(frozen=True, slots=True, eq=False)
class Vent:
    """A bore that lets air out.

    Parameters
    ----------
    foot : array (3,)
        Where it starts, at the place's highest point, as cast [m].
    length : float
        Straight up from there [m].
    bore : float
        Its diameter [m].
    volume : float
        Of what rises in it [m3].
    ends_inside : bool
        Casting: it comes out in the cavity again, not in the open. Rubber: it comes out in a face of the
        master other than the open one.
    """

    foot: Floats
    length: float
    bore: float
    volume: float
    ends_inside: bool

    @property
    def too_long(self) -> bool:
        """Whether no rod or drill reaches so far."""
        return self.length > AIR["longest_vent"].value


def vent_from(rising: Rising, high: Floats) -> Vent:
    """Lead a vent straight up from a high of caught air.

    Parameters
    ----------
    rising : Rising
        The liquid.
    high : array (3,)
        A local high of the caught air [m].

    Returns
    -------
    Vent
        Casting: through the rubber, to the height of the open face. Rubber: through the master.
    """
    room = room_above(rising.mesh, high, turn_to(rising.up))
    top = rising.mesh.bounds[1, 2]
    if rising.outside:
        length = room if np.isfinite(room) else 0.0
        ends_inside = float(high @ rising.up) + length < top - LEVEL or rising.which == "screwed"
    else:
        ends_inside = bool(np.isfinite(room))
        length = room if ends_inside else float(top - high[2])
    bore = AIR["bore"].value
    return Vent(high, float(length), bore, bore_volume(bore, float(length)), ends_inside)


@checked(bore=Range(0, unit="m"), length=Range(0, unit="m"))
def bore_volume(bore: float, length: float) -> float:
    """Volume of a round bore.

    Parameters
    ----------
    bore : float
        Diameter [m].
    length : float
        [m]

    Returns
    -------
    float
        [m3]

    Examples
    --------
    >>> round(bore_volume(0.004, 0.1) * 1e6, 2)
    1.26
    """
    return pi / 4 * bore**2 * length
