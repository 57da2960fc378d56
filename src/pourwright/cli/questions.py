"""The five questions of a new job, asked at the keyboard or answered by options."""

import sys
from collections.abc import Iterable, Mapping
from pathlib import PurePath
from typing import Any, Protocol

import click

from pourwright.foundation.errors import UserError

_FORMATS_WITH_UNIT = {".3mf", ".glb", ".step", ".stp"}
_USUAL_COLOUR = "clear"
_SIZES = {
    "box": "Size: length x width x height, as 12 in x 8 in x 10 in",
    "cylinder": "Size: diameter x height, as 200 mm x 350 mm",
    "sphere": "Size: diameter, as 8 in",
    "turned": "Size: largest diameter x height, as 200 mm x 350 mm",
    "outline": "Size: length x width x height, as 400 mm x 300 mm x 40 mm",
    "measured": "Height of the thing, as 360 mm or 14 in",
}


class Choices(Protocol):
    """What can be chosen, each by its id with a line about it; the first is the default."""

    @property
    def materials(self) -> Mapping[str, str]:
        """Casting materials."""

    @property
    def grades(self) -> Mapping[str, str]:
        """Grades of crushed glass."""


def at_keyboard() -> bool:
    """Say whether somebody can answer.

    Returns
    -------
    bool
    """
    return sys.stdin.isatty()


class Asker:
    """Takes each answer from its option, else from the keyboard, else from the default.

    Parameters
    ----------
    given : mapping
        What the options said, None where they said nothing.
    take_defaults : bool
        Never ask.
    """

    def __init__(self, given: Mapping[str, str | None], *, take_defaults: bool) -> None:
        self._given = given
        self._ask = not take_defaults and at_keyboard()
        self._take_defaults = take_defaults

    def answer(self, key: str, question: str, default: str | None = None) -> str:
        """Answer one question."""
        option = f"--{key.replace('_', '-')}"
        given = self._given.get(key)
        if given is not None:
            return given.strip()
        if self._ask:
            return str(click.prompt(question, default=default, err=True)).strip()
        if default is not None and self._take_defaults:
            return default
        todo = f"add {option}" + (f", or --yes for {default!r}" if default is not None else "")
        raise UserError("one of the five questions has no answer", where=option, todo=todo)

    def list_choices(self, key: str, choices: Mapping[str, str]) -> None:
        """Show what can be chosen, where somebody is about to be asked."""
        if self._ask and self._given.get(key) is None:
            width = max(map(len, choices), default=0)
            for name, line in choices.items():
                click.echo(f"     {name:<{width}}  {line}", err=True)


def five_questions(asker: Asker, choices: Choices) -> tuple[str, str | None, dict[str, Any]]:
    """Get the answers a new job needs.

    Parameters
    ----------
    asker : Asker
        Where answers come from.
    choices : Choices
        What can be chosen.

    Returns
    -------
    tuple
        Shape (a file, or a word such as ``box``), the unit of its numbers, and the other answers: ``size``
        (the lengths of a written shape), ``material``, ``glass`` (pairs of grade and colour, from the
        mold's floor up), ``shop_temperature``.
    """
    shape = asker.answer("shape", f"1  Shape: a mesh file, or {', '.join(_SIZES)} (with a tape)")
    unit, size = _unit_or_size(asker, shape)
    asker.list_choices("material", choices.materials)
    material = asker.answer("material", "3  Casting material", next(iter(choices.materials)))
    _refuse_unknown("--material", material, choices.materials)
    glass = _glass(asker, choices.grades)
    usual = "68 degF" if _thinks_in_inches([unit or "", *size]) else "20 degC"
    warmth = asker.answer("shop_temperature", "5  Shop temperature, with its unit", usual)
    answers = {"material": material, "glass": glass, "shop_temperature": warmth}
    return shape, unit, answers | ({"size": size} if size else {})


def _unit_or_size(asker: Asker, shape: str) -> tuple[str | None, list[str]]:
    if shape in _SIZES:
        size = asker.answer("size", f"2  {_SIZES[shape]}")
        return None, [edge.strip() for edge in size.split(" x ")]
    if PurePath(shape).suffix.lower() in _FORMATS_WITH_UNIT:
        return None, []
    return asker.answer("unit", "2  Unit of the numbers in the file, such as mm or in"), []


def _glass(asker: Asker, grades: Mapping[str, str]) -> list[tuple[str, str]]:
    asker.list_choices("glass", {**grades, "none": "casting material alone"})
    question = "4  Crushed glass, from the mold's floor up: grade and colour, as GRADE green, GRADE clear"
    said = asker.answer("glass", question, f"{next(iter(grades))} {_USUAL_COLOUR}")
    if said == "none":
        return []
    bands = [band.strip().partition(" ") for band in said.split(",")]
    for grade, _, _ in bands:
        _refuse_unknown("--glass", grade, [*grades, "none"])
    return [(grade, colour.strip() or _USUAL_COLOUR) for grade, _, colour in bands]


def _refuse_unknown(where: str, name: str, known: Iterable[str]) -> None:
    if name not in known:
        raise UserError(f"{name!r} is not among them", where=where, allowed=", ".join(known))


def _thinks_in_inches(said: Iterable[str]) -> bool:
    return any(mark in each for each in said for mark in ("in", "ft", '"', "'"))
