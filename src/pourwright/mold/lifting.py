"""Who may lift the filled mold."""

from __future__ import annotations

import math

from pourwright.foundation.notation import UnitSystem, format_load
from pourwright.mold.defaults import DEFAULTS


def people_to_lift(mass: float) -> int:
    """Say how many people lift a mass together.

    Parameters
    ----------
    mass : float
        Of the load [kg].

    Returns
    -------
    int
        At least one; each takes at most the load constant of the lifting equation.

    References
    ----------
    Waters, Putz-Anderson and Garg, revised NIOSH lifting equation, 1994: 23 kg (from memory).

    Examples
    --------
    >>> people_to_lift(23.0), people_to_lift(60.0)
    (1, 3)
    """
    return max(math.ceil(mass / DEFAULTS["lifting_limit"].value), 1)


def lifting_caution(name: str, mass: float, units: UnitSystem) -> str | None:
    """Warn of a load too heavy for one person.

    Parameters
    ----------
    name : str
        What is lifted.
    mass : float
        Its mass [kg].
    units : UnitSystem
        For the sentence.

    Returns
    -------
    str or None
        None where one person may lift it.
    """
    people = people_to_lift(mass)
    if people == 1:
        return None
    limit = DEFAULTS["lifting_limit"].value
    how = "lift it with two" if people == 2 else "use a hoist, or a trolley at table height"
    return (
        f"{name} weighs {format_load(mass, units)}; public lifting guidance ends at "
        f"{format_load(limit, units)} for one person in the best posture: {how}."
    )
