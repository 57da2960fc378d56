"""Why one way of filling is recommended, in a sentence."""

from __future__ import annotations

from pourwright.fill.ways.choice import Choice
from pourwright.foundation.notation import (
    UnitSystem,
    format_duration,
    format_length,
    format_mass,
    format_share,
)
from pourwright.jobs.fill_ways import DryWay, StirredWay

HOUR = 3600.0
ADVICE = "Try a small cube of it first; a coarser grade, thinner or slower resin, or a shallower band helps."


def reason(choice: Choice, dry: DryWay, stirred: StirredWay, system: UnitSystem) -> str:
    """Say why.

    Parameters
    ----------
    choice : Choice
        What is recommended, and what strains each way most.
    dry, stirred : part
        Both ways as reckoned.
    system : UnitSystem
        What the maker reads.

    Returns
    -------
    str
        A sentence; one more where neither way is good.
    """
    if choice.way == "over-dry-glass":
        if choice.good:
            return f"{_dry_good(dry)}; {_stirred_bad(choice.stirred.what, stirred, system)}."
        first = f"{_dry_bad(choice.dry.what, dry)}, but {_stirred_bad(choice.stirred.what, stirred, system)}"
        return f"{_capital(first)}. {ADVICE}"
    told = f"{_dry_bad(choice.dry.what, dry)}; {_stirred_good(stirred, system)}"
    return f"{_capital(told)}.{'' if choice.good else f' {ADVICE}'}"


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]


def _dry_good(dry: DryWay) -> str:
    assert dry.down_after_h is not None
    down = format_duration(dry.down_after_h * HOUR)
    limit = format_duration(dry.limit_h * HOUR)
    return f"Down in {down}, too thick only after {limit}, {_air(dry.air)} stays"


def _dry_bad(what: str, dry: DryWay) -> str:
    if dry.down_after_h is None:
        return f"over dry glass it is too thick after {format_duration(dry.limit_h * HOUR)} and not down yet"
    if what == "air":
        return f"over dry glass {_air(dry.air)} stays between the grains"
    down, limit = format_duration(dry.down_after_h * HOUR), format_duration(dry.limit_h * HOUR)
    return f"over dry glass it is down in {down}, too near to {limit}, when it is too thick"


def _stirred_good(stirred: StirredWay, system: UnitSystem) -> str:
    sinks = format_length(stirred.sinks_m, system)
    more = format_mass(stirred.more_resin_kg, system)
    return f"stirred in, {_air(stirred.air)} stays, its border sinks {sinks}, and it takes {more} more resin"


def _stirred_bad(what: str, stirred: StirredWay, system: UnitSystem) -> str:
    if not stirred.possible:
        return "the resin is too thick to stir glass into it"
    more = format_mass(stirred.more_resin_kg, system)
    if what == "sinking":
        sinks = format_length(stirred.sinks_m, system)
        return f"stirred in, the glass would sink {sinks} and take {more} more resin"
    if what == "time":
        each, limit = format_duration(stirred.batch_h * HOUR), format_duration(stirred.batch_limit_h * HOUR)
        return f"stirred in, a batch would take {each}, and must be in within {limit}"
    return f"stirred in, {_air(stirred.air)} would stay and {more} more resin be needed"


def _air(share: float) -> str:
    return "hardly any air" if share < 0.001 else f"{format_share(share, digits=1)} of air"
