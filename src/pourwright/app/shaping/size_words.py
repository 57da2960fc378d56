"""How sure the size of a thing without a file is, in words."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from pourwright.app.shaping.shaped import SizeDoubt
from pourwright.foundation.notation import UnitSystem, format_share, format_volume

IN_EIGHT = "in 8 of 10 cases"


def band_words(low: float, high: float, system: UnitSystem) -> str:
    """Say between what a volume lies.

    Parameters
    ----------
    low, high : float
        One in ten below, one in ten above [m3].
    system : UnitSystem
        For the words.

    Returns
    -------
    str

    Examples
    --------
    >>> band_words(0.0176, 0.0191, UnitSystem.METRIC)
    'between 17.6 and 19.1 l in 8 of 10 cases'
    """
    lower, upper = format_volume(low, system), format_volume(high, system)
    if lower.rpartition(" ")[2] == upper.rpartition(" ")[2]:
        lower = lower.rpartition(" ")[0]
    return f"between {lower} and {upper} {IN_EIGHT}"


def allowance_words(
    doubt: SizeDoubt | None, volume: float, allowance: float, system: UnitSystem
) -> Iterator[str]:
    """Say what a doubtful size means for what must stand ready.

    Parameters
    ----------
    doubt : SizeDoubt or None
        None where the body is known exactly: then there is nothing to say.
    volume : float
        That is planned with [m3].
    allowance : float
        Share that is mixed on top.
    system : UnitSystem
        For the words.

    Yields
    ------
    str

    Examples
    --------
    >>> doubt = SizeDoubt(0.0095, 0.0104, "")
    >>> print(next(allowance_words(doubt, 0.0100, 0.05, UnitSystem.METRIC)).partition(":")[0])
    One piece in ten takes 4 % more than planned, 400 ml or more of glass and casting material
    """
    if doubt is None:
        return
    more = doubt.high / volume - 1
    needed = format_share(_rounded_up(more))
    if more <= 0:
        return
    extra = format_volume(doubt.high - volume, system)
    what = f"One piece in ten takes {needed} more than planned, {extra} or more of glass and casting material"
    kept = format_share(allowance)
    if more <= allowance:
        yield (
            f"{what}: the allowance of {kept} covers it, and leaves {format_share(allowance - more)} for "
            "leaks and planing. Have as much more glass ready."
        )
        return
    raise_to = format_share(_rounded_up(more + allowance))
    yield (
        f"{what}: the allowance of {kept} does not cover it. Fill the finished mold with water and weigh "
        f"that, or raise fill.allowance to {raise_to} and have as much more glass ready."
    )


def _rounded_up(share: float) -> float:
    """To the next whole per cent."""
    return ceil(share * 100 - 1e-9) / 100
