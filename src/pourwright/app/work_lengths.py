"""How long one person is kept by a pour and by what comes right before it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from math import ceil

from pourwright.app.defaults import DEFAULTS
from pourwright.app.diary import QUARTER
from pourwright.app.learnt.paces import USUAL, Paces
from pourwright.materials.batches import Batch, time_to_pour


def pouring_time(batches: Sequence[Batch]) -> float:
    """Reckon how long it usually takes to weigh, mix and pour.

    Parameters
    ----------
    batches : sequence of Batch
        Of one pour.

    Returns
    -------
    float
        [s]
    """
    return max(time_to_pour(batches), DEFAULTS["least_pour"].value)


def laying_time(mass: float) -> float:
    """Reckon how long it usually takes to lay glass into the mold.

    Parameters
    ----------
    mass : float
        Of the glass [kg].

    Returns
    -------
    float
        [s]; nothing for no glass.
    """
    return DEFAULTS["ready_to_lay"].value + mass / DEFAULTS["laying_rate"].value if mass else 0.0


def pour_length(batches: Sequence[Batch], paces: Paces = USUAL) -> timedelta:
    """Reckon how long a pour keeps one person.

    Parameters
    ----------
    batches : sequence of Batch
        Its pails.
    paces : Paces
        Of the shop.

    Returns
    -------
    timedelta
        Full quarters of an hour.
    """
    return in_quarters(paces.pouring * pouring_time(batches))


def laying_length(mass: float, paces: Paces = USUAL) -> timedelta:
    """Reckon how long it takes to lay glass into the mold.

    Parameters
    ----------
    mass : float
        Of the glass [kg].
    paces : Paces
        Of the shop.

    Returns
    -------
    timedelta
        Full quarters of an hour; nothing for no glass.

    Examples
    --------
    >>> laying_length(40.0)
    datetime.timedelta(seconds=1800)
    >>> laying_length(40.0, Paces(getting_ready=1.4))
    datetime.timedelta(seconds=2700)
    """
    return in_quarters(paces.getting_ready * laying_time(mass))


def checking_length(paces: Paces = USUAL) -> timedelta:
    """Reckon how long it takes to go through the list before A meets B, as `laying_length`."""
    return in_quarters(paces.getting_ready * DEFAULTS["go_no_go"].value)


def in_quarters(seconds: float) -> timedelta:
    """Round a time [s] up to what a calendar shows."""
    return QUARTER * ceil(round(seconds / QUARTER.total_seconds(), 6))
