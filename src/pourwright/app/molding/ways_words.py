"""Which way of making a mold, and why, in sentences."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pourwright.foundation.notation import UnitSystem, format_duration, format_mass
from pourwright.jobs.mold_ways import WayOfMold

SMALL_SAVING = 0.02
"""Share below which a difference is none."""


def why_words(
    ways: Sequence[WayOfMold], system: UnitSystem, currency: str | None, casts: int | None = None
) -> str:
    """Say in one sentence why one way is recommended.

    Parameters
    ----------
    ways : sequence of WayOfMold
        All.
    system : UnitSystem
        Of what is printed.
    currency : str or None
        Of the prices.
    casts : int, optional
        Wanted.

    Returns
    -------
    str
    """
    best = next((way for way in ways if way.recommended), None)
    if best is None:
        return "None of them can be made as it is; each says what stands in its way."
    others = [way for way in ways if way.possible and way.planned and way is not best]
    return f"{_first(best, others, system, currency, casts)}{_unplanned(best, ways, system)}"


def _first(
    best: WayOfMold,
    others: Sequence[WayOfMold],
    system: UnitSystem,
    currency: str | None,
    casts: int | None,
) -> str:
    if not others:
        return f"{_name(best)}: nothing else can be made and planned."
    if all(way.money.per_cast is not None for way in (best, *others)):
        return _by_money(best, others, currency or "", _over(best, casts))
    return _by_weight(best, others, system, _over(best, casts))


def _unplanned(best: WayOfMold, ways: Sequence[WayOfMold], system: UnitSystem) -> str:
    """Tell of a way that would take less rubber, but that no plan can be made for."""
    way = next((way for way in ways if way.possible and not way.planned), None)
    if way is None or way.mixed_kg > best.mixed_kg:
        return ""
    mass = format_mass(way.mixed_kg, system)
    return f" A {way.words} would take {mass} of rubber, but its heat is not reckoned: no plan."


def change_words(ways: Sequence[WayOfMold], system: UnitSystem, currency: str | None) -> str:
    """Say what to write into the job, and what it saves against what the job has.

    Parameters
    ----------
    ways, system, currency
        As for `why_words`.

    Returns
    -------
    str
        Empty where the job has the recommended way, or none is.
    """
    best = next((way for way in ways if way.recommended), None)
    now = next((way for way in ways if way.in_job), None)
    if best is None or now is None:
        return ""
    if best is now:
        return "The job has it already."
    lines = f"[mold] {', '.join(best.job_lines[1:])}"
    if not now.possible:
        return f"Write {lines}; as the job has it ({_name(now)}): {now.no[0]}."
    told = ", ".join(_differences(now, best, system, currency))
    return f"Write {lines}: against the job's {_name(now)} that is {told}."


def _name(way: WayOfMold) -> str:
    held = {"bed": "laid in clay", "screwed": "master screwed down", "hung": "master hung"}[way.held]
    return way.words if way.way != "block" else f"{way.words}, {held}"


def _over(best: WayOfMold, casts: int | None) -> str:
    """Among how many casts the mold is shared."""
    if casts is None:
        return f"{best.casts_low:.0f} to {best.casts_high:.0f} casts"
    return "1 cast" if casts == 1 else f"{casts} casts"


def _by_money(best: WayOfMold, others: Sequence[WayOfMold], currency: str, over: str) -> str:
    second = min(others, key=lambda way: way.money.per_cast or 0.0)
    mine, next_one = best.money.per_cast or 0.0, second.money.per_cast or 0.0
    if next_one < mine * (1 + SMALL_SAVING):
        return (
            f"{_name(best)}: {mine:.0f} {currency} a cast over {over}, as much as the next "
            f"({_name(second)}) and less trouble."
        )
    return (
        f"{_name(best)}: {mine:.0f} {currency} a cast over {over}; the next, {_name(second)}, {next_one:.0f} "
        f"{currency}."
    )


def _by_weight(best: WayOfMold, others: Sequence[WayOfMold], system: UnitSystem, over: str) -> str:
    mass, work = format_mass(best.mixed_kg, system), format_duration(best.work_h * 3600)
    missing = sorted({name for way in (best, *others) for name in way.money.missing})
    return (
        f"{_name(best)}: least rubber and work for one cast, {mass} and {work} for "
        f"{over}. No money for a cast: the job does not give "
        f"{' and '.join(missing)}."
    )


def _differences(now: WayOfMold, best: WayOfMold, system: UnitSystem, currency: str | None) -> list[str]:
    told = [
        _less(now.mixed_kg, best.mixed_kg, lambda mass: format_mass(mass, system), "of rubber"),
        _less(now.work_h, best.work_h, lambda hours: format_duration(round(hours * 4) * 900), "of work"),
    ]
    if now.money.mold is not None and best.money.mold is not None:
        told.append(_less(now.money.mold, best.money.mold, lambda m: f"{m:.0f} {currency}", "for the mold"))
    return [text for text in told if text] or ["the same"]


def _less(now: float, best: float, say: Callable[[float], str], what: str) -> str:
    saved = now - best
    if abs(saved) < SMALL_SAVING * max(now, best):
        return ""
    amount = say(abs(saved))
    return f"{amount} {what} {'less' if saved > 0 else 'more'}"
