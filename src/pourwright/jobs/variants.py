"""Variants of a job: the lines that differ laid over the rest."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright.jobs.keypaths import KeyPath

Raw = dict[str, Any]


def merged(base: Mapping[str, Any], lines: Mapping[str, Any]) -> Raw:
    """Lay the lines of a variant over a job.

    Parameters
    ----------
    base : Mapping
        The job without its variants.
    lines : Mapping
        What differs; tables are merged key by key, lists are replaced whole.

    Returns
    -------
    dict
        A new table; neither argument changes.

    Examples
    --------
    >>> merged({"mold": {"wall": "20 mm", "base": "19 mm"}}, {"mold": {"wall": "15 mm"}})
    {'mold': {'wall': '15 mm', 'base': '19 mm'}}
    """
    result = dict(base)
    for name, value in lines.items():
        old = result.get(name)
        if isinstance(old, Mapping) and isinstance(value, Mapping):
            result[name] = merged(old, value)
        else:
            result[name] = value
    return result


def variant_raw(raw: Mapping[str, Any], number: int) -> Raw:
    """Resolve one variant.

    Parameters
    ----------
    raw : Mapping
        The whole file as read.
    number : int
        Which variant, counted from 0.

    Returns
    -------
    dict
        A job without variants. A shape, or the shop's temperatures, that a variant gives in another
        way take the place of the other way.
    """
    base = {name: value for name, value in raw.items() if name != "variant"}
    lines = {name: value for name, value in raw["variant"][number].items() if name != "name"}
    for table, ways in _ALTERNATIVES.items():
        given = lines.get(table)
        if isinstance(given, Mapping) and isinstance(base.get(table), Mapping):
            base[table] = _without_other_ways(base[table], given, ways)
    return merged(base, lines)


# one of these ways excludes the others, so a variant that names one drops the rest
_ALTERNATIVES = {
    "shape": (
        {"file", "unit", "body", "repair", "remesh"},
        {"box"},
        {"cone"},
        {"sphere"},
        {"torus"},
        {"profile"},
        {"outline"},
        {"part"},
        {"measured"},
        {"displaced"},
    ),
    "shop": ({"temperature"}, {"day_temperature", "night_temperature"}),
}


def _without_other_ways(
    table: Mapping[str, Any], given: Mapping[str, Any], ways: tuple[set[str], ...]
) -> Raw:
    if not any(way & set(given) for way in ways):
        return dict(table)
    dropped = set().union(*(way for way in ways if not way & set(given)))
    return {name: value for name, value in table.items() if name not in dropped}


def variant_lines(lines: Mapping[KeyPath, int], raw: Mapping[str, Any], number: int) -> dict[KeyPath, int]:
    """Find the line of every key of a resolved variant.

    Parameters
    ----------
    lines : Mapping
        Line by key path of the whole file.
    raw : Mapping
        The whole file as read.
    number : int
        Which variant, counted from 0.

    Returns
    -------
    dict
        Line by key path as in the resolved job.
    """
    root: KeyPath = ("variant", number)
    replaced = {(*root, name) for name, value in raw["variant"][number].items() if isinstance(value, list)}
    own = {path[2:]: line for path, line in lines.items() if path[:2] == root and len(path) > 2}
    kept = {
        path: line for path, line in lines.items() if path[0] != "variant" and root + path[:1] not in replaced
    }
    # a table that the variant only adds to still stands where it was begun
    return {
        **kept,
        **{path: line for path, line in own.items() if path not in kept or not _is_table(raw, path)},
    }


def _is_table(raw: Mapping[str, Any], path: KeyPath) -> bool:
    value: Any = raw
    for step in path:
        value = value[step] if isinstance(step, int) or step in value else None
        if value is None:
            return False
    return isinstance(value, Mapping)
