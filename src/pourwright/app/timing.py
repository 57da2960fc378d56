"""When the work starts, how long each step takes, and when a pour may start."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from math import ceil

from pourwright.app.bounds import bounds_of
from pourwright.app.crush_timing import BottleWork, crush_ahead, crush_back
from pourwright.app.crushing import pace, waits
from pourwright.app.defaults import DEFAULTS, span
from pourwright.app.diary import Diary, Slot
from pourwright.app.doubting import doubt_of
from pourwright.app.master_timing import MasterWork, master_ahead, master_back
from pourwright.app.memory import refuse_without_room
from pourwright.app.pinning import refuse_pinned
from pourwright.app.setup import Setup, site, working_hours
from pourwright.app.work_lengths import checking_length, in_quarters, laying_length, pour_length
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.bounds import FIRST_YEAR, LAST_YEAR
from pourwright.mold.rubber_work import time_alone
from pourwright.planner.grids import layers_of
from pourwright.planner.hours import WorkingHours
from pourwright.planner.levels import METRIC_STEP, US_STEP
from pourwright.planner.request import Request

MOST_SANDED = 2
"""Tops of one piece that may be sanded: with more, another resin or other hours serve better."""
HOUR, YEAR = timedelta(hours=1), timedelta(days=366)


@dataclass(frozen=True)
class Beginning:
    """When the work begins.

    Parameters
    ----------
    now : datetime
        What the plan is computed for.
    stated : datetime or None
        Start that the job or the command line asks for.
    ready : datetime
        When the mold and the glass can be ready, if the work starts at the next working hour.
    first : datetime
        Earliest first pour.
    """

    now: datetime
    stated: datetime | None
    ready: datetime
    first: datetime


@dataclass(frozen=True)
class Before:
    """What comes before the first pour, each with start and end.

    Parameters
    ----------
    rubber, master_out : tuple of datetime
        The mold.
    wash : tuple of datetime or None
        None where the piece has no glass.
    master : MasterWork
        Sealer, test patch, release.
    bottles : BottleWork
        Soaked, then crushed colour by colour.
    """

    rubber: Slot
    master_out: Slot
    wash: Slot | None
    master: MasterWork = field(default_factory=MasterWork)
    bottles: BottleWork = field(default_factory=BottleWork)


def rubber_length(setup: Setup) -> timedelta:
    """Reckon how long the rubber pour keeps one person, from the empty box on."""
    alone = time_alone(setup.mold.rubber.batches, setup.mold.choices.vacuum_pot)
    return in_quarters(DEFAULTS["ready_for_rubber"].value + alone)


def washing_length(setup: Setup) -> timedelta:
    """Reckon how long it takes to wash the glass and spread it to dry."""
    return in_quarters(DEFAULTS["ready_to_wash"].value + setup.fill.glass_mass * pace(setup.job).washing)


def drying_length(setup: Setup) -> timedelta:
    """Tell how long the glass lies on its trays until it keeps its weight."""
    return timedelta(seconds=waits(setup.job))


def longest_pour(setup: Setup) -> timedelta:
    """Reckon the longest a pour can be before the pours are known: all of the resin at once."""
    return pour_length(setup.batches(setup.fill.resin_mixed), setup.paces)


def pour_hours(setup: Setup) -> WorkingHours:
    """When a pour may start: after the work before it, with time left to pour and to look at it.

    Parameters
    ----------
    setup : Setup
        With its working hours and its resin.

    Returns
    -------
    WorkingHours
        On a day too short for all of it, a pour starts as late as it still ends in hours, or when
        the shop opens.
    """
    hours = working_hours(setup.job)
    ahead = laying_length(setup.fill.glass_mass, setup.paces) + checking_length(setup.paces)
    before = HOUR * ceil(ahead / HOUR)
    opens, closes = (datetime.combine(date(2001, 1, 1), wall) for wall in (hours.opens, hours.closes))
    last = max(closes - longest_pour(setup) - span("look"), opens)
    return WorkingHours(
        hours.zone, _wall(min(opens + before, last)), _wall(last), hours.weekdays, hours.days_off
    )


def _wall(moment: datetime) -> time:
    return moment.time() if moment.date() == date(2001, 1, 1) else time(23, 59)


def work_ahead(setup: Setup, diary: Diary, work: datetime) -> Before:
    """Book what comes before the first pour as early as can be.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    diary : Diary
        Of one person.
    work : datetime
        When the work starts.

    Returns
    -------
    Before
        Master sealed and tried, rubber, then glass, then the master out.
    """
    master, ready = master_ahead(setup, diary, work)
    rubber = diary.after(ready, rubber_length(setup))
    bottles = crush_ahead(setup, diary, work)
    washed = bottles.crush[-1].slot[1] if bottles.crush else work
    wash = diary.after(washed, washing_length(setup)) if setup.fill.glass else None
    master_out = diary.after(_elapsed(rubber[1], curing(setup)), span("master_out"))
    return Before(rubber, master_out, wash, master, bottles)


def work_back(setup: Setup, diary: Diary, limit: datetime) -> Before:
    """Book what comes before the first pour as late as can be.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    diary : Diary
        Of one person.
    limit : datetime
        When the glass is laid or, without any, the list is gone through.

    Returns
    -------
    Before
        Counted back.
    """
    master_out = diary.before(limit, span("master_out"))
    dry = _elapsed(limit, -drying_length(setup))
    wash = diary.before(dry, washing_length(setup)) if setup.fill.glass else None
    cured = _elapsed(master_out[0], -curing(setup))
    rubber = diary.before(cured, rubber_length(setup))
    master = master_back(setup, diary, rubber[0])
    bottles = crush_back(setup, diary, wash[0]) if wash else BottleWork()
    return Before(rubber, master_out, wash, master, bottles)


def curing(setup: Setup) -> timedelta:
    """Time the rubber cures before the master comes out."""
    return timedelta(seconds=setup.mold.choices.rubber.demold_time.value)


def _elapsed(moment: datetime, time_passed: timedelta) -> datetime:
    """Add elapsed time, whatever the clocks do meanwhile."""
    return moment.astimezone(UTC) + time_passed


def next_working_hour(setup: Setup, now: datetime) -> datetime:
    """The full hour after a moment, or the next opening.

    Parameters
    ----------
    setup : Setup
        With its working hours.
    now : datetime
        Aware.

    Returns
    -------
    datetime
        When the work starts.
    """
    full = now.astimezone(UTC).replace(minute=0, second=0, microsecond=0) + HOUR
    return working_hours(setup.job).next_open(full)


def begin(setup: Setup, asked: datetime | None, now: datetime) -> Beginning:
    """Find the earliest first pour: as asked, else as the job says, else when the mold can be ready.

    Parameters
    ----------
    setup : Setup
        Its job may carry a start by the shop's wall clock.
    asked : datetime, optional
        From the command line; naive means the shop's wall clock.
    now : datetime
        Aware.

    Returns
    -------
    Beginning
        With the first pour when somebody is there for it.

    Raises
    ------
    UserError
        For a year that no calendar of the shop reaches, and where nobody is there within a year.
    """
    _refuse_far_off(asked)
    hours = pour_hours(setup)
    stated = asked or setup.job.start
    if stated is not None and stated.tzinfo is None:
        stated = stated.replace(tzinfo=hours.zone)
    try:
        ready = _ready(setup, now)
        wanted = ready if stated is None else stated
        first = next(hours.starts(wanted, wanted + YEAR, HOUR))
    except (ValueError, StopIteration):
        raise UserError(
            "nobody is in the shop within a year of the start",
            where=setup.job.where("shop.days_off"),
            todo="mend working_days or days_off",
        ) from None
    return Beginning(now.astimezone(hours.zone), stated, ready, first)


def _refuse_far_off(asked: datetime | None) -> None:
    if asked is not None and not FIRST_YEAR <= asked.year <= LAST_YEAR:
        allowed = f"{FIRST_YEAR} to {LAST_YEAR}"
        what = f"a start in the year {asked.year}"
        raise UserError(what, where="--start", allowed=allowed, todo="mend the year")


def _ready(setup: Setup, now: datetime) -> datetime:
    """When everything before the first pour can be done, if the work starts now."""
    diary = Diary(working_hours(setup.job))
    before = work_ahead(setup, diary, next_working_hour(setup, now))
    done = before.master_out[1]
    if before.wash is not None:
        dry = _elapsed(before.wash[1], drying_length(setup))
        done = diary.after(max(done, dry), laying_length(setup.fill.glass_mass, setup.paces))[1]
    return diary.after(done, checking_length(setup.paces))[1]


def request(setup: Setup, beginning: Beginning, spacing: float) -> Request:
    """What the planner is asked.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    beginning : Beginning
        With the earliest first pour.
    spacing : float
        Of the final heat run [m].

    Returns
    -------
    Request
        With limits, hours and steps.

    Raises
    ------
    UserError
        For a job with pinned values, and a grid that needs more memory than there is.
    """
    refuse_pinned(setup.job)
    limits = setup.job.limits
    resin, rubber = setup.resin.peak_limit.value, setup.mold.choices.rubber.peak_limit.value
    peaks = (
        resin if limits.resin_peak is None else limits.resin_peak.si,
        rubber if limits.rubber_peak is None else limits.rubber_peak.si,
        *([] if setup.hollow is None or setup.hollow.peak_limit is None else [setup.hollow.peak_limit]),
    )
    stands = site(setup, beginning.first)
    # how many pours there will be is not known yet: thin layers are counted as for one
    layers = layers_of((stands.block.height,), stands.block)
    refuse_without_room(
        stands, spacing, spacing, layers, where=setup.job.where("shape"),
        todo="plan without --fine, close other programs, or plan the piece in parts",
    )  # fmt: skip
    wishes = setup.job.planner
    return Request(
        stands,
        pour_hours(setup),
        min(peaks),
        US_STEP if setup.system is UnitSystem.US else METRIC_STEP,
        spacing,
        doubt=doubt_of(setup, stands),
        probability=limits.probability,
        seed=setup.job.seed,
        bounds=bounds_of(setup, stands),
        box_limit=DEFAULTS["box_limit"].value,
        stops=stands.borders if wishes.stop_at_borders else (),
        most_sanded=MOST_SANDED if wishes.joints == "sand" else 0,
        sand_after=DEFAULTS["sand_after"].value,
    )
