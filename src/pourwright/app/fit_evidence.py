"""From the facts file to what is fitted, in SI, each piece with its name in words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pourwright.calibration import (
    Conditions,
    CupChoices,
    FactKind,
    Mix,
    Question,
    find_prior,
    in_kelvin,
    make_cup_test,
    make_fact,
    read_logger,
)
from pourwright.calibration.cup_test import CupTest
from pourwright.calibration.evidence import Evidence
from pourwright.calibration.logger import Reading
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import (
    UnitSystem,
    format_duration,
    format_length,
    format_mass,
    format_temperature,
)
from pourwright.foundation.quantities import Quantity
from pourwright.jobs.facts import FACTS, Cup, Facts
from pourwright.materials import Resin, load_materials
from pourwright.physics.heat_deflection import METHODS

_VALUES = {
    "peak": "temperature",
    "depth": "depth",
    "glass_transition": "temperature",
    "heat_deflection": "temperature",
}
_WORDS = {
    "pot_life": "pot life", "gel_time": "gel time", "tack_free": "tack-free", "demold": "demold",
    "peak": "peak", "depth": "greatest depth", "glass_transition": "glass transition",
    "heat_deflection": "heat deflection",
}  # fmt: skip


@dataclass(frozen=True)
class Asked:
    """A fit ready to be made.

    Parameters
    ----------
    facts : Facts
        As written.
    base : Resin
        Generic resin of the family.
    mix : Mix
        Ratio and densities.
    question : Question
        Prior and evidence.
    readings : mapping
        What the logger saw in each cup test, by its name.
    notes : tuple of str
        What was assumed.
    """

    facts: Facts
    base: Resin
    mix: Mix
    question: Question
    readings: Mapping[str, Reading]
    notes: tuple[str, ...]

    @property
    def system(self) -> UnitSystem:
        """Units of what is printed."""
        return UnitSystem(self.facts.units)


def ask(facts: Facts) -> Asked:
    """Turn facts into a question.

    Parameters
    ----------
    facts : Facts
        As written.

    Returns
    -------
    Asked
        With every logger file read and checked.

    Raises
    ------
    UserError
        For an unknown family, or a logger file that cannot be used.
    """
    prior = find_prior(facts.family, facts.where(("family",)))
    base = load_materials().resin[facts.family]
    mix = _mix(facts)
    stated = mix.mixed_density()
    density = base.density.value if stated is None else stated
    cups = list(_cups(facts, density))
    evidence: list[Evidence] = [*_facts(facts, density), *(test for test, _ in cups)]
    notes = [] if stated else [f"density of the mix taken from the family: {density:.0f} kg/m3"]
    notes += [f"{test.label}: its diameter is not told, taken as wide as the resin is deep"
              for (test, _), cup in zip(cups, facts.cup, strict=True) if cup.diameter is None]  # fmt: skip
    return Asked(
        facts, base, mix, Question(prior, tuple(evidence), density),
        {test.label: reading for test, reading in cups}, tuple(notes),
    )  # fmt: skip


def _mix(facts: Facts) -> Mix:
    said = facts.mix

    def pair(parts: list[float] | None) -> tuple[float, float] | None:
        return None if parts is None else (parts[0], parts[1])

    return Mix(
        pair(said.parts_by_weight), pair(said.parts_by_volume), _si(said.density),
        _si(said.density_a), _si(said.density_b),
    )  # fmt: skip


def _si(value: Quantity | None) -> float | None:
    return None if value is None else value.si


def _facts(facts: Facts, density: float) -> Iterator[Evidence]:
    for name in FACTS:
        tables = getattr(facts, name)
        for index, table in enumerate(tables):
            value: Quantity = getattr(table, _VALUES.get(name, "time"))
            label = f"{_WORDS[name]}{_under(table, UnitSystem(facts.units))}"
            label += f" ({index + 1})" * _repeated(tables, table, index)
            sure = 0.0 if table.sure is None else _deviation(table.sure, value, name)
            yield make_fact(
                FactKind(name), label, value.si, _conditions(table), density,
                deviation=sure, where=facts.where((name, index)),
            )  # fmt: skip


def _repeated(tables: list[Any], table: Any, index: int) -> bool:
    same = [each for each in tables if _conditions(each) == _conditions(table)]
    return len(same) > 1 and index >= 0


def _deviation(share: float, value: Quantity, name: str) -> float:
    """A share of times and depths; of temperatures, a share of their degrees Celsius."""
    least = 0.01
    if name in _VALUES and _VALUES[name] == "temperature":
        return max(share * abs(value.si - 273.15), 0.5)
    return max(share, least)


def _conditions(table: Any) -> Conditions:
    given = {
        name: getattr(table, name).si
        for name in ("mass", "thickness", "width", "limit", "after")
        if getattr(table, name, None) is not None
    }
    method = getattr(table, "method", None)
    return Conditions(
        temperature=_si(table.room),
        load=None if method is None else METHODS[method].stress,
        wall=getattr(table, "wall", "plastic"),
        **given,
    )


_SHOWN: Mapping[str, tuple[str, Callable[[float, UnitSystem], str]]] = {
    "mass": ("", format_mass),
    "thickness": ("", format_length),
    "width": ("wide ", format_length),
    "after": ("after ", lambda value, _: format_duration(value)),
    "limit": ("below ", format_temperature),
    "room": ("at ", format_temperature),
}


def _under(table: Any, system: UnitSystem) -> str:
    said = [
        f"{word}{show(value.si, system)}"
        for name, (word, show) in _SHOWN.items()
        if (value := getattr(table, name, None)) is not None
    ]
    return f", {', '.join(said)}" if said else ""


def _cups(facts: Facts, density: float) -> Iterator[tuple[CupTest, Reading]]:
    for index, cup in enumerate(facts.cup):
        path = facts.path.parent / cup.file
        try:
            reading = read_logger(path, dates=cup.dates)
            room, start = _si(cup.room), _si(cup.start)
            reading = in_kelvin(_within(reading, _si(cup.until)), cup.unit, room, start)
        except UserError as error:
            raise _told_from(facts, index, path, error) from None
        label = "cup test" if len(facts.cup) == 1 else f"cup test {index + 1}"
        yield make_cup_test(label, reading, _choices(cup, density)), reading


def _told_from(facts: Facts, index: int, path: Path, error: UserError) -> UserError:
    """A file that is not there is a fault of the facts file; all others stand in the file itself."""
    if path.exists():
        return error
    return UserError(
        f"no such file: {facts.cup[index].file}",
        where=facts.where(("cup", index, "file")),
        todo="mend its name",
    )


def _within(reading: Reading, until: float | None) -> Reading:
    if until is None:
        return reading
    keep = reading.time <= until
    return Reading(
        reading.file, reading.time[keep], reading.cup[keep],
        None if reading.air is None else reading.air[keep], reading.line[keep], reading.unit,
    )  # fmt: skip


def _choices(cup: Cup, density: float) -> CupChoices:
    return CupChoices(
        cup.mass.si, density, _si(cup.diameter), cup.wall, _si(cup.room), _si(cup.start), _si(cup.mixed),
        cup.probe,
    )  # fmt: skip
