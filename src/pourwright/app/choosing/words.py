"""What changed between two texts of a job file, in a few words."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.app.choosing.catalogue import choices
from pourwright.app.choosing.values import text_of
from pourwright.jobs.keypaths import KeyPath, shown

MOST = 3
"""Changes that are told one by one."""


def what_changed(before: str, after: str) -> str:
    """Tell what is different.

    Parameters
    ----------
    before, after : str
        Texts of a job file, readable or not.

    Returns
    -------
    str
        As in ``rubber beside the piece 19 mm → 20 mm``.
    """
    old, new = _read(before), _read(after)
    if old is None or new is None:
        return "a text that cannot be read" if new is None else "a text that can be read again"
    told = list(dict.fromkeys(_differences(old, new, ())))
    if not told:
        return "comments or layout"
    rest = len(told) - MOST
    return ", ".join(told[:MOST]) + (f" and {rest} more" if rest > 0 else "")


def name_of(path: KeyPath) -> str:
    """Name a key in running text.

    Parameters
    ----------
    path : tuple
        Of the key.

    Returns
    -------
    str
        Its label, or the key itself.
    """
    choice = choices().get(shown(path))
    if choice is None:
        return shown(path)
    return choice.label[:1].lower() + choice.label[1:]


def _read(text: str) -> dict[str, Any] | None:
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError):
        return None


def _differences(old: Any, new: Any, path: KeyPath) -> Iterator[str]:
    for name in dict.fromkeys((*old, *new)):
        here, was, now = (*path, name), old.get(name), new.get(name)
        if was == now:
            continue
        if _tables(was) and _tables(now):
            yield from _differences(was or {}, now or {}, here)
        elif name == "band":
            yield f"{shown(path)}: bands" if path else "bands"
        elif name == "variant":
            yield from _variants(was, now)
        else:
            yield f"{name_of(here)} {_short(was)} → {_short(now)}"


def _variants(was: Any, now: Any) -> Iterator[str]:
    old = {each.get("name"): each for each in was or [] if isinstance(each, Mapping)}
    new = {each.get("name"): each for each in now or [] if isinstance(each, Mapping)}
    for name in dict.fromkeys((*old, *new)):
        if name in old and name in new:
            yield from (f"{name}: {each}" for each in _differences(old[name], new[name], ()))
        else:
            yield f"variant {name} {'added' if name in new else 'taken out'}"


def _tables(value: Any) -> bool:
    return value is None or isinstance(value, Mapping)


def _short(value: Any) -> str:
    if value is None:
        return "default"
    if isinstance(value, list) and any(isinstance(each, list | Mapping) for each in value):
        return f"a list of {len(value)}"
    text = text_of(value)
    return text if len(text) <= 40 else f"{text[:39]}…"
