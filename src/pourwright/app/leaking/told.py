"""Readings in the maker's own words, from the terminal or a form, turned into SI."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from pourwright.app.hands import Work
from pourwright.app.leaking.going_on import plan_goes_on
from pourwright.app.leaking.heat import heat_of
from pourwright.app.leaking.leak import LeakReport, plan_on_disk, reckon, written
from pourwright.app.leaking.of_log import joined, readings_in_log
from pourwright.app.leaking.of_plan import rim
from pourwright.app.leaking.readings import Readings, Seen
from pourwright.app.planning import PlanDocuments
from pourwright.app.which import as_loaded, chosen_variants
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.progress import SILENT, Progress
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.job import Job
from pourwright.jobs.plan import PlanDocument

CLOCK = "HH:MM, or YYYY-MM-DD HH:MM, on the shop's own clock"


@dataclass(frozen=True, slots=True, kw_only=True)
class LeakTold:
    """What the maker says of a leak, each in words with its unit.

    Parameters
    ----------
    poured, mixed : tuple of str
        Batches as they went in, or as they were weighed out.
    level, dip : tuple of str
        Levels from the mold's floor, or from the rim down; one kind only.
    at : tuple of str
        When each was read, in their order; the last of them is that of ``no_level``.
    no_level : bool
        That the level cannot be read below the glass any more.
    caught, hole, begun, gelled, now : str or None
        As `Readings`.
    pour : int or None
        As `Readings`.
    drips : bool or None
        As `Readings`.
    """

    poured: tuple[str, ...] = ()
    mixed: tuple[str, ...] = ()
    level: tuple[str, ...] = ()
    dip: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    no_level: bool = False
    caught: str | None = None
    hole: str | None = None
    begun: str | None = None
    gelled: str | None = None
    now: str | None = None
    pour: int | None = None
    drips: bool | None = None


@dataclass(frozen=True, slots=True)
class LeakTelling:
    """A leak that was told, and what is asked of it.

    Parameters
    ----------
    path : Path
        Job file.
    told : LeakTold
        Words with units.
    variant : str, optional
        Which; else the first.
    now : datetime, optional
        Aware; what the maker says, else the clock.
    """

    path: Path
    told: LeakTold
    variant: str | None = None
    now: datetime | None = None

    def read(self) -> tuple[Job, PlanDocument, Readings, datetime]:
        """Job, plan, readings and the moment."""
        job = as_loaded(self.path)
        one = chosen_variants(job, self.variant)[0]
        plan = plan_on_disk(job, one)
        clock = self.now or datetime.now(UTC)
        zone = ZoneInfo(plan.job.time_zone)
        moment = clock if self.told.now is None else _moment(self.told.now, clock, zone, "now")
        logged = readings_in_log(job.path.parent, plan, self.told.pour)
        return one, plan, joined(read_told(plan, self.told, moment), logged), moment


def leak_told(
    path: Path,
    told: LeakTold,
    variant: str | None = None,
    now: datetime | None = None,
    *,
    heat: bool = False,
) -> LeakReport:
    """Reckon a leak from what the maker says.

    Parameters
    ----------
    path : Path
        Job file.
    told : LeakTold
        Words with units.
    variant : str, optional
        Which; else the first.
    now : datetime, optional
        Aware; what the maker says, else the clock.
    heat : bool
        Run the heat of the top-up too, which takes up to a minute.

    Returns
    -------
    LeakReport

    Raises
    ------
    UserError
        For words that cannot be read, and readings that cannot be.
    """
    job, plan, readings, moment = LeakTelling(path, told, variant, now).read()
    found = reckon(job, plan, readings, moment)
    document = written(job, found, readings, moment)
    if heat:
        document = document.model_copy(update={"heat": heat_of(job, found, document.top_up)})
    return LeakReport(document)


def leak_goes_on(
    path: Path,
    told: LeakTold,
    variant: str | None = None,
    now: datetime | None = None,
    *,
    out: Path | None = None,
    progress: Progress = SILENT,
    work: Work | None = None,
) -> PlanDocuments:
    """Plan the pours that are left, from the state as the maker tells it.

    Parameters
    ----------
    path : Path
        Job file.
    told : LeakTold
        Words with units.
    variant : str, optional
        Which; else the first.
    now : datetime, optional
        Aware; what the maker says, else the clock.
    out : Path, optional
        Folder of the plan; else ``plan-goes-on`` beside the job file.
    progress : Progress
        Told what is done; may raise Cancelled.
    work : Work, optional
        How the heat runs are done.

    Returns
    -------
    PlanDocuments
        One plan: the pours as logged, then those that are left.

    Raises
    ------
    UserError
        As `leak_told`, and where no plan keeps all limits.
    """
    job, plan, readings, moment = LeakTelling(path, told, variant, now).read()
    found = reckon(job, plan, readings, moment)
    return plan_goes_on(job, found, moment, out=out, progress=progress, work=work)


def read_told(plan: PlanDocument, told: LeakTold, now: datetime) -> Readings:
    """Turn words into readings."""
    zone = ZoneInfo(plan.job.time_zone)

    def when(text: str | None, where: str) -> datetime | None:
        return None if text is None else _moment(text, now, zone, where)

    begun = when(told.begun, "begun")
    seen = _seen(plan, told, now)
    return Readings(
        poured=tuple(_mass(text, "poured") for text in told.poured),
        mixed=tuple(_mass(text, "mixed") for text in told.mixed),
        seen=seen,
        caught=None if told.caught is None else _mass(told.caught, "caught"),
        pour=told.pour,
        begun=begun,
        gelled=when(told.gelled, "gelled"),
        drips=told.drips,
        hole=None if told.hole is None else _length(told.hole, "hole"),
    )


def _seen(plan: PlanDocument, told: LeakTold, now: datetime) -> tuple[Seen, ...]:
    if told.level and told.dip:
        raise UserError(
            "both heights and dips",
            where="level",
            allowed="one kind",
            todo="give all with --level, or all with --dip",
        )
    heights: list[float | None] = [_length(text, "level") for text in told.level]
    heights += [rim(plan) - _length(text, "dip") for text in told.dip]
    heights += [None] * told.no_level
    times = _times(plan, told, now, len(heights))
    return tuple(Seen(at, height) for at, height in zip(times, heights, strict=True))


def _times(plan: PlanDocument, told: LeakTold, now: datetime, count: int) -> list[datetime]:
    if count == 1 and not told.at:
        return [now]
    if len(told.at) != count:
        raise UserError(
            f"{count} readings and {len(told.at)} times",
            where="at",
            allowed="a time for each, in their order",
            todo="give --at once for each reading",
        )
    zone = ZoneInfo(plan.job.time_zone)
    return [_moment(text, now, zone, "at") for text in told.at]


def _moment(text: str, now: datetime, zone: ZoneInfo, where: str) -> datetime:
    """A day and time, or the last time that the clock showed this."""
    try:
        if len(text.strip()) <= len("07:05"):
            wall = datetime.strptime(text.strip(), "%H:%M").time()  # noqa: DTZ007 - the zone comes below
            today = datetime.combine(now.astimezone(zone).date(), wall, zone)
            return today if today <= now else today - timedelta(days=1)
        read = datetime.fromisoformat(text.strip())
    except ValueError:
        raise UserError(
            f"{text!r} is no time", where=where, allowed=CLOCK, todo='write for example "07:05"'
        ) from None
    return read.replace(tzinfo=zone) if read.tzinfo is None else read


def _mass(text: str, where: str) -> float:
    return _signed(text, Dimension.MASS, where)


def _length(text: str, where: str) -> float:
    return _signed(text, Dimension.LENGTH, where)


def _signed(text: str, dimension: Dimension, where: str) -> float:
    """A quantity that may come with a minus, so that what is refused is its sign and not its spelling."""
    bare = text.strip()
    if bare.startswith(("-", "−")):
        return -parse_quantity(bare[1:], dimension, where=where).si
    return parse_quantity(bare, dimension, where=where).si
