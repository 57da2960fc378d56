"""Keys that go together: one that is set takes the other way of saying the same along."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Any

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.edits import at, with_value, without_empty
from pourwright.jobs.keypaths import KeyPath

_ONE, _DAY, _NIGHT = "temperature", "day_temperature", "night_temperature"
Change = tuple[KeyPath, object]


def with_companions(text: str, root: KeyPath, path: KeyPath, value: object) -> str:
    """Set a key, and whatever has to change with it for the file to make sense.

    Parameters
    ----------
    text : str
        Valid TOML.
    root : tuple
        ``("variant", 0)`` where the line stands in a variant.
    path : tuple
        Of the key, without the root.
    value : object
        None takes it out.

    Returns
    -------
    str
        The new text.

    Raises
    ------
    UserError
        Where the file cannot be changed in place.
    """
    new = with_value(text, (*root, *path), value)
    along = _ALONG.get(path[0])
    if along is not None and len(path) == 2:
        table = at(tomllib.loads(text), (*root, *path[:1])) or {}
        for name, other in along(table, str(path[1]), value):
            if at(tomllib.loads(new), (*root, path[0], name)) != other:
                new = with_value(new, (*root, path[0], name), other)
    if path[0] in _WHOLE_OR_NOT and len(path) == 2:
        new = without_empty(new, (*root, path[0]))
    return new


def _temperatures(table: Mapping[str, Any], name: str, value: object) -> Iterator[tuple[str, object]]:
    """One temperature, or one by day and one by night: what is known fills what is missing."""
    halves = {_DAY: _NIGHT, _NIGHT: _DAY}
    if name == _ONE and value is not None:
        yield from ((half, None) for half in halves)
    elif name in halves and value is not None:
        other = halves[name]
        yield other, table.get(other, table.get(_ONE, value))
        yield _ONE, None
    elif name in halves and halves[name] in table:
        yield halves[name], None
        yield _ONE, table[halves[name]]


def _currency(table: Mapping[str, Any], name: str, value: object) -> Iterator[tuple[str, object]]:
    """The first price says in which currency the others are; with the last one it goes."""
    if name == "currency":
        return
    if value is not None and "currency" not in table:
        if found := _currency_in(str(value)):
            yield "currency", found
    elif value is None and set(table) <= {"currency", name}:
        yield "currency", None


def _currency_in(text: str) -> str:
    for kind in (Dimension.MONEY_PER_MASS, Dimension.MONEY_PER_VOLUME, Dimension.MONEY_PER_PIECE,
                 Dimension.MONEY_PER_TIME):  # fmt: skip
        try:
            return parse_quantity(text, kind).currency
        except UserError:
            continue
    return ""


_ALONG: Mapping[str | int, Callable[[Mapping[str, Any], str, object], Iterator[tuple[str, object]]]] = (
    MappingProxyType({"shop": _temperatures, "prices": _currency})
)
_WHOLE_OR_NOT = ("prices", "hollow")
"""Tables that are left out as a whole where nothing stands in them."""
