"""What was weighed and read of one pour, in SI, and what of it cannot be."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from pourwright.foundation.errors import UserError


@dataclass(frozen=True, slots=True)
class Seen:
    """A level that was read, or that could not be.

    Parameters
    ----------
    at : datetime
        When, aware.
    height : float or None
        From the mold's floor as poured [m]; None where it could not be read below the glass.
    doubt : float or None
        Its standard deviation [m]; None for that of a reading.
    """

    at: datetime
    height: float | None
    doubt: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """All that is known of a leak; every part may be missing.

    Parameters
    ----------
    poured : tuple of float
        Batches as they went into the mold [kg].
    mixed : tuple of float
        Batches as they were weighed out, some of which stays in the pail [kg].
    planned : tuple of float
        Batches that were mixed as planned and read off no scale [kg].
    seen : tuple of Seen
        Levels.
    caught : float or None
        Found beside the mold [kg].
    pour : int or None
        Which pour; else the last that has begun.
    begun : datetime or None
        When it went in; else as planned.
    gelled : datetime or None
        When it was seen to have gelled.
    earlier : tuple of (int, datetime)
        When pours before it went in, by their numbers; else as planned.
    drips : bool or None
        What the maker sees.
    hole : float or None
        Height at which it runs out, where that was found [m].
    """

    poured: tuple[float, ...] = ()
    mixed: tuple[float, ...] = ()
    planned: tuple[float, ...] = ()
    seen: tuple[Seen, ...] = ()
    caught: float | None = None
    pour: int | None = None
    begun: datetime | None = None
    gelled: datetime | None = None
    earlier: tuple[tuple[int, datetime], ...] = ()
    drips: bool | None = None
    hole: float | None = None


def refuse_masses(readings: Readings) -> None:
    """Refuse batches and finds that nobody can weigh."""
    for name, masses in (("poured", readings.poured), ("mixed", readings.mixed)):
        for number, mass in enumerate(masses, 1):
            if mass <= 0.0:
                raise UserError(
                    f"batch {number} of {mass:g} kg", where=name, allowed="above 0 kg", todo="weigh it again"
                )
    if readings.caught is not None and readings.caught < 0.0:
        raise UserError(
            f"{readings.caught:g} kg beside the mold",
            where="caught",
            allowed="0 kg or more",
            todo="weigh the tray empty and full",
        )


def refuse_times(readings: Readings, begun: datetime, now: datetime) -> None:
    """Refuse what lies before the pour or in the future."""
    if begun > now:
        raise UserError(
            f"this pour goes in at {begun:%Y-%m-%d %H:%M}, which lies in the future",
            where="begun",
            allowed=f"up to {now.astimezone(begun.tzinfo):%Y-%m-%d %H:%M}",
            todo="say when it went in, or which pour leaks",
        )
    told = [("level", seen.at) for seen in readings.seen]
    told += [("gelled", readings.gelled)] if readings.gelled else []
    for where, moment in told:
        if moment < begun:
            raise UserError(
                f"{moment:%Y-%m-%d %H:%M} lies before this pour went in",
                where=where,
                allowed=f"from {begun.astimezone(moment.tzinfo):%Y-%m-%d %H:%M} on",
                todo="mend the time, or say when it went in",
            )
        if moment > now:
            raise UserError(
                f"{moment:%Y-%m-%d %H:%M} lies in the future",
                where=where,
                allowed=f"up to {now.astimezone(moment.tzinfo):%Y-%m-%d %H:%M}",
                todo="mend the time",
            )


def refuse_heights(readings: Readings, lower: float, rim: float) -> None:
    """Refuse levels outside the mold, and a hole over the liquid."""
    heights = [("level", seen.height) for seen in readings.seen] + [("hole", readings.hole)]
    for where, height in heights:
        if height is not None and not 0.0 <= height <= rim:
            raise UserError(
                f"a height of {1000 * height:.0f} mm",
                where=where,
                allowed=f"0 to {1000 * rim:.0f} mm above the mold's floor",
                todo="read it again; a dip is told with --dip",
            )
        if where == "level" and height is not None and height < lower:
            raise UserError(
                f"a level of {1000 * height:.0f} mm, below the pours that have gelled",
                where=where,
                allowed=f"{1000 * lower:.0f} mm or more",
                todo="say which pour leaks, or read it again",
            )
