"""Pinned values that no run can use: each by itself, and against each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from types import MappingProxyType

from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.jobs.errors import Finding
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.keys import Section
from pourwright.jobs.pin import Pin, PinSurroundings

Found = tuple[KeyPath, Finding]

# common practice, no source: wide enough for any published case, narrow enough to catch a slip of the unit
LIMITS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "kinetics.a1": ("0 1/s", "1e40 1/s"),
        "kinetics.e1": ("0 kJ/mol", "1000 kJ/mol"),
        "kinetics.a2": ("0 1/s", "1e40 1/s"),
        "kinetics.e2": ("0 kJ/mol", "1000 kJ/mol"),
        "kinetics.heat_of_reaction": ("0 J/g", "100000 J/g"),
        "matter.density": ("1 kg/m3", "25000 kg/m3"),
        "matter.heat_capacity": ("10 J/(kg K)", "20000 J/(kg K)"),
        "matter.conductivity": ("0.001 W/(m K)", "500 W/(m K)"),
        "film.h": ("0 W/(m2 K)", "1e15 W/(m2 K)"),
        "grid.spacing": ("0.001 mm", "1 m"),
        "grid.across": ("0.001 mm", "1 m"),
        "grid.tolerance": ("0.0001 K", "10 K"),
        "pour.temperature": ("-50 degC", "400 degC"),
        "surroundings.temperatures": ("-100 degC", "600 degC"),
    }
)
"""Least and most of each key, as one would write them."""
MOST_POURS, MOST_PROBES, MOST_TIMES = 50, 200, 1000
LONGEST = "104 weeks"


def pin_checks(job: Job) -> Iterator[Found]:
    """Find pinned values that no run can use.

    Parameters
    ----------
    job : Job
        Already valid key by key.

    Yields
    ------
    tuple
        Key path; what is wrong, what is allowed, what to do.
    """
    if job.pin is None:
        return
    for path, value in _quantities(job.pin):
        name = ".".join(str(step) for step in path[1:] if isinstance(step, str))
        if name in LIMITS and (found := _outside(value, *LIMITS[name])):
            yield path, found
    yield from _counts(job.pin)
    yield from _pours(job.pin)
    yield from _times(job.pin)
    yield from _probe_names(job.pin)


def _quantities(pin: Pin) -> Iterator[tuple[KeyPath, Quantity]]:
    """Every quantity with its path, through tables and lists."""
    stack: list[tuple[KeyPath, object]] = [(("pin",), pin)]
    while stack:
        path, value = stack.pop()
        if isinstance(value, Quantity):
            yield path, value
        elif isinstance(value, list):
            stack += [((*path, i), item) for i, item in enumerate(value)]
        elif isinstance(value, Section):
            stack += [((*path, name), item) for name, item in value]


def _outside(value: Quantity, low: str, high: str) -> Finding | None:
    least, most = (parse_quantity(end, value.dimension).si for end in (low, high))
    if least <= value.si <= most:
        return None
    came = f"{value.text!r} is {'too little' if value.si < least else 'too much'}"
    return came, f"{low} to {high}", "mend the value"


def _counts(pin: Pin) -> Iterator[Found]:
    for name, rows, most in (("pour", pin.pour, MOST_POURS), ("probe", pin.probe, MOST_PROBES)):
        if len(rows) > most:
            yield ("pin", name), (f"{len(rows)} of them", f"up to {most}", "keep those that are needed")


def _pours(pin: Pin) -> Iterator[Found]:
    below, before = 0.0, None
    for i, pour in enumerate(pin.pour):
        path: KeyPath = ("pin", "pour", i)
        if pour.to is None and i < len(pin.pour) - 1:
            yield (*path, "to"), ('a pour to "top" before another', "the last pour only", "put it last")
        if pour.to is not None and pour.to.si <= below:
            came = f"{pour.to.text!r} does not lie above {'the floor' if i == 0 else 'the pour below'}"
            yield (*path, "to"), (came, "levels that rise from the mold's floor", "put the pours in order")
        if pour.at is None and i > 0:
            yield path, ("the key 'at' is missing", "", "add it: time from the start of the run")
            continue
        at = 0.0 if pour.at is None else pour.at.si
        if pour.at is not None and (at < 0.0 or (before is not None and at <= before)):
            came = f"{pour.at.text!r} is not after {'the pour below' if at >= 0 else 'the start'}"
            yield (*path, "at"), (came, "0 h or more, later than the pour below", "mend the time")
        below, before = pour.to.si if pour.to else below, at


def _times(pin: Pin) -> Iterator[Found]:
    most = parse_quantity(LONGEST, Dimension.TIME).si
    last = max((pour.at.si for pour in pin.pour if pour.at), default=0.0)
    if pin.until is not None and not last < pin.until.si <= most:
        came = f"{pin.until.text!r} is {'too much' if pin.until.si > most else 'not after the last pour'}"
        yield ("pin", "until"), (came, f"after the last pour, up to {LONGEST}", "mend the time")
    if last > most:
        yield ("pin", "pour"), ("a pour after two years", f"up to {LONGEST}", "mend its time")
    if pin.surroundings is not None:
        yield from _surroundings(pin.surroundings, most)


def _surroundings(given: PinSurroundings, most: float) -> Iterator[Found]:
    path: KeyPath = ("pin", "surroundings")
    times = [time.si for time in given.times]
    if len(times) != len(given.temperatures):
        came = f"{len(times)} times and {len(given.temperatures)} temperatures"
        yield path, (came, "one temperature for each time", "mend the lists")
    if times[0] < 0 or times[-1] > most or any(b <= a for a, b in pairwise(times)):
        yield (
            (*path, "times"),
            ("times that do not rise", f"0 h or more, rising, up to {LONGEST}", "mend them"),
        )
    if len(times) > MOST_TIMES:
        yield (*path, "times"), (f"{len(times)} times", f"up to {MOST_TIMES}", "leave some out")


def _probe_names(pin: Pin) -> Iterator[Found]:
    names = [probe.name or str(i) for i, probe in enumerate(pin.probe, 1)]
    for i, name in enumerate(names):
        if name in names[:i]:
            yield ("pin", "probe", i), (f"a second probe called {name!r}", "names that differ", "rename one")
