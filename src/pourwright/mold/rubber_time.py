"""How long a rubber works and cures in a shop that is warmer or colder than its data sheet's."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
RUBBER_TIME: Mapping[str, Sourced] = MappingProxyType(
    {
        "time halves per": Sourced(
            10.0, "K difference", 8.0, 15.0, Kind.PRACTICE, _PRACTICE,
            "warmer by so much, a rubber works and cures in half the time; tin cure also hangs on damp",
        ),
        "timed at": Sourced(
            296.15, "K", 294.15, 298.15, Kind.PRACTICE, _PRACTICE,
            "at which data sheets give a rubber's times",
        ),
    }
)  # fmt: skip
"""What times are carried to another temperature with, SI."""
HALVES_PER, TIMED_AT = RUBBER_TIME.values()


def time_at(seconds: float, temperature: float) -> float:
    """Carry a rubber's time from its data sheet to another temperature.

    Parameters
    ----------
    seconds : float
        At the temperature of data sheets [s].
    temperature : float
        Of shop and rubber [K].

    Returns
    -------
    float
        Time [s].

    Notes
    -----
    Common practice, no source: half for every 10 K more, twice for every 10 K less.

    Examples
    --------
    >>> time_at(2700.0, 296.15), time_at(2700.0, 306.15), time_at(2700.0, 286.15)
    (2700.0, 1350.0, 5400.0)
    """
    return float(seconds * 0.5 ** ((temperature - TIMED_AT.value) / HALVES_PER.value))
