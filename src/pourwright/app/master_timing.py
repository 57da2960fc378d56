"""What is done to the master before the rubber, and how long it takes: seal, test patch, release."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from pourwright.app.contact import Contact, contact_of
from pourwright.app.defaults import span
from pourwright.app.diary import Diary, Slot
from pourwright.app.setup import Setup
from pourwright.materials.contact import Coat


@dataclass(frozen=True)
class MasterWork:
    """What comes before the rubber, each with start and end; None where there is nothing to do.

    Parameters
    ----------
    seal, patch, look, release : tuple of datetime or None
        Coats of sealer; the test patch; the look at it once it has cured; coats of release.
    """

    seal: Slot | None = None
    patch: Slot | None = None
    look: Slot | None = None
    release: Slot | None = None


def contact_in(setup: Setup) -> Contact:
    """Judge the contact of the rubber with the master of a setup."""
    return contact_of(setup.job, setup.mold.choices.rubber)


def drying(coat: Coat | None) -> timedelta:
    """Time from the last coat until something may touch it."""
    return timedelta() if coat is None else timedelta(seconds=coat.days.value)


def _length(coat: Coat | None, each: str) -> timedelta:
    return timedelta() if coat is None else coat.coats * span(each)


def master_ahead(setup: Setup, diary: Diary, work: datetime) -> tuple[MasterWork, datetime]:
    """Book the work on the master as early as can be.

    Parameters
    ----------
    setup : Setup
        With its job.
    diary : Diary
        Of one person.
    work : datetime
        When the work starts.

    Returns
    -------
    tuple
        The work, and from when rubber may be poured.
    """
    contact, free = contact_in(setup), work
    master = setup.job.master
    sealing = _length(contact.sealer, "sealing_coat")
    seal = patch = look = release = None
    if sealing and master.sealed is None:
        seal = diary.after(free, sealing)
        free = _later(seal[1], drying(contact.sealer))
    elif master.sealed is not None:
        free = max(free, _later(_evening(master.sealed, diary), drying(contact.sealer)))
    if contact.needs_patch:
        patch = diary.after(free, span("patch"))
        look = diary.after(_later(patch[1], curing_of(contact)), span("patch"))
        free = look[1]
    elif master.patch_test is not None:
        free = max(free, _morning(master.patch_test, diary))
    if releasing := _length(contact.release, "release_coat"):
        release = diary.after(free, releasing)
        free = _later(release[1], drying(contact.release))
    return MasterWork(seal, patch, look, release), free


def master_back(setup: Setup, diary: Diary, limit: datetime) -> MasterWork:
    """Book the work on the master as late as can be.

    Parameters
    ----------
    setup : Setup
        With its job.
    diary : Diary
        Of one person.
    limit : datetime
        When the rubber is poured.

    Returns
    -------
    MasterWork
    """
    contact = contact_in(setup)
    seal = patch = look = release = None
    if releasing := _length(contact.release, "release_coat"):
        release = diary.before(_later(limit, -drying(contact.release)), releasing)
        limit = release[0]
    if contact.needs_patch:
        look = diary.before(limit, span("patch"))
        patch = diary.before(_later(look[0], -curing_of(contact)), span("patch"))
        limit = patch[0]
    sealing = _length(contact.sealer, "sealing_coat")
    if sealing and setup.job.master.sealed is None:
        seal = diary.before(_later(limit, -drying(contact.sealer)), sealing)
    return MasterWork(seal, patch, look, release)


def curing_of(contact: Contact) -> timedelta:
    """Time the test patch cures."""
    return timedelta(seconds=contact.rubber.demold_time.value)


def _later(moment: datetime, passed: timedelta) -> datetime:
    """Add elapsed time, whatever the clocks do meanwhile."""
    return moment.astimezone(UTC) + passed


def _morning(day: date, diary: Diary) -> datetime:
    return datetime.combine(day, time.min, diary.hours.zone)


def _evening(day: date, diary: Diary) -> datetime:
    return datetime.combine(day, diary.hours.closes, diary.hours.zone)
