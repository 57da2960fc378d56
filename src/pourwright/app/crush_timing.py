"""When the bottles are crushed: colour by colour, in working hours, before the glass is washed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from math import ceil

from pourwright.app.crushing import crushing_of, pace
from pourwright.app.diary import QUARTER, Diary, Slot, day_length
from pourwright.app.setup import Setup
from pourwright.fill.bottles.collecting import collected
from pourwright.fill.bottles.defaults import BOTTLES
from pourwright.fill.bottles.work import work_at

SOAKING = timedelta(seconds=BOTTLES["soaking"].value)
SOAK = timedelta(seconds=BOTTLES["soak"].value)


@dataclass(frozen=True)
class CrushSlot:
    """Part of the work at the bottles of one colour.

    Parameters
    ----------
    colour : str
        Of the bottles.
    bottles : int
        Of that colour in all.
    part, parts : int
        Which part of how many, each within one working day.
    slot : tuple of datetime
        Start and end.
    """

    colour: str
    bottles: int
    part: int
    parts: int
    slot: Slot


@dataclass(frozen=True)
class _Part:
    colour: str
    bottles: int
    part: int
    parts: int
    length: timedelta

    def at(self, slot: Slot) -> CrushSlot:
        return CrushSlot(self.colour, self.bottles, self.part, self.parts, slot)


@dataclass(frozen=True)
class BottleWork:
    """All the work at the bottles.

    Parameters
    ----------
    soak : tuple of datetime or None
        Bottles into tubs, over night; None where the job says nothing of bottles.
    crush : tuple of CrushSlot
        In the order of the work.
    """

    soak: Slot | None = None
    crush: tuple[CrushSlot, ...] = ()


def crush_ahead(setup: Setup, diary: Diary, work: datetime) -> BottleWork:
    """Book the work at the bottles as early as can be.

    Parameters
    ----------
    setup : Setup
        With its bottles.
    diary : Diary
        Of one person.
    work : datetime
        When the work starts.

    Returns
    -------
    BottleWork
    """
    parts, found = list(_parts(setup, diary)), []
    if not parts:
        return BottleWork()
    soak = diary.after(work, SOAKING)
    ready = soak[1].astimezone(UTC) + SOAK
    for each in parts:
        slot = diary.after(ready, each.length)
        ready = slot[1]
        found.append(each.at(slot))
    return BottleWork(soak, tuple(found))


def crush_back(setup: Setup, diary: Diary, limit: datetime) -> BottleWork:
    """Book the work at the bottles as late as can be.

    Parameters
    ----------
    setup : Setup
        With its bottles.
    diary : Diary
        Of one person.
    limit : datetime
        When the glass is washed.

    Returns
    -------
    BottleWork
    """
    parts, found = list(_parts(setup, diary)), []
    if not parts:
        return BottleWork()
    for each in reversed(parts):
        slot = diary.before(limit, each.length)
        limit = slot[0]
        found.append(each.at(slot))
    soak = diary.before(limit.astimezone(UTC) - SOAK, SOAKING)
    return BottleWork(soak, tuple(found[::-1]))


def _parts(setup: Setup, diary: Diary) -> Iterator[_Part]:
    if not setup.job.bottles.told:
        return
    crushing, own = crushing_of(setup.job, setup.materials), pace(setup.job)
    for colour in dict.fromkeys(lot.colour for lot in setup.fill.glass if lot.bottles is not None):
        wanted = {lot.grade: lot.mass for lot in setup.fill.glass if lot.colour == colour}
        found = collected(colour, wanted, crushing.yields, crushing.bottle(colour))
        work = work_at(found, own)
        seconds = work.labels + work.crushing + work.sieving
        count = ceil(seconds / day_length(diary.hours).total_seconds()) or 1
        length = QUARTER * max(ceil(round(seconds / count / QUARTER.total_seconds(), 6)), 1)
        for part in range(1, count + 1):
            yield _Part(colour, found.bottles, part, count, length)
