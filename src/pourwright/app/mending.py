"""Where no plan keeps all limits: what fails, by how much, and the nearest change that mends it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from pourwright.app.alternatives import Change, every_day, surer, with_climate, with_resin
from pourwright.app.defaults import DEFAULTS
from pourwright.app.heights import in_both
from pourwright.app.setup import Setup
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import (
    format_duration,
    format_length,
    format_temperature,
    format_temperature_difference,
)
from pourwright.foundation.progress import Progress
from pourwright.planner.decide import find
from pourwright.planner.model import Failure, NoPlanError
from pourwright.planner.request import Request
from pourwright.pour.store import Map, in_turn

# tried from the least: the first that mends it is the nearest [K]
COOLER = (1.0, 2.0, 3.0, 5.0, 8.0)
TRIAL_BUDGET = 12


def no_plan(
    setup: Setup, asked: Request, failed: NoPlanError, progress: Progress, each: Map = in_turn
) -> UserError:
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
    each : Map
        Does the heat runs.

    Returns
    -------
    UserError
        To raise.
    """
    return UserError(
        f"no plan keeps all limits{_how_surely(asked)}: {_what(setup, failed.failure)}",
        where=str(setup.job.path),
        allowed=_allowed(setup, asked, failed.failure),
        todo=_first_that_mends(setup, asked, failed.failure, progress, each),
    )


def _how_surely(asked: Request) -> str:
    return "" if asked.doubt is None else f" in {100 * asked.probability:.3g} of 100 castings"


def _what(setup: Setup, failure: Failure) -> str:
    system = setup.system
    lower, upper = (in_both(setup.piece.frame, level, system) for level in failure.place)
    pour = f"the pour from {lower} to {upper}"
    hours = format_duration(failure.amount)
    words = {
        "peak": f"{pour} goes over the limit by "
        f"{format_temperature_difference(failure.amount, system)} or more",
        "bond": f"nobody is there while {pour} still bonds: it stops {hours} before the next working hour",
        "box": f"the box gets too hot for its glue and seams by "
        f"{format_temperature_difference(failure.amount, system)}",
        "chance": f"about {100 * failure.amount:.2g} castings of 100 too many go over the limit",
        "head": f"{pour} stands {format_length(failure.amount, system)} too deep over the seams",
        "day": f"{pour} takes one person {hours} longer than the shop is open",
        "soak": f"{pour} is too thick to run through its glass, after {1.0 - failure.amount:.0%} of the way",
        "border": f"{pour} runs through a border that it must end at",
    }
    return words[failure.constraint]


def _allowed(setup: Setup, asked: Request, failure: Failure) -> str:
    words = {
        "peak": f"a peak up to {format_temperature(asked.peak_limit, setup.system)}",
        "box": "glue and caulk below what softens them",
        "head": "limits.liquid_depth",
        "day": "one pour within shop.working_hours",
        "soak": "resin thin enough until it is through",
    }
    return words.get(failure.constraint, "the next pour within the bond window and the working hours")


def _first_that_mends(setup: Setup, asked: Request, failure: Failure, progress: Progress, each: Map) -> str:
    if failure.constraint not in _MENDS:
        return "raise that limit, or give the planner more levels to choose from"
    for kind in _MENDS[failure.constraint]:
        for change in kind(setup, asked):
            progress.step("looking for a change that mends it", 0, 1)
            try:
                find(replace(change.request, budget=TRIAL_BUDGET), each)
            except NoPlanError:
                continue
            return change.words
    return "cast it hollow or smaller, or test a slower resin: none of the usual changes is enough"


def _always_open(_: Setup, asked: Request) -> Iterator[Change]:
    yield from every_day(asked)


def _measured(_: Setup, asked: Request) -> Iterator[Change]:
    for change in surer(asked):
        yield Change("measure this resin first, with a cup test: pourwright fit", change.request)


def _cooler(setup: Setup, asked: Request) -> Iterator[Change]:
    climate = asked.site.climate
    for kelvin in COOLER:
        if climate.mean - kelvin >= DEFAULTS["cool_shop"].value:
            by = format_temperature_difference(kelvin, setup.system)
            yield Change(f"keep the shop {by} cooler", with_climate(asked, climate.shifted(-kelvin)))


def _slower(setup: Setup, asked: Request) -> Iterator[Change]:
    for resin in setup.materials.resin.values():
        if resin.film_gel_time.value > setup.resin.film_gel_time.value:
            yield Change(f'take a slower resin: material = "{resin.id}"', with_resin(asked, resin))


_MENDS: Mapping[str, tuple[Callable[[Setup, Request], Iterator[Change]], ...]] = MappingProxyType(
    {
        "chance": (_measured, _cooler, _slower),
        "peak": (_measured, _cooler, _slower),
        "box": (_cooler, _slower),
        "bond": (_always_open, _measured, _cooler, _slower),
    }
)
