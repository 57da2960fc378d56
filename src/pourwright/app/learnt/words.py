"""What was learnt, or why it was not, in the maker's words."""

from __future__ import annotations

from pourwright.calibration.learning.quantities import QUANTITIES
from pourwright.calibration.learning.record import Learned
from pourwright.foundation.notation import UnitSystem, format_bend


def told(learned: Learned, units: str = "metric") -> str:
    """Say what was learnt, as: Your coarse glass: 44 % voids (43 % to 45 %), from 6 pours."""
    phrase, count = phrase_of(learned, units), counted(learned)
    if learned.kept_family:
        return f"The family's value is kept, {phrase}: {_why_kept(learned, count)}."
    low, high = shown(learned.quantity, learned.low, units), shown(learned.quantity, learned.high, units)
    family = shown(learned.quantity, learned.family.value, units)
    return (
        f"Your {phrase} ({low} to {high}), from {count}; the family says {family}.{_doubted(learned, units)}"
    )


def phrase_of(learned: Learned, units: str = "metric") -> str:
    """Say what the value is of, as: coarse glass: 44 % voids."""
    value = shown(learned.quantity, learned.value, units)
    return QUANTITIES[learned.quantity].words.format(subject=learned.subject, value=value)


def name_of(quantity: str, subject: str) -> str:
    """Name what a number is of, as: coarse glass."""
    return QUANTITIES[quantity].called.format(subject=subject)


def counted(learned: Learned) -> str:
    """Say from how many of what it was learnt, as: 6 pours."""
    each = QUANTITIES[learned.quantity].each
    return f"{learned.records} {each}{'' if learned.records == 1 else 's'}"


def _why_kept(learned: Learned, count: str) -> str:
    if learned.why == "few":
        return f"{count} {'is' if learned.records == 1 else 'are'} too few"
    return f"{count} of yours, each held out, were predicted no better by the others"


def _doubted(learned: Learned, units: str) -> str:
    if not learned.suspects:
        return ""
    values = ", ".join(shown(learned.quantity, each.value, units) for each in learned.suspects)
    many = len(learned.suspects) > 1
    return f" {values} look{'' if many else 's'} wrong and hardly count{'' if many else 's'}."


def shown(quantity: str, value: float, units: str = "metric") -> str:
    """One value as the maker reads it."""
    kind = QUANTITIES[quantity].shown
    if kind == "length":
        return format_bend(value, UnitSystem(units))
    return f"{100.0 * value:.3g} %"
