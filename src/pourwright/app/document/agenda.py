"""The calendar: what is done when somebody is there."""

from __future__ import annotations

from datetime import datetime, timedelta

from pourwright.app.setup import Setup, working_hours
from pourwright.foundation.notation import format_length, format_mass
from pourwright.jobs import plan

HOUR = timedelta(hours=1)
BATCH_TIME = timedelta(minutes=20)
RUBBER_WORK = timedelta(hours=2)
LOOK_BACK = timedelta(days=30)
DRYING = timedelta(hours=24)


def calendar(setup: Setup, pours: list[plan.Pour], opening: datetime | None) -> list[plan.Event]:
    """List what is done when, in order.

    Parameters
    ----------
    setup : Setup
        Mold, fill and working hours.
    pours : list of plan.Pour
        With their starts and windows.
    opening : datetime or None
        When somebody is there to demold; None where it never hardens.

    Returns
    -------
    list of plan.Event
        Mold and glass are counted back from the first pour, to the last moment that does.
    """
    events = [*_before(setup, pours[0]), *_pouring(setup, pours)]
    if opening is not None:
        events.append(
            _event(
                opening,
                2 * HOUR,
                "Demold",
                "Open the box on all sides first; let air in before you pull.",
                "demold",
            )
        )
    return sorted(events, key=lambda event: datetime.fromisoformat(event.start))


def _before(setup: Setup, first: plan.Pour) -> list[plan.Event]:
    start = datetime.fromisoformat(first.start)
    rubber = setup.mold.choices.rubber
    cured = timedelta(seconds=rubber.demold_time.value)
    open_box = _latest(setup, start - 2 * HOUR)
    pour_rubber = _latest(setup, open_box - cured - RUBBER_WORK)
    mix = setup.mold.rubber
    amount = f"{format_mass(mix.mass_mixed, setup.system)} in {len(mix.batches)} batches"
    events = [
        _event(pour_rubber, RUBBER_WORK, "Pour the rubber, at the latest", f"{amount}; master down.", "mold"),
        _event(open_box, HOUR, "Take the master out", "Cured? Test it with water, then dry it.", "mold"),
        _event(start - HOUR, HOUR, "Go/no-go list", "Every line ticked before A meets B.", "check"),
    ]  # fmt: skip
    if setup.fill.glass:
        dry = _latest(setup, start - DRYING)
        mass = format_mass(setup.fill.glass_mass, setup.system)
        events.append(
            _event(
                dry,
                2 * HOUR,
                "Wash the glass and set it to dry",
                f"{mass}; dry until a tray stays the same weight.",
                "prepare",
            )
        )
    return events


def _latest(setup: Setup, before: datetime) -> datetime:
    """Last full working hour at or before a moment."""
    hours = working_hours(setup.job)
    return max(hours.starts(before - LOOK_BACK, before, HOUR), default=before)


def _pouring(setup: Setup, pours: list[plan.Pour]) -> list[plan.Event]:
    events = []
    for pour, following in zip(pours, [*pours[1:], None], strict=True):
        start = datetime.fromisoformat(pour.start)
        length = max(BATCH_TIME * len(pour.batches), HOUR)
        events.append(
            _event(start, length, f"Pour {pour.number} of {len(pours)}", _detail(setup, pour), "pour")
        )
        events.append(
            _event(
                start + length,
                HOUR / 4,
                f"Look at pour {pour.number}",
                "Level where it was? No drip below? Note both.",
                "check",
            )
        )
        if following is not None and pour.next_from and pour.next_until:
            events.append(_window(pour, following))
    return events


def _detail(setup: Setup, pour: plan.Pour) -> str:
    level, dip = (format_length(value, setup.system) for value in (pour.to_m, pour.dip_to_m))
    return f"{format_mass(pour.resin_kg, setup.system)} of resin up to {level}, {dip} below the rim."


def _window(pour: plan.Pour, following: plan.Pour) -> plan.Event:
    assert pour.next_from is not None and pour.next_until is not None  # noqa: PT018 - asked before
    return plan.Event(
        start=pour.next_from,
        end=pour.next_until,
        title=f"Pour {following.number} bonds to pour {pour.number}",
        detail="Pour the next one within this time; later it must be sanded and washed first.",
        kind="wait",
    )


def _event(start: datetime, length: timedelta, title: str, detail: str, kind: str) -> plan.Event:
    return plan.Event.model_validate(
        {
            "start": start.isoformat(),
            "end": (start + length).isoformat(),
            "title": title,
            "detail": detail,
            "kind": kind,
        }
    )
