"""Where no plan keeps all limits: what fails, by how much, and the nearest change that mends it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from pourwright.app.defaults import DEFAULTS
from pourwright.app.setup import Setup
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import (
    format_duration,
    format_length,
    format_temperature,
    format_temperature_difference,
)
from pourwright.foundation.progress import Progress
from pourwright.planner.decide import Request, find
from pourwright.planner.hours import EVERY_DAY
from pourwright.planner.model import NoPlanError

# tried from the least: the first that mends it is the nearest [K]
COOLER = (1.0, 2.0, 3.0, 5.0, 8.0)
TRIAL_BUDGET = 12


def no_plan(setup: Setup, asked: Request, failed: NoPlanError, progress: Progress) -> UserError:
    """Turn a failed search into one error that says what would mend it.

    Parameters
    ----------
    setup : Setup
        The job.
    asked : Request
        What could not be planned.
    failed : NoPlanError
        What failed.
    progress : Progress
        Told what is tried.

    Returns
    -------
    UserError
        To raise.
    """
    return UserError(
        f"no plan keeps all limits: {_what(setup, failed)}",
        where=str(setup.job.path),
        allowed=_allowed(setup, asked, failed),
        todo=_first_that_mends(setup, asked, failed, progress),
    )


def _what(setup: Setup, failed: NoPlanError) -> str:
    system, failure = setup.system, failed.failure
    lower, upper = (format_length(level, system) for level in failure.place)
    if failure.constraint == "peak":
        by = format_temperature_difference(failure.amount, system)
        return f"the pour from {lower} to {upper} goes over the limit by {by} or more"
    hours = format_duration(failure.amount)
    return (
        f"nobody is there while the pour from {lower} to {upper} still bonds: it stops {hours} before "
        "the next working hour"
    )


def _allowed(setup: Setup, asked: Request, failed: NoPlanError) -> str:
    if failed.failure.constraint == "peak":
        return f"a peak up to {format_temperature(asked.peak_limit, setup.system)}"
    return "the next pour within the bond window and the working hours"


def _first_that_mends(setup: Setup, asked: Request, failed: NoPlanError, progress: Progress) -> str:
    changes = {"peak": (_cooler, _slower), "bond": (_always_open, _cooler, _slower)}
    kinds = changes[failed.failure.constraint]
    for words, changed in (change for kind in kinds for change in kind(setup, asked)):
        progress.step("looking for a change that mends it", 0, 1)
        try:
            find(replace(changed, budget=TRIAL_BUDGET), progress)
        except NoPlanError:
            continue
        return words
    return "cast it hollow or smaller, or test a slower resin: none of the usual changes is enough"


def _always_open(_: Setup, asked: Request) -> Iterator[tuple[str, Request]]:
    hours = asked.hours
    if hours.weekdays != EVERY_DAY or hours.days_off:
        every = replace(hours, weekdays=EVERY_DAY, days_off=frozenset())
        yield "let somebody be there every day", replace(asked, hours=every)


def _cooler(setup: Setup, asked: Request) -> Iterator[tuple[str, Request]]:
    for kelvin in COOLER:
        if asked.site.climate.mean - kelvin >= DEFAULTS["cool_shop"].value:
            cooler = replace(asked.site, climate=asked.site.climate.shifted(-kelvin))
            by = format_temperature_difference(kelvin, setup.system)
            yield f"keep the shop {by} cooler", replace(asked, site=cooler)


def _slower(setup: Setup, asked: Request) -> Iterator[tuple[str, Request]]:
    for resin in setup.materials.resin.values():
        if resin.film_gel_time.value > setup.resin.film_gel_time.value:
            slower = replace(asked, site=replace(asked.site, resin=resin))
            yield f'take a slower resin: material = "{resin.id}"', slower
