"""What is done to the master before the rubber, as lines of the calendar."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC

from pourwright.app.contact import Contact, layers_words
from pourwright.app.diary import Slot
from pourwright.app.document.moments import iso
from pourwright.app.master_timing import MasterWork, contact_in, drying
from pourwright.app.setup import Setup
from pourwright.foundation.notation import format_duration
from pourwright.jobs import plan
from pourwright.materials.contact import Coat

LOOK = "Look at the test patch"
"""Title by which the rubber ticket finds its day."""


def master_events(setup: Setup, work: MasterWork, latest: str) -> Iterator[plan.Event]:
    """Write sealer, test patch and release into the calendar.

    Parameters
    ----------
    setup : Setup
        With its job.
    work : MasterWork
        What is booked.
    latest : str
        Behind the titles of what is counted back from the first pour.

    Yields
    ------
    plan.Event
    """
    contact = contact_in(setup)
    yield from _sealed(contact, work.seal, latest)
    if work.patch is not None and work.look is not None:
        on = layers_words(contact.master.layers)
        told = f"A spoonful of this rubber, by weight, on an offcut: {on}. Half of it over an edge."
        yield _event(work.patch, f"Lay the test patch{latest}", told, "check")
        told = "Cured, dry face, off clean? Then write its date to master.patch_test. Else do not mix."
        yield _event(work.look, LOOK, told, "check")
    if work.release is not None and contact.release is not None:
        told = f"{_coats(contact.release)}; {contact.release.none_on}."
        yield _event(work.release, "Release on the master", told, "prepare")


def _sealed(contact: Contact, slot: Slot | None, latest: str) -> Iterator[plan.Event]:
    if slot is None or contact.sealer is None:
        return
    told = f"{_coats(contact.sealer)}. An offcut with it, for the test patch."
    yield _event(slot, f"Seal the master{latest}", told, "prepare")
    cured = (slot[1].astimezone(UTC) + drying(contact.sealer)).astimezone(slot[1].tzinfo)
    yield _event((slot[1], cured), "The sealer cures", f"{contact.sealer.days.conditions}.", "wait")


def _coats(coat: Coat) -> str:
    count = "1 coat" if coat.coats == 1 else f"{coat.coats} coats"
    return f"{count} of {coat.name}, then {format_duration(coat.days.value)} to dry: {coat.how}"


def _event(slot: Slot, title: str, detail: str, kind: str) -> plan.Event:
    return plan.Event.model_validate(
        {
            "start": iso(slot[0]),
            "end": iso(slot[1]),
            "title": title,
            "detail": detail[:1].upper() + detail[1:],
            "kind": kind,
        }
    )
