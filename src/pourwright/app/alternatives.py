"""What a plan may choose from, and what it looks at besides: the same job with one thing changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

from pourwright.app.doubting import CastingDoubt, resined
from pourwright.app.setup import Setup, set_up
from pourwright.app.timing import Beginning, begin, request
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_temperature_difference
from pourwright.jobs.job import Job
from pourwright.jobs.loading import with_lines, with_text
from pourwright.materials import Resin
from pourwright.planner.hours import EVERY_DAY
from pourwright.planner.request import Request, moved
from pourwright.pour.climate import Climate

COOLER_NIGHT = 5.0
"""Kelvin by which a shop cools at night where the heating is turned down."""
AFTER_CUP_TEST = 0.4
"""Share of a family's doubts about a resin that a cup test leaves: see the manual on fitting."""
NIGHT = (*range(7), *range(19, 24))


@dataclass(frozen=True)
class Change:
    """One thing changed.

    Parameters
    ----------
    words : str
        What is changed, for whoever reads the plan.
    request : Request
        The job with it.
    setup : Setup or None
        The job with it, where it is the job that changes.
    no_worse : bool
        Whether whatever keeps the limits without it keeps them with it.
    """

    words: str
    request: Request
    setup: Setup | None = None
    no_worse: bool = False


def options_of(setup: Setup, beginning: Beginning, spacing: float) -> list[Change]:
    """List what the job allows the planner to choose instead: resins, mixing and shop temperatures.

    Parameters
    ----------
    setup : Setup
        The job.
    beginning : Beginning
        When its work begins.
    spacing : float
        Of the final heat run [m].

    Returns
    -------
    list of Change
        Every combination but the job's own.

    Raises
    ------
    UserError
        For a resin that does not exist, with its line.
    """
    plan, job = setup.job.planner, setup.job
    resins = [(name, f"planner.resins[{number}]") for number, name in enumerate(plan.resins, 1)]
    for name, place in resins:
        setup.materials.find("resin", name, job.where(place))
    shop: list[dict[str, Any]] = [{"shop": {"temperature": one.text}} for one in plan.shop_temperatures]
    mixed: list[dict[str, Any]] = [
        {"casting": {"start_temperature": one.text}} for one in plan.start_temperatures
    ]
    own: list[dict[str, Any]] = [{}]
    material: list[dict[str, Any]] = [{"casting": {"material": name}} for name, _ in resins]
    ways = list(product(own + material, own + mixed, own + shop))[1:]
    return [_changed(setup, beginning, spacing, way) for way in ways]


def _changed(setup: Setup, beginning: Beginning, spacing: float, ways: Sequence[dict[str, Any]]) -> Change:
    job, words = setup.job, []
    for lines in ways:
        job = with_lines(job, lines) if lines else job
        words += [f'{name}.{key} = "{value}"' for name, keys in lines.items() for key, value in keys.items()]
    return _of_job(job, ", ".join(words), setup, beginning, spacing)


def _of_job(job: Job, words: str, setup: Setup, beginning: Beginning, spacing: float) -> Change:
    # the piece is the same: only its surroundings change
    changed = set_up(job, setup.piece)
    stated = beginning.stated if job.start == setup.job.start else None
    own = begin(changed, stated, beginning.now)
    return Change(words, request(changed, own, spacing), changed)


def asked_for(setup: Setup, beginning: Beginning, spacing: float, texts: Sequence[str]) -> list[Change]:
    """Read the changes that somebody wants looked at.

    Parameters
    ----------
    setup : Setup
        The job.
    beginning : Beginning
        When its work begins.
    spacing : float
        Of the final heat run [m].
    texts : sequence of str
        Lines of a job file, each a change.

    Returns
    -------
    list of Change
        In their order.

    Raises
    ------
    UserError
        For lines that a job cannot have, and for those that change the piece.
    """
    found = []
    for text in texts:
        where = f"--what-if {text!r}"
        job = with_text(setup.job, text, where)
        if job == setup.job:
            raise UserError("nothing is changed", where=where, todo="write a line that differs from the job")
        if job.shape != setup.job.shape or job.planner != setup.job.planner:
            what = "another shape, or another choice for the planner, is another job"
            raise UserError(what, where=where, todo="plan it as a variant")
        try:
            found.append(_of_job(job, text, setup, beginning, spacing))
        except UserError as error:
            raise UserError(str(error), where=where) from None
    return found


def changes_of(setup: Setup, asked: Request) -> list[Change]:
    """List what a plan looks at besides, though nobody asks for it.

    Parameters
    ----------
    setup : Setup
        The job.
    asked : Request
        As written.

    Returns
    -------
    list of Change
        Those that would change something.
    """
    return [*surer(asked), _cooler_night(setup, asked)]


def surely(asked: Request) -> Request:
    """Ask the same as if the likeliest numbers were sure.

    Parameters
    ----------
    asked : Request
        As written.

    Returns
    -------
    Request
        Without doubts.
    """
    return replace(asked, doubt=None)


def sure(change: Change) -> Change:
    """Look at a change as if the likeliest numbers were sure.

    Parameters
    ----------
    change : Change
        As asked for.

    Returns
    -------
    Change
        Without doubts.
    """
    return replace(change, request=surely(change.request))


def surer(asked: Request) -> Iterator[Change]:
    """A resin measured by the shop, where only its family is known.

    Parameters
    ----------
    asked : Request
        As written.

    Yields
    ------
    Change
        None where the resin has a fit of its own.
    """
    doubt = asked.doubt
    if isinstance(doubt, CastingDoubt) and doubt.origin != "fit" and doubt.scale > AFTER_CUP_TEST:
        words = "this resin measured first, with a cup test (pourwright fit)"
        yield Change(words, replace(asked, doubt=replace(doubt, scale=AFTER_CUP_TEST)), no_worse=True)


def every_day(asked: Request) -> Iterator[Change]:
    """Somebody in the shop on every day, where the hours leave days out.

    Parameters
    ----------
    asked : Request
        As written.

    Yields
    ------
    Change
        At most one.
    """
    hours = asked.hours
    if hours.weekdays != EVERY_DAY or hours.days_off:
        every = replace(hours, weekdays=EVERY_DAY, days_off=frozenset())
        yield Change("let somebody be there every day", replace(asked, hours=every))


def with_resin(asked: Request, resin: Resin) -> Request:
    """Ask the same with another resin, and its own doubts.

    Parameters
    ----------
    asked : Request
        As written.
    resin : Resin
        The other one.

    Returns
    -------
    Request
    """
    site = replace(asked.site, resin=resin)
    doubt = asked.doubt
    return replace(asked, site=site, doubt=resined(doubt, resin) if isinstance(doubt, CastingDoubt) else None)


def with_climate(asked: Request, climate: Climate) -> Request:
    """Ask the same in a shop of another temperature.

    Parameters
    ----------
    asked : Request
        As written.
    climate : Climate
        The other shop.

    Returns
    -------
    Request
    """
    return moved(asked, replace(asked.site, climate=climate))


def _cooler_night(setup: Setup, asked: Request) -> Change:
    climate = asked.site.climate
    hourly: Sequence[float] = [
        value - COOLER_NIGHT if hour in NIGHT else value for hour, value in enumerate(climate.hourly)
    ]
    by = format_temperature_difference(COOLER_NIGHT, setup.system)
    words = f"the shop {by} cooler at night, 7 in the evening to 7 in the morning"
    return Change(words, with_climate(asked, replace(climate, hourly=tuple(hourly))))
