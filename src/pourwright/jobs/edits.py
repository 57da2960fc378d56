"""One key of a job file changed in its text: every other letter, comments too, stays where it is."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any

import tomlkit

from pourwright.foundation.errors import UserError
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath, shown
from pourwright.jobs.lines import Layout, layout_of

_BARE = re.compile(r"[A-Za-z0-9_-]+\Z")
ORDER = tuple(info.alias or name for name, info in Job.model_fields.items())
"""Tables of the file in the order of work, for where a new one goes."""


def with_value(text: str, path: KeyPath, value: object) -> str:
    r"""Set a key, or take it out.

    Parameters
    ----------
    text : str
        Valid TOML whose lines end in ``\n`` alone.
    path : tuple
        Keys, and positions counted from 0.
    value : object
        What TOML can hold; None takes the key out, and leaves a comment beside it as a line.

    Returns
    -------
    str
        The same text but for that key.

    Raises
    ------
    UserError
        Where the file is written in a way that cannot be changed key by key.

    Examples
    --------
    >>> print(with_value('[mold]\nwall = "20 mm"  # thin\n', ("mold", "wall"), "19 mm"))
    [mold]
    wall = "19 mm"  # thin
    """
    wanted = _wanted(tomllib.loads(text), path, value)
    layout = layout_of(text)
    if value is None:
        new = _without(text, layout, path)
    elif path in layout.assignments:
        place = layout.assignments[path]
        new = text[: place.value] + literal(value) + text[place.end :]
    else:
        new = _with_new(text, layout, path, value)
    return checked(new, wanted, shown(path))


def without_empty(text: str, path: KeyPath) -> str:
    """Take the heading of a table out where nothing stands below it.

    Parameters
    ----------
    text : str
        Valid TOML.
    path : tuple
        Of the table.

    Returns
    -------
    str
        Without it; the same text where the table holds something.

    Raises
    ------
    UserError
        Where it cannot be taken out alone.
    """
    raw = tomllib.loads(text)
    if at(raw, path) != {}:
        return text
    layout = layout_of(text)
    wanted = _wanted(raw, path, None)
    block = next((each for each in layout.blocks if each.path == path), None)
    if block is None:
        return checked(_without(text, layout, path), wanted, shown(path))
    begin = text.rfind("\n", 0, block.start) + 1
    above = text[:begin].removesuffix("\n") if text[:begin].endswith("\n\n") else text[:begin]
    below = _line_cut(text[begin:], block.start - begin, block.end - begin)
    return checked(above + below, wanted, shown(path))


def checked(text: str, wanted: Mapping[str, Any], where: str) -> str:
    """Make sure that an edited text says what was wanted, and nothing else changed.

    Parameters
    ----------
    text : str
        As edited.
    wanted : Mapping
        What it must read as.
    where : str
        Key, for the error.

    Returns
    -------
    str
        The text.

    Raises
    ------
    UserError
        Where it reads otherwise.
    """
    try:
        right = tomllib.loads(text) == wanted
    except tomllib.TOMLDecodeError:
        right = False
    if not right:
        raise UserError(
            "the file is written in a way that cannot be changed here", where=where,
            todo="change it in the text of the file",
        )  # fmt: skip
    return text


def at(raw: Any, path: KeyPath) -> Any:
    """Look up a key path.

    Parameters
    ----------
    raw : object
        As read from TOML.
    path : tuple
        Keys, and positions counted from 0.

    Returns
    -------
    object
        None where nothing stands there.
    """
    for step in path:
        if isinstance(raw, Mapping):
            raw = raw.get(str(step))
        elif isinstance(raw, list) and isinstance(step, int) and step < len(raw):
            raw = raw[step]
        else:
            return None
    return raw


def literal(value: object) -> str:
    """Write a value as TOML on one line.

    Parameters
    ----------
    value : object
        Text, number, date, list or table.

    Returns
    -------
    str

    Examples
    --------
    >>> literal({"mass": "6.85 kg", "parts": [1, 2.5]})
    '{ mass = "6.85 kg", parts = [1, 2.5] }'
    """
    if isinstance(value, Mapping):
        inner = ", ".join(f"{dotted((key,))} = {literal(each)}" for key, each in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(literal, value))}]"
    return str(tomlkit.item(value).as_string())


def dotted(path: Sequence[str | int]) -> str:
    """Write keys as TOML does, quoted where they must be.

    Parameters
    ----------
    path : sequence
        Keys alone.

    Returns
    -------
    str
    """
    return ".".join(
        str(step) if _BARE.match(str(step)) else str(tomlkit.string(str(step)).as_string()) for step in path
    )


def line_end(text: str, place: int) -> int:
    """Find where the line of a place ends, before its line end.

    Parameters
    ----------
    text : str
        The file.
    place : int
        Position in it.

    Returns
    -------
    int
        Position.
    """
    found = text.find("\n", place)
    return len(text) if found < 0 else found


def block_end(text: str, layout: Layout, number: int) -> int:
    """Find where the last line of a block ends; comments after it belong to what comes next.

    Parameters
    ----------
    text : str
        The file.
    layout : Layout
        Of the same text.
    number : int
        Of the block.

    Returns
    -------
    int
        Position at the end of that line; 0 for an empty top.
    """
    ends = [each.end for each in layout.assignments.values() if each.block == number]
    last = max(ends, default=layout.blocks[number].end)
    return line_end(text, last) if last else 0


def place_of_table(text: str, layout: Layout, name: str) -> int:
    """Find where a table that is not there yet goes, by the order of work.

    Parameters
    ----------
    text : str
        The file.
    layout : Layout
        Of the same text.
    name : str
        First key of the table.

    Returns
    -------
    int
        Position at the end of a line.
    """
    rank = ORDER.index(name) if name in ORDER else len(ORDER)
    before = [
        number
        for number, block in enumerate(layout.blocks)
        if not block.path or (block.path[0] in ORDER and ORDER.index(str(block.path[0])) < rank)
    ]
    return block_end(text, layout, before[-1])


def _wanted(raw: dict[str, Any], path: KeyPath, value: object) -> dict[str, Any]:
    wanted = deepcopy(raw)
    node: Any = wanted
    for step in path[:-1]:
        if isinstance(node, dict):
            node = node.setdefault(step, {}) if value is not None else node.get(step, {})
        else:
            node = node[step]
    if value is None:
        node.pop(path[-1], None)
    else:
        node[path[-1]] = _plain(value)
    return wanted


def _plain(value: object) -> object:
    """A value as tomllib reads it back: lists and tables of its own kinds."""
    if isinstance(value, Mapping):
        return {str(key): _plain(each) for key, each in value.items()}
    return [_plain(each) for each in value] if isinstance(value, list | tuple) else value


def _without(text: str, layout: Layout, path: KeyPath) -> str:
    place = layout.assignments.get(path)
    if place is None:
        return text
    if not place.inline:
        return _line_cut(text, place.start, place.end)
    after = re.compile(r"[ \t]*,[ \t]*").match(text, place.end)
    if after:
        return text[: place.start] + text[after.end() :]
    return re.sub(r"[ \t]*,[ \t]*\Z", "", text[: place.start]) + text[place.end :]


def _line_cut(text: str, start: int, end: int) -> str:
    """Cut whole lines out; a comment behind them stays as a line of its own."""
    begin, stop = text.rfind("\n", 0, start) + 1, line_end(text, end)
    comment = text[end:stop].strip()
    if comment:
        return text[:start] + comment + text[stop:]
    return text[:begin] + text[stop + 1 :]


def _with_new(text: str, layout: Layout, path: KeyPath, value: object) -> str:
    for known in range(len(path) - 1, -1, -1):
        owner, rest = path[:known], path[known:]
        line = f"{dotted(rest)} = {literal(value)}"
        if owner in layout.inline:
            return _between_braces(text, layout.inline[owner], line)
        number = next((n for n, block in enumerate(layout.blocks) if block.path == owner), None)
        if number is not None and (len(rest) == 1 or _takes_dots(layout, number, path[: known + 1])):
            return _below(text, layout, number, path[: known + 1], line)
    place = place_of_table(text, layout, str(path[0]))
    table = f"[{dotted(path[:-1])}]\n{dotted(path[-1:])} = {literal(value)}"
    return f"{text[:place]}\n\n{table}{text[place:] or chr(10)}"


def _between_braces(text: str, place: tuple[int, int], line: str) -> str:
    inside, close = place
    body = text[inside:close]
    kept = body.rstrip()
    new = f"{kept}, {line}{body[len(kept) :]}" if kept.strip() else f" {line} "
    return text[:inside] + new + text[close:]


def _takes_dots(layout: Layout, number: int, table: KeyPath) -> bool:
    """Whether a table is written there by dotted keys, as in the lines of a variant."""
    if layout.blocks[number].path[:1] == ("variant",):
        return True
    return any(
        place.block == number and path[: len(table)] == table and len(path) > len(table)
        for path, place in layout.assignments.items()
    )


def _below(text: str, layout: Layout, number: int, table: KeyPath, line: str) -> str:
    own = [
        (path, place)
        for path, place in layout.assignments.items()
        if place.block == number and not place.inline
    ]
    alike = [place for path, place in own if path[: len(table)] == table]
    last = max(alike or [place for _, place in own], key=lambda place: place.end, default=None)
    if last is None:
        stop = block_end(text, layout, number)
        return f"{text[:stop]}\n{line}{text[stop:] or chr(10)}" if stop else f"{line}\n{text}"
    stop = line_end(text, last.end)
    begin = text.rfind("\n", 0, last.start) + 1
    indent = text[begin : last.start] if not text[begin : last.start].strip() else ""
    return f"{text[:stop]}\n{indent}{line}{text[stop:] or chr(10)}"
