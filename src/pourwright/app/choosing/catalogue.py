"""Every field of the page: which key, in which section, what it holds, what it is called."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from pourwright.app.choosing.kinds import TEXT, Kind, kind_of
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath, shown
from pourwright.jobs.reference import default_of, inner_model

SECTIONS: Mapping[str, str] = MappingProxyType(
    {"piece": "The piece", "mold": "The mold", "fill": "The fill", "pour": "The pour", "paper": "Paper"}
)
"""Titles of the sections, in the order of work."""
BELONGS: Mapping[str, str] = MappingProxyType(
    {
        "title": "piece", "units": "piece", "shape": "piece", "sizes": "piece", "hollow": "piece",
        "insert": "piece", "mold": "mold", "master": "mold", "casting.material": "fill", "band": "fill",
        "fill": "fill", "bottles": "fill", "casting": "pour", "start": "pour", "shop": "pour",
        "limits": "pour", "planner": "pour", "seed": "pour", "pin": "pour", "paper": "paper",
        "sheet": "mold", "bar": "mold", "saw": "mold", "prices": "paper",
        "invented": "paper", "format": "paper", "variant": "paper",
    }
)  # fmt: skip
"""Section of every key, by the key or the table that it stands in."""
IDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "casting.material": ("resin", "mineral"), "planner.resins": ("resin",), "mold.rubber": ("rubber",),
        "mold.board": ("board",), "mold.block_board": ("board",), "mold.bar_board": ("board",),
        "master.board": ("board",), "hollow.core": ("core", "board"), "fill.glass": ("glass",),
        "fill.aggregate_grade": ("grade",), "mold.release": ("release",), "master.sealer": ("sealer",),
        "master.material": ("surface",),
    }
)  # fmt: skip
"""Shelves of records that a key names by id."""
GROUPS: Mapping[str, str] = MappingProxyType(
    {"master": "Master", "hollow": "Core", "bottles": "Bottles", "sizes": "Sizes", "planner": "Planner"}
)
"""What labels of some tables begin with."""
OPTIONAL = ("hollow", "prices")
"""Tables that a job may do without, whatever must stand in them where they are there."""
UNSHOWN = ("pin", "insert", "band", "variant", "sheet", "bar")
"""Tables without fields of their own: bands have their tape, the rest is written in the text of the file."""


@dataclass(frozen=True)
class Choice:
    """One field of the page.

    Parameters
    ----------
    path : tuple
        Of its key.
    section : str
        Key of `SECTIONS`.
    kind : Kind
        What it holds.
    info : FieldInfo
        How the key is declared.
    help : Mapping
        What `field_help.toml` says of it.
    needs : str
        Table that must be there for the field to be shown; "" for none.
    """

    path: KeyPath
    section: str
    kind: Kind
    info: FieldInfo
    help: Mapping[str, Any]
    needs: str = ""

    @property
    def key(self) -> str:
        """Its key as people write it."""
        return shown(self.path)

    @property
    def label(self) -> str:
        """What it is called on the page."""
        if "label" in self.help:
            return str(self.help["label"])
        words = " ".join(str(step).replace("_", " ") for step in self.path[1:] or self.path)
        group = GROUPS.get(str(self.path[0])) if len(self.path) > 1 else None
        return f"{group}: {words}" if group else words[:1].upper() + words[1:]

    @property
    def main(self) -> bool:
        """Whether it is shown at once."""
        return bool(self.help.get("main")) or bool(self.needs)

    @property
    def required(self) -> bool:
        """Whether a job must have it."""
        return self.info.is_required() and self.path[0] not in OPTIONAL

    @property
    def default(self) -> str:
        """What holds where the key is left out, in words."""
        return default_of(self.info) if self.required or not self.info.is_required() else "none"

    @property
    def extra(self) -> Mapping[str, Any]:
        """What the declaration says besides."""
        extra = self.info.json_schema_extra
        return extra if isinstance(extra, dict) else {}


@cache
def choices() -> Mapping[str, Choice]:
    """List every field of the page.

    Returns
    -------
    Mapping
        By key, in the order of the file.
    """
    return MappingProxyType({each.key: each for each in _fields(Job, ())})


@cache
def field_help() -> Mapping[str, Any]:
    """Read what the page says beside its fields.

    Returns
    -------
    Mapping
        As in the data file: tables within tables.
    """
    text = files("pourwright").joinpath("data", "field_help.toml").read_text("utf8")
    return MappingProxyType(tomllib.loads(text))


def section_of(path: KeyPath) -> str:
    """Find the section that a key belongs to.

    Parameters
    ----------
    path : tuple
        Of the key.

    Returns
    -------
    str
        Key of `SECTIONS`.

    Examples
    --------
    >>> section_of(("casting", "material")), section_of(("casting", "start_temperature"))
    ('fill', 'pour')
    """
    named = tuple(step for step in path if isinstance(step, str))
    return BELONGS.get(".".join(named[:2])) or BELONGS[named[0]]


def _fields(model: type[BaseModel], above: KeyPath, needs: str = "") -> Iterator[Choice]:
    for name, info in model.model_fields.items():
        path = (*above, info.alias or name)
        inner, many = inner_model(info.annotation)
        if path[0] in UNSHOWN or many:
            continue
        if inner is not None:
            # of the ways to write a shape only the one in the file is shown
            yield from _fields(inner, path, shown(path) if path[:1] == ("shape",) and above else "")
        elif (kind := kind_of(info)) is not None:
            yield Choice(path, section_of(path), _with_ids(path, kind), info, _told(path), needs)


def _with_ids(path: KeyPath, kind: Kind) -> Kind:
    return Kind("id", many=kind.many) if kind.name == TEXT and shown(path) in IDS else kind


def _told(path: KeyPath) -> Mapping[str, Any]:
    table: Any = field_help()
    for step in path:
        table = table.get(step, {}) if isinstance(table, Mapping) else {}
    return {name: each for name, each in table.items() if name == "words" or not isinstance(each, Mapping)}
