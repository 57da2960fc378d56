"""Contact chemistry: what stands on which surface, what a coat does about it, what a cast does to a mold."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, Literal

from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Sourced
from pourwright.materials.loading import build

Verdict = Literal["fine", "test first", "no"]
VERDICTS: tuple[Verdict, ...] = ("fine", "test first", "no")
"""From best to worst."""


@dataclass(frozen=True, kw_only=True)
class Factor:
    """One thing about a surface that a curing rubber minds, by what the rubber cures with."""

    id: str
    name: str
    platinum: Verdict
    tin: Verdict
    why: str
    kind: str
    source: str

    def verdict(self, cure_kind: str) -> Verdict:
        """Say what a rubber of one kind makes of it; of a kind unknown, test first."""
        known: dict[str, Verdict] = {"platinum": self.platinum, "tin": self.tin}
        return known.get(cure_kind, "test first")


@dataclass(frozen=True, kw_only=True)
class Surface:
    """What a master is made of, by the factors it brings."""

    id: str
    name: str
    factors: tuple[str, ...]
    kind: str
    source: str


@dataclass(frozen=True, kw_only=True)
class Coat:
    """A sealer or a release: how many coats, how long it dries, what it takes away and what it brings.

    ``covers`` takes a factor away, ``weakens`` makes 'no' into 'test first', ``spoils`` names surfaces
    that its solvent eats.
    """

    id: str
    name: str
    coats: int
    days: Sourced = field(metadata={"unit": "s"})
    covers: tuple[str, ...]
    weakens: tuple[str, ...]
    brings: tuple[str, ...]
    spoils: tuple[str, ...]
    how: str
    kind: str
    source: str
    none_on: str = ""


@dataclass(frozen=True, kw_only=True)
class Cast:
    """A family of casting materials in a cured mold."""

    id: str
    name: str
    platinum: Verdict
    tin: Verdict
    release: str
    why: str
    tin_why: str
    kind: str
    source: str

    def verdict(self, cure_kind: str) -> Verdict:
        """Say how it leaves a mold of one kind of rubber; of a kind unknown, test first."""
        known: dict[str, Verdict] = {"platinum": self.platinum, "tin": self.tin}
        return known.get(cure_kind, "test first")


_CLASSES: Mapping[str, type] = MappingProxyType(
    {"factor": Factor, "surface": Surface, "sealer": Coat, "release": Coat, "cast": Cast}
)


@dataclass(frozen=True)
class ContactTable:
    """The whole table, by id within each kind of entry."""

    factor: Mapping[str, Factor]
    surface: Mapping[str, Surface]
    sealer: Mapping[str, Coat]
    release: Mapping[str, Coat]
    cast: Mapping[str, Cast]


@cache
def load_contact() -> ContactTable:
    """Read the contact-chemistry table.

    Returns
    -------
    ContactTable

    Examples
    --------
    >>> load_contact().factor["sulfur"].verdict("platinum")
    'no'
    >>> load_contact().factor["sulfur"].verdict("a cure nobody knows")
    'test first'
    """
    return read_contact(resources.files("pourwright").joinpath("data", "contact.toml").read_text("utf8"))


def read_contact(text: str, where: str = "contact.toml") -> ContactTable:
    """Read a contact-chemistry table from TOML.

    Parameters
    ----------
    text : str
        With the tables factor, surface, sealer, release and cast.
    where : str
        For messages.

    Returns
    -------
    ContactTable

    Raises
    ------
    UserError
        For an unknown or missing key, a verdict that is none, and a factor or release nobody describes.
    """
    tables = tomllib.loads(text)
    shelves: dict[str, dict[str, Any]] = {
        kind: {
            name: _entry(cls, name, entry, f"{where} [{kind}.{name}]")
            for name, entry in tables.get(kind, {}).items()
        }
        for kind, cls in _CLASSES.items()
    }
    table = ContactTable(**shelves)
    _refuse_loose_ends(table, where)
    return table


def _entry(cls: type, name: str, entry: Mapping[str, Any], where: str) -> Any:
    for key in ("platinum", "tin"):
        if key in entry and entry[key] not in VERDICTS:
            raise UserError(f"verdict '{entry[key]}'", where=f"{where} {key}", allowed=", ".join(VERDICTS))
    values = {key: tuple(value) if isinstance(value, list) else value for key, value in entry.items()}
    return build(cls, {"id": name, **values}, where)


def _refuse_loose_ends(table: ContactTable, where: str) -> None:
    coats = [*table.sealer.values(), *table.release.values()]
    named = {name for surface in table.surface.values() for name in surface.factors}
    named |= {name for coat in coats for name in (*coat.covers, *coat.weakens, *coat.brings)}
    loose = {
        "factor": named - set(table.factor),
        "surface": {name for coat in coats for name in coat.spoils} - set(table.surface),
        "release": {cast.release for cast in table.cast.values()} - set(table.release),
    }
    for kind, names in loose.items():
        for name in sorted(names):
            raise UserError(f"no {kind} called '{name}'", where=where, todo="describe it or take it out")


def hint_for(name: str, known: Mapping[str, object]) -> str:
    """Name the entry that was perhaps meant; nothing is taken for granted.

    Parameters
    ----------
    name : str
        As written.
    known : mapping
        Entries by id.

    Returns
    -------
    str
        As ``did you mean 'plywood'?``, or what there is.

    Examples
    --------
    >>> hint_for("plywod", load_contact().surface)
    "did you mean 'plywood'?"
    """
    near = difflib.get_close_matches(name.lower().replace(" ", "-"), known, 1)
    return f"did you mean '{near[0]}'?" if near else f"known are {', '.join(sorted(known))}"
