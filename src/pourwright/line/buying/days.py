"""Few days on which things come, so that nobody waits for twelve parcels."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from pourwright.line.buying.stock import Need

MOST = 4


def days_of_coming(days: Iterable[date], most: int = MOST) -> tuple[date, ...]:
    """Choose the days on which things come.

    Parameters
    ----------
    days : iterable of date
        On which something is needed.
    most : int
        How many days at most.

    Returns
    -------
    tuple of date
        The first of each of so many equal spans of time.

    Examples
    --------
    >>> [day.day for day in days_of_coming(date(2027, 1, day) for day in (4, 6, 9, 15, 18, 24, 28))]
    [4, 15, 18, 24]
    """
    ordered = sorted(set(days))
    if len(ordered) <= most:
        return tuple(ordered)
    span = (ordered[-1] - ordered[0]) / most
    groups = {min((day - ordered[0]) // span, most - 1): day for day in reversed(ordered)}
    return tuple(sorted(groups.values()))


def gathered(needs: Sequence[Need], comes: Sequence[date], keeps: int | None) -> tuple[Need, ...]:
    """Put needs together that are served by the same coming.

    Parameters
    ----------
    needs : sequence of Need
        Of one item.
    comes : sequence of date
        Days on which something may come, growing, the first not after any need.
    keeps : int or None
        Days that the shortest-lived kit keeps: what it could not serve together stays apart.

    Returns
    -------
    tuple of Need
        By day.
    """
    found: list[Need] = []
    for need in sorted(needs, key=lambda each: each.day):
        before = found[-1] if found else None
        came = max(day for day in comes if day <= need.day)
        if before is not None and before.day >= came and _keeps(came, need.until, keeps):
            last = max(before.until, need.until)
            found[-1] = replace(before, amount=before.amount + need.amount, last=last)
        else:
            found.append(need)
    return tuple(found)


def _keeps(came: date, until: date, keeps: int | None) -> bool:
    return keeps is None or until <= came + timedelta(keeps)
