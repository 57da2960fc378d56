"""How far a heat run may be off because of its grid: measured on random castings, kept as data."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from pourwright.foundation.sources import Kind, Sourced

LEAST = 0.1
"""No peak is told closer than this [K]: steps in time alone may miss it by half as much."""


@dataclass(frozen=True)
class GridError:
    """What nine of ten runs of a spacing keep, against cells of half that.

    Parameters
    ----------
    spacing : float
        Widest cell [m].
    of_rise : Sourced
        The peak's error over its rise from the temperature as poured [-].
    of_change : Sourced
        The peak's error over its change from twice the spacing [-].
    times : Sourced
        Error of the times of gel, bond and demolding, over the time since the pour [-].
    """

    spacing: float
    of_rise: Sourced
    of_change: Sourced
    times: Sourced

    def peak(self, rise: float, change: float) -> float:
        """Error of a peak.

        Parameters
        ----------
        rise : float
            How far it lies above the temperature as poured [K].
        change : float
            By how much the peak changed from twice the spacing [K].

        Returns
        -------
        float
            [K].

        Examples
        --------
        >>> error = grid_errors()[-1]
        >>> error.peak(40.0, 0.0) == 40.0 * error.of_rise.value
        True
        >>> error.peak(40.0, -20.0) == 20.0 * error.of_change.value
        True
        """
        return max(LEAST, self.of_rise.value * max(rise, 0.0), self.of_change.value * abs(change))


@cache
def grid_errors() -> tuple[GridError, ...]:
    """Read what was measured.

    Returns
    -------
    tuple of GridError
        By spacing, ascending.
    """
    text = files("pourwright").joinpath("data", "heat_grid.toml").read_text("utf8")
    return tuple(sorted(map(_read, tomllib.loads(text)["grid"]), key=lambda error: error.spacing))


def _read(entry: Mapping[str, Any]) -> GridError:
    numbers = {name: _sourced(value) for name, value in entry.items() if name != "spacing"}
    return GridError(entry["spacing"], **numbers)


def _sourced(entry: Mapping[str, Any]) -> Sourced:
    told = {name: entry[name] for name in ("value", "unit", "source", "conditions")}
    return Sourced(low=None, high=None, kind=Kind(entry["kind"]), **told)


def grid_error(spacing: float) -> GridError:
    """Look up the error of a spacing.

    Parameters
    ----------
    spacing : float
        Widest cell of a run [m].

    Returns
    -------
    GridError
        Of the least measured spacing that is not finer; of the coarsest beyond that.

    Examples
    --------
    >>> grid_error(0.0078).spacing
    0.008
    """
    measured = grid_errors()
    return next((error for error in measured if error.spacing >= spacing - 1e-9), measured[-1])


def sourced_grid_errors() -> Mapping[str, Sourced]:
    """Name every number, for the list of sources.

    Returns
    -------
    Mapping
        Number by spacing and name.
    """
    names = ("of_rise", "of_change", "times")
    return MappingProxyType(
        {f"{error.spacing:g} {name}": getattr(error, name) for error in grid_errors() for name in names}
    )
