"""Which sources a plan used, found by looking at every number it was made from."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping

from pourwright.app.defaults import DEFAULTS as SHOP
from pourwright.app.setup import Setup
from pourwright.app.shaping.sizes.defaults import DEFAULTS as SIZES
from pourwright.fill import DEFAULTS as FILL
from pourwright.foundation.sources import Sourced, load_sources
from pourwright.jobs import plan
from pourwright.mold import DEFAULTS as MOLD
from pourwright.mold.hollow.defaults import HOLLOW, INSERTS
from pourwright.planner.grid_error import sourced_grid_errors
from pourwright.pour.defaults import DEFAULTS as POUR

MODELS = {
    "kamal-sourour-1973": "rate of cure",
    "dibenedetto-1987": "glass transition as it cures",
    "chern-poehlein-1987": "cure that slows down as it turns to glass",
    "bruggeman-1935": "heat conduction of resin filled with glass",
    "churchill-chu-1975": "heat lost by upright faces",
    "mcadams-1954": "heat lost by level faces",
    "incropera-dewitt": "heat radiated by all faces",
    "us-standard-atmosphere-1976": "properties of air",
    "archimedes": "what the rubber lifts",
    "hill-1995": "shrinkage before and after gel, for cracks",
    "selsing-1961": "stretch of the resin around a grain",
    "goodier-1933": "pull on the resin at a grain",
    "timoshenko-1925": "neat resin held by a bed of glass, for cracks",
    "hashin-shtrikman-1963": "stiffness of the bed, for cracks",
    "timoshenko-goodier-1951": "stretch of a skin around a warmer core",
    "inglis-1913": "what an inner corner gathers",
    "levin-1967": "how much a bed of glass keeps resin from shrinking, for sizes",
    "de-larrard-1999": "how loosely grains lie along walls",
    "benenati-brosilow-1962": "how much glass sanding bares, for sizes",
    "carman-1937": "how easily resin runs through glass",
    "green-ampt-1911": "how long it runs down",
    "stokes-1851": "which bubbles come up",
}


def sources(setup: Setup) -> list[plan.SourceUsed]:
    """List every source of a number or an equation in the plan.

    Parameters
    ----------
    setup : Setup
        With its records.

    Returns
    -------
    list of plan.SourceUsed
        One line per source and kind, with what it was used for.
    """
    return listed(_numbers(setup), MODELS)


def listed(numbers: Iterable[tuple[str, Sourced]], models: Mapping[str, str]) -> list[plan.SourceUsed]:
    """List sources.

    Parameters
    ----------
    numbers : iterable
        What each number is used for, and the number.
    models : mapping
        What each published equation is used for, by its source.

    Returns
    -------
    list of plan.SourceUsed
        One line per source and kind.
    """
    known = load_sources()
    used: dict[tuple[str, str], list[str]] = {}
    for name, number in numbers:
        used.setdefault((number.source, str(number.kind)), []).append(name)
    for source, purpose in models.items():
        used.setdefault((source, "published"), []).append(purpose)
    return [
        plan.SourceUsed(id=source, citation=known[source].printed, kind=kind, used_for=_shortened(names))
        for (source, kind), names in sorted(used.items())
    ]


def _shortened(names: list[str]) -> str:
    distinct = sorted(set(names))
    more = f" and {len(distinct) - 8} more" if len(distinct) > 8 else ""
    return ", ".join(distinct[:8]) + more


def _numbers(setup: Setup) -> Iterator[tuple[str, Sourced]]:
    grades = {band.grade for band in setup.fill.bands if band.grade}
    glass = setup.fill.choices.glass
    for record in (setup.resin, setup.mold.choices.rubber, setup.mold.choices.board):
        yield from numbers_of(record)
    if grades:
        yield from numbers_of(
            dataclasses.replace(glass, grades=tuple(glass.grade(name) for name in sorted(grades)))
        )
    if setup.hollow is not None:
        yield from numbers_of(setup.hollow.material, "core ")
        yield from ((f"hollow {name}".replace("_", " "), number) for name, number in HOLLOW.items())
    if setup.inserts:
        yield from ((f"insert {name}".replace("_", " "), number) for name, number in INSERTS.items())
    rooms = ((MOLD, "mold"), (FILL, "fill"), (POUR, "heat"), (SHOP, "work"), (SIZES, "sizes"))
    for table, room in (*rooms, (sourced_grid_errors(), "grid")):
        yield from ((f"{room} {key}".replace("_", " "), number) for key, number in table.items())


def numbers_of(record: object, prefix: str = "") -> Iterator[tuple[str, Sourced]]:
    """Walk a record for its sourced numbers.

    Parameters
    ----------
    record : dataclass
        Of a material.
    prefix : str
        Before each name.

    Yields
    ------
    tuple
        Name in words, and number.
    """
    for item in dataclasses.fields(record):  # type: ignore[arg-type]
        value = getattr(record, item.name)
        if isinstance(value, Sourced):
            yield f"{prefix}{item.name}".replace("_", " "), value
        elif dataclasses.is_dataclass(value):
            yield from numbers_of(value, f"{item.name} ")
        elif isinstance(value, tuple):
            # names and covariance of a resin's doubts are plain
            for part in filter(dataclasses.is_dataclass, value):
                yield from numbers_of(part, f"{getattr(part, 'id', item.name)} ")
