"""What is said in words: cautions, warnings, the go/no-go list, reasons."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import Any

from pourwright.app.setup import Setup
from pourwright.foundation.notation import (
    UnitSystem,
    format_length,
    format_share,
    format_temperature,
    format_temperature_difference,
)
from pourwright.jobs import plan
from pourwright.mold import lifting_caution
from pourwright.planner.decide import Decision
from pourwright.planner.model import Failure
from pourwright.pour.climate import Climate

ZERO_CELSIUS = 273.15
HUMID = 0.85
COOL_SHOP = 288.15
NEAR_LIMIT = 3.0


@cache
def _words() -> dict[str, Any]:
    return tomllib.loads(files("pourwright").joinpath("data", "words.toml").read_text("utf8"))


def general_cautions() -> tuple[str, ...]:
    """Give the cautions that hold for every casting."""
    return tuple(_words()["cautions"])


def cautions(setup: Setup) -> list[str]:
    """List the cautions, with the lifting of the filled mold and of the piece where they are heavy."""
    lifts = (
        ("The filled mold", setup.mold.filled_mass(setup.fill.piece_mass)),
        ("The piece", setup.fill.piece_mass),
    )
    heavy = [lifting_caution(name, mass, setup.system) for name, mass in lifts]
    return [text for text in heavy if text] + list(general_cautions())


def go_no_go(setup: Setup) -> list[plan.Check]:
    """List what must be true before part A meets part B."""
    lines = [line for line in _words()["go_no_go"] if setup.fill.glass or not line.get("glass")]
    return [plan.Check(text=line["text"], why=line["why"]) for line in lines]


def warnings(setup: Setup, decision: Decision, climate: Climate, limit: float) -> list[str]:
    """List what the maker should think about before spending."""
    found = [*setup.mold.warnings, *setup.fill.warnings, *_near_limit(setup, decision, limit)]
    if climate.mean < COOL_SHOP:
        cool = format_temperature(climate.mean, setup.system)
        found.append(
            f"The shop is cool, {cool} on average: cure is slow and may stall; warm it, or build a warm box "
            "around the mold as the data sheet allows."
        )
    if setup.job.shop.humidity > HUMID:
        damp = format_share(setup.job.shop.humidity)
        found.append(f"The air is damp ({damp}): tops blush; wash and sand them between pours.")
    if decision.choice.trial.ready is None:
        found.append(
            "The least-cured place does not get hard in this shop within three weeks: warm the mold."
        )
    return found


def _near_limit(setup: Setup, decision: Decision, limit: float) -> Iterator[str]:
    system = setup.system
    for number, (pour, error) in enumerate(zip(decision.final.pours, decision.grid_errors, strict=True), 1):
        left = limit - pour.peak
        if left < max(NEAR_LIMIT, error):
            below = format_temperature_difference(left, system, digits=1)
            yield (
                f"Pour {number} peaks only {below} below its limit. Near run-away a few per cent in rate "
                "move the peak by far more: keep to the level, the temperature and the mix."
            )


def reasons(setup: Setup, decision: Decision) -> list[plan.Reason]:
    """Say why: the number of pours, defaults kept, values that are missing."""
    found = [plan.Reason(key="pours", text=_why_so_many(setup, decision))]
    if setup.job.start is None:
        found.append(plan.Reason(key="start", text="no start in the job: the next working hour was taken"))
    found += [plan.Reason(key=key, text=text) for key, text in setup.mold.reasons]
    found.append(plan.Reason(key="fill.bands", text=_why_voids(setup)))
    if setup.job.prices is None:
        found.append(plan.Reason(key="shopping[].price", text="no [prices] in the job: none are guessed"))
    if setup.mold.rubber.fill_mark is None:
        found.append(
            plan.Reason(
                key="mold.rubber.fill_mark_before_master_m", text="the master stands in the box already"
            )
        )
    if decision.choice.trial.ready is None:
        found.append(plan.Reason(key="demold.after_h", text="it never gets hard enough in this shop"))
    if not decision.choice.proven:
        found.append(
            plan.Reason(key="search", text="the search for an earlier finish stopped at its limit of trials")
        )
    return found


def _why_so_many(setup: Setup, decision: Decision) -> str:
    count = len(decision.final.pours)
    if not decision.choice.failed:
        return f"{count} {'pour' if count == 1 else 'pours'}: everything at once keeps all limits"
    fewer = "; ".join(failure_words(failure, setup.system) for failure in decision.choice.failed)
    return f"{count} pours, because with {fewer}"


def failure_words(failure: Failure, system: UnitSystem) -> str:
    """Say what stopped a number of pours.

    Parameters
    ----------
    failure : Failure
        Count, constraint, amount.
    system : UnitSystem
        For the words.

    Returns
    -------
    str
        As in "2 pours the hottest place goes over the limit by at least 18 K".
    """
    name = "1 pour" if failure.count == 1 else f"{failure.count} pours"
    if failure.constraint == "peak":
        by = format_temperature_difference(failure.amount, system)
        return f"{name} the hottest place goes over the limit by {by} or more"
    if failure.constraint == "border":
        upper = format_length(failure.place[1], system)
        return f"{name} glass would have to lie on liquid resin at {upper}"
    return f"{name} nobody is there while the last one still bonds: {failure.amount / 3600:.0f} h short"


def _why_voids(setup: Setup) -> str:
    glass = [band for band in setup.fill.bands if not band.neat]
    if not glass:
        return "no glass: the piece is neat"
    band = glass[0]
    cover = format_length(setup.fill.neat_cover, setup.system)
    return (
        f"void fraction {band.void_fraction:.2f} ({band.void_low:.2f} to {band.void_high:.2f}): "
        f"{band.void_source}; neat cover {cover} at the open face"
    )
